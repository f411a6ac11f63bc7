// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from 'vitest'
import type { Host } from '../../../../../shared/host.ts'
import type { OpenLab } from '../../../../../renderer/db/lab.ts'
import { LabRegistry } from '../../../../../renderer/db/labs.ts'
import { ComposerModel, ENTER_WRITES } from '../../../../../renderer/panes/journal/composerModel.ts'
import { composerDraftKey } from '../../../../../renderer/store/recovery.ts'
import { setWithdrawn, strikeOut, undo } from '../../../../../renderer/store/gestures.ts'
import { entriesInOrder } from '../../../../../renderer/store/view.ts'
import { Workspace } from '../../../../../renderer/store/workspace.ts'
import { addProject } from '../../../../../shared/lab/acts.ts'
import type { ProjectId, WindowId } from '../../../../../shared/lab/ids.ts'
import { fail } from '../../../../../shared/lab/result.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../../support/lab.ts'

const window = 'w1' as WindowId
let workspace: Workspace
let lab: OpenLab
let project: ProjectId

/** The page is served with a nonce for the editor's styles. */
function addNonce(): void {
  const meta = document.createElement('meta')
  meta.name = 'style-nonce'
  document.head.append(meta)
}

beforeEach(async () => {
  addNonce()
  lab = await openTestLab(repeatableSurroundings())
  const made = addProject(lab.surroundings, { title: 'Rack', aim: '', status: 'planned' })
  await lab.committer.commit(made.change)
  project = made.project.id
  workspace = new Workspace({
    registry: new LabRegistry(memoryStorage()),
    openLab: () => Promise.resolve(lab),
    host: {} as Host,
    window,
  })
  await workspace.openLab(lab.id)
})

function openModel() {
  const model = new ComposerModel(workspace, lab, project)
  return { model, close: model.open() }
}
const texts = () =>
  entriesInOrder(workspace.requireView()).map(({ id }) => workspace.requireView().texts.get(id))
const draft = async () =>
  (await lab.queries.drafts()).find(({ key }) => key === composerDraftKey(project, window))

describe('ComposerModel', () => {
  it('writes an entry of the chosen kind, is empty then, and leaves no draft', async () => {
    const { model } = openModel()
    model.choose('problem')
    model.insert('It runs from the card.', false)
    await model.write()
    await workspace.flushTexts()
    expect(texts()).toEqual(['It runs from the card.'])
    expect(entriesInOrder(workspace.requireView())[0]!.kind).toBe('problem')
    expect(model.text).toBe('')
    expect(model.store.getState().kind).toBe('problem')
    expect(await draft()).toBeUndefined()
  })

  it('keeps what was typed while the entry was on its way', async () => {
    const { model } = openModel()
    model.insert('first', false)
    const writing = model.write()
    model.insert(' second', false)
    await writing
    await workspace.flushTexts()
    expect(texts()).toEqual(['first'])
    expect(model.text).toBe(' second')
    expect((await draft())?.text).toBe(' second')
  })

  it('writes one entry where the key is pressed twice', async () => {
    const { model } = openModel()
    model.insert('once', false)
    await Promise.all([model.write(), model.write()])
    expect(texts()).toEqual(['once'])
  })

  it('writes nothing where nothing was typed', async () => {
    const { model } = openModel()
    model.insert(' \n', false)
    await model.write()
    expect(texts()).toEqual([])
  })

  it('keeps the text and says so where the lab refuses it', async () => {
    const { model } = openModel()
    model.insert('precious', false)
    const { commit } = lab.committer
    lab.committer.commit = () => Promise.resolve(fail('full' as never, 'The disk is full.'))
    await model.write()
    lab.committer.commit = commit.bind(lab.committer)
    await workspace.flushTexts()
    expect(model.text).toBe('precious')
    expect(model.store.getState().refusal).toMatch(/not written/)
    expect((await draft())?.text).toBe('precious')
    expect(texts()).toEqual([])
  })

  it('finds its draft and kind again after a restart, with what was typed before it was read', async () => {
    const first = openModel()
    first.model.choose('fix')
    first.model.insert('half a sentence', false)
    await workspace.flushTexts()
    first.close()
    const { model } = openModel()
    model.insert('early', false)
    await workspace.flushTexts()
    expect(model.text).toBe('half a sentence\n\nearly')
    expect(model.store.getState().kind).toBe('fix')
  })

  it('gets the text of an undone entry back, behind what stands there', async () => {
    const { model } = openModel()
    model.insert('wrong', false)
    await model.write()
    model.insert('new words', false)
    await undo(workspace)
    expect(model.text).toBe('new words\n\nwrong')
    expect(workspace.requireView().withdrawn.size).toBe(1)
    expect(texts()).toEqual(['wrong'])
  })

  it('keeps whether Enter writes for the lab', async () => {
    openModel().model.setEnterWrites(true)
    expect(await lab.findSetting(ENTER_WRITES)).toBe(true)
    const { model } = openModel()
    await workspace.flushTexts()
    expect(model.store.getState().enterWrites).toBe(true)
  })

  it('loses a struck secret from its text too', async () => {
    const { model } = openModel()
    model.insert('curl -u admin:correct-horse 192.0.2.7', false)
    await workspace.flushTexts()
    const node = { kind: 'source', id: 's' } as never
    expect(await strikeOut(workspace, node, 'correct-horse', 'pasted by mistake')).toBe(true)
    await new Promise((resolve) => setTimeout(resolve, 20))
    expect(model.text).not.toContain('correct-horse')
    expect(model.text).toMatch(/^curl -u admin:█+ 192\.0\.2\.7$/)
  })
})

describe('setWithdrawn', () => {
  it('withdraws an entry that stays readable, leaves the composer alone, and is undone', async () => {
    const { model } = openModel()
    model.insert('mistaken', false)
    await model.write()
    const { id } = entriesInOrder(workspace.requireView())[0]!
    expect(await setWithdrawn(workspace, id, true)).toBe(true)
    expect(workspace.requireView().withdrawn.has(id)).toBe(true)
    expect(texts()).toEqual(['mistaken'])
    expect(model.text).toBe('')
    await undo(workspace)
    expect(workspace.requireView().withdrawn.has(id)).toBe(false)
    expect(model.text).toBe('')
  })

  it('brings a withdrawn entry back', async () => {
    const { model } = openModel()
    model.insert('right after all', false)
    await model.write()
    const { id } = entriesInOrder(workspace.requireView())[0]!
    await setWithdrawn(workspace, id, true)
    await setWithdrawn(workspace, id, false)
    expect(workspace.requireView().withdrawn.has(id)).toBe(false)
  })
})
