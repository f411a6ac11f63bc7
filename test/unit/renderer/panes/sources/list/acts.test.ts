import { beforeEach, describe, expect, it } from 'vitest'
import { LabRegistry } from '../../../../../../renderer/db/labs.ts'
import {
  merge,
  putIntoFolder,
  separate,
  setAside,
  setPinned,
  setUsedHere,
  tagSources,
  takeOutOfFolder,
  untagSources,
} from '../../../../../../renderer/panes/sources/list/acts.ts'
import {
  dropFolder,
  findNameTrouble,
  makeFolder,
  moveFolder,
  removalWords,
  renameFolder,
} from '../../../../../../renderer/panes/sources/list/folderActs.ts'
import { redo, undo } from '../../../../../../renderer/store/gestures.ts'
import { Workspace, type WorkspaceParts } from '../../../../../../renderer/store/workspace.ts'
import { addProject, addSource } from '../../../../../../shared/lab/acts.ts'
import type { FolderId, SourceId, WindowId } from '../../../../../../shared/lab/ids.ts'
import type { Folder } from '../../../../../../shared/lab/model.ts'
import { toFolderTree } from '../../../../../../shared/sources/folder-tree.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../../../support/lab.ts'

let workspace: Workspace
let ids: SourceId[]

beforeEach(async () => {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Mast', aim: '', status: 'planned' })
  const made = ['Fans', 'Noise', 'Wires'].map((title) =>
    addSource(around, { title, address: null, kind: 'text', wayIn: 'typed', projects: [], capture: null }),
  )
  await lab.committer.commitAll([change, ...made.map((one) => one.change)])
  ids = made.map(({ source }) => source.id)
  workspace = new Workspace({
    registry: new LabRegistry(memoryStorage()),
    openLab: () => Promise.resolve(lab),
    window: around.ids.make<WindowId>(),
  } as unknown as WorkspaceParts)
  await workspace.openLab(lab.id)
  expect(workspace.requireView().project).toBe(project.id)
})

const source = (at: number) => workspace.state.labSources!.sources.get(ids[at]!)!
const tags = () => ids.map((_, at) => source(at).tags.join())
const lastWords = () => workspace.state.notices.at(-1)!.words
const folders = (): Folder[] => [...workspace.state.labSources!.folders.values()]
const tree = () => toFolderTree(folders())
const changes = () => workspace.requireLab().queries.sequence()

describe('acts on several sources', () => {
  it('are one Change with one undo, for those that need it', async () => {
    await tagSources(workspace, [ids[1]!], 'raid')
    const before = await changes()
    await tagSources(workspace, ids, 'raid')
    expect(await changes()).toBe(before + 1)
    expect([tags(), lastWords()]).toEqual([['raid', 'raid', 'raid'], '2 sources tagged “raid”.'])
    await undo(workspace)
    expect(tags()).toEqual(['', 'raid', ''])
    await redo(workspace)
    expect(tags()).toEqual(['raid', 'raid', 'raid'])
    await untagSources(workspace, ids, 'raid')
    expect(tags()).toEqual(['', '', ''])
  })

  it('make no Change where nothing changes', async () => {
    const before = await changes()
    expect(await untagSources(workspace, ids, 'raid')).toBe(false)
    expect(await setPinned(workspace, ids, false)).toBe(false)
    expect(await changes()).toBe(before)
  })

  it('follow each other, so that two at once both hold', async () => {
    await Promise.all([tagSources(workspace, ids, 'a'), tagSources(workspace, ids, 'b')])
    expect(tags()).toEqual(['a,b', 'a,b', 'a,b'])
  })

  it('name the one source where there is one', async () => {
    await setAside(workspace, [ids[0]!], true)
    expect(lastWords()).toBe('“Fans” set aside. The filter “Set aside” shows what is.')
    expect(source(0).setAside).toBe(true)
  })

  it('take sources into the open project and out of it, and leave other projects alone', async () => {
    const { project } = workspace.requireView()
    await setUsedHere(workspace, ids.slice(0, 2), true)
    expect(ids.map((_, at) => source(at).projects)).toEqual([[project], [project], []])
    await setUsedHere(workspace, ids, false)
    expect(source(1).projects).toEqual([])
    expect(lastWords()).toBe('2 sources taken out of this project, but not out of the lab.')
  })

  it('merge, take the merge back, and separate', async () => {
    await tagSources(workspace, [ids[2]!], 'wire')
    expect(await merge(workspace, ids, ids[1]!)).toBe(true)
    expect(ids.map((_, at) => source(at).mergedInto)).toEqual([ids[1], null, ids[1]])
    expect(source(1).tags).toEqual(['wire'])
    await undo(workspace)
    expect(ids.map((_, at) => source(at).mergedInto)).toEqual([null, null, null])
    await redo(workspace)
    expect(await separate(workspace, ids[0]!)).toBe(true)
    expect(lastWords()).toBe('“Fans” stands by itself again. What the merge added to “Noise” stays there.')
    expect(await separate(workspace, ids[0]!)).toBe(false)
    expect(await merge(workspace, [ids[1]!], ids[1]!)).toBe(false)
  })
})

