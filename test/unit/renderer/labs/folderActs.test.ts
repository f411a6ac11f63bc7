import fc from 'fast-check'
import { beforeEach, describe, expect, it } from 'vitest'
import {
  findFolderNameTrouble,
  folderTargets,
  makeFolder,
  moveFolder,
  moveProject,
  removeFolder,
  renameFolder,
} from '../../../../renderer/labs/folderActs.ts'
import { undo } from '../../../../renderer/store/gestures.ts'
import type { Workspace } from '../../../../renderer/store/workspace.ts'
import { foldersAbove, pathOfFolder } from '../../../../shared/lab/acts.ts'
import type { Folder } from '../../../../shared/lab/model.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

let workspace: Workspace

beforeEach(async () => {
  workspace = (await openTestWorkspace(['Mast', 'Power'])).workspace
  for (const [name, parent] of [
    ['Dome', null],
    ['Roof', 'Dome'],
    ['Vane', 'Roof'],
    ['Rack', null],
  ] as const)
    await makeFolder(workspace, name, parent === null ? null : folder(parent).id)
  await moveProject(workspace, project('Mast'), folder('Roof'))
  await moveProject(workspace, project('Power'), folder('Rack'))
})

const folder = (name: string): Folder => workspace.state.projectFolders.find((one) => one.name === name)!
const project = (title: string) => workspace.state.projects.find((one) => one.title === title)!
const pathOf = (id: Folder['id'] | null): string => pathOfFolder(id, workspace.state.projectFolders).join('/')
const shape = (): string[] => [
  ...workspace.state.projectFolders.map(({ id }) => pathOf(id)),
  ...workspace.state.projects.map(({ title, folder: id }) => `${pathOf(id)}: ${title}`),
]
const lastWords = (): string => workspace.state.notices.at(-1)!.words
const begun = ['Dome', 'Dome/Roof', 'Dome/Roof/Vane', 'Rack', 'Dome/Roof: Mast', 'Rack: Power']

describe('folders for projects', () => {
  it('are renamed, moved with all in them and removed, and undo takes each back', async () => {
    expect(shape()).toEqual(begun)
    await renameFolder(workspace, folder('Roof'), '  Upper   roof ')
    expect(shape()[4]).toBe('Dome/Upper roof: Mast')
    await undo(workspace)
    await moveFolder(workspace, folder('Roof'), folder('Rack'))
    expect(shape()).toEqual([
      ...['Dome', 'Rack/Roof', 'Rack/Roof/Vane', 'Rack'],
      ...['Rack/Roof: Mast', 'Rack: Power'],
    ])
    await undo(workspace)
    await removeFolder(workspace, folder('Roof'))
    expect(shape()).toEqual(['Dome', 'Dome/Vane', 'Rack', 'Dome: Mast', 'Rack: Power'])
    expect(lastWords()).toBe('Folder “Roof” removed. What lay in it is in the folder above now.')
    await undo(workspace)
    expect(shape()).toEqual(begun)
    expect(await workspace.requireLab().rebuild()).toBe(true)
  })

  it('never lie in themselves, and two of one name never side by side', async () => {
    expect(await moveFolder(workspace, folder('Dome'), folder('Vane'))).toBe(false)
    expect(lastWords()).toBe('“Dome” was not moved. It cannot lie in a folder that lies in it.')
    await makeFolder(workspace, 'Vane', null)
    const [inner] = workspace.state.projectFolders.filter(({ name, parent }) => name === 'Vane' && parent)
    expect(await moveFolder(workspace, inner!, null)).toBe(false)
    expect(lastWords()).toContain('There is a folder “Vane” here already.')
    await moveFolder(workspace, folder('Roof'), null)
    const before = shape()
    expect(await removeFolder(workspace, folder('Roof'))).toBe(false)
    expect(lastWords()).toContain('Rename one of them first.')
    expect(shape()).toEqual(before)
    const { projectFolders } = workspace.state
    expect(findFolderNameTrouble(projectFolders, ' Dome ', null, null)).toContain('already')
    expect(findFolderNameTrouble(projectFolders, 'Dome', null, folder('Dome').id)).toBe(null)
    expect(findFolderNameTrouble(projectFolders, 'a/b', null, null)).toContain('slash')
  })

  it('are offered as places only where no ring would come of it', () => {
    fc.assert(
      fc.property(fc.constantFrom('Dome', 'Roof', 'Vane', 'Rack'), (name) => {
        const all = workspace.state.projectFolders
        const moved = folder(name)
        const offered = folderTargets(moved, all)
        for (const one of all) {
          const wouldRing = [one.id, ...foldersAbove(one.id, all)].includes(moved.id)
          expect(offered.includes(one)).toBe(!wouldRing && one.id !== moved.parent)
        }
      }),
    )
  })

  it('go one by one until every project is at the top', async () => {
    for (const { id } of workspace.state.projectFolders.slice())
      await removeFolder(workspace, { ...folder('Dome'), id })
    expect(shape()).toEqual([': Mast', ': Power'])
  })
})
