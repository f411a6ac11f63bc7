import { describe, expect, it } from 'vitest'
import { addProject, fileProject, pathOfFolder } from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type { Folder, Project } from '../../../../shared/lab/model.ts'
import { openTestLab } from '../../support/lab.ts'

async function begin() {
  const lab = await openTestLab()
  const commit = async (change: Change): Promise<void> => {
    const result = await lab.committer.commit(change)
    if (!result.ok) throw new Error(result.sentence)
  }
  for (const title of ['Mast', 'Power'])
    await commit(addProject(lab.surroundings, { title, aim: '', status: 'planned' }).change)
  const read = async () => ({
    projects: await lab.queries.projects(),
    folders: await lab.queries.folders(),
  })
  const file = async (title: string, path: readonly string[]): Promise<void> => {
    const { projects, folders } = await read()
    const project = projects.find((one) => one.title === title)!
    await commit(fileProject(lab.surroundings, project, {}, path, folders, projects))
  }
  return { lab, read, file }
}

const pathsOf = ({ projects, folders }: { projects: readonly Project[]; folders: readonly Folder[] }) =>
  projects.map(({ folder }) => pathOfFolder(folder, folders).join('/'))

describe('folders for projects', () => {
  it('lie in one another, are made once, and are no folders for sources', async () => {
    const { lab, read, file } = await begin()
    await file('Mast', ['Dome', 'Roof'])
    await file('Power', ['Dome'])
    const after = await read()
    expect(pathsOf(after)).toEqual(['Dome/Roof', 'Dome'])
    expect(after.folders.map(({ name, holds }) => [name, holds])).toEqual([
      ['Dome', 'projects'],
      ['Roof', 'projects'],
    ])
    expect(await lab.rebuild()).toBe(true)
  })

  it('go when nothing lies in them any more, and come back with undo', async () => {
    const { lab, read, file } = await begin()
    await file('Mast', ['Dome', 'Roof'])
    await file('Power', ['Dome'])
    await file('Mast', [])
    expect((await read()).folders.map(({ name }) => name)).toEqual(['Dome'])
    expect((await lab.committer.undo()).ok).toBe(true)
    expect(pathsOf(await read())).toEqual(['Dome/Roof', 'Dome'])
    await file('Mast', ['Dome', 'Roof', 'Mast head'])
    expect(pathsOf(await read())).toEqual(['Dome/Roof/Mast head', 'Dome'])
    await file('Mast', ['Dome'])
    expect((await read()).folders.map(({ name }) => name)).toEqual(['Dome'])
  })
})