describe('folders', () => {
  const make = async (name: string, parent: FolderId | null = null) =>
    (await makeFolder(workspace, name, parent))!

  it('hold sources, any number each, and let go of them', async () => {
    const [rack, dome] = [await make('  Rack \n 1 '), await make('Dome')]
    expect(rack.name).toBe('Rack 1')
    await putIntoFolder(workspace, ids, rack)
    await putIntoFolder(workspace, [ids[0]!], dome)
    expect(source(0).folders).toEqual([rack.id, dome.id])
    await takeOutOfFolder(workspace, ids, rack)
    expect(ids.map((_, at) => source(at).folders)).toEqual([[dome.id], [], []])
  })

  it('are not moved into what lies in them, which is said', async () => {
    const rack = await make('Rack')
    const disks = await make('Disks', rack.id)
    expect(await moveFolder(workspace, rack, disks, tree())).toBe(false)
    expect(lastWords()).toContain('“Rack” was not moved: it cannot lie in a folder that lies in it.')
    expect(tree().pathOf(disks.id)).toEqual(['Rack', 'Disks'])
    expect(await moveFolder(workspace, disks, null, tree())).toBe(true)
    expect(tree().pathOf(disks.id)).toEqual(['Disks'])
    expect(await moveFolder(workspace, rack, disks, tree())).toBe(true)
    expect(tree().pathOf(rack.id)).toEqual(['Disks', 'Rack'])
  })

  it('have no two of one name beside each other', async () => {
    const rack = await make('Rack')
    const inside = await make('Dome', rack.id)
    await make('Dome')
    expect(findNameTrouble(tree(), ' ', null, null)).toBe('A folder needs a name.')
    expect(findNameTrouble(tree(), ' Rack', null, null)).toContain('There is a folder “Rack” here already.')
    expect(findNameTrouble(tree(), 'Rack', null, rack.id)).toBeNull()
    expect(findNameTrouble(tree(), 'Rack', rack.id, null)).toBeNull()
    expect(await moveFolder(workspace, inside, null, tree())).toBe(false)
    expect(lastWords()).toContain('“Dome” was not moved.')
    expect(await renameFolder(workspace, inside, 'Shutter')).toBe(true)
    expect(await moveFolder(workspace, tree().find(inside.id)!, null, tree())).toBe(true)
  })

  it('go with those in them, while sources stay, and come back by undo', async () => {
    const rack = await make('Rack')
    const disks = await make('Disks', rack.id)
    await putIntoFolder(workspace, [ids[0]!], disks)
    expect(removalWords(tree(), rack, 1)).toBe(
      'Remove “Rack” and the 1 in it? The 1 source in it stays in the lab and in other folders.',
    )
    expect(removalWords(tree(), disks, 0)).toBe('Remove “Disks”? No source lies in it.')
    expect(await dropFolder(workspace, rack)).toBe(true)
    expect([folders(), source(0).folders]).toEqual([[], []])
    await undo(workspace)
    expect(tree().pathOf(disks.id)).toEqual(['Rack', 'Disks'])
    expect(source(0).folders).toEqual([disks.id])
  })
})
