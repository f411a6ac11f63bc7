import { beforeEach, describe, expect, it } from 'vitest'
import {
  carryFragment,
  keepSource,
  redo,
  undo,
  writeEntries,
  writeEntry,
} from '../../../../renderer/store/gestures.ts'
import type { Workspace } from '../../../../renderer/store/workspace.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

let workspace: Workspace
let returned: string[]

beforeEach(async () => {
  workspace = (await openTestWorkspace()).workspace
  returned = []
  workspace.composerReturns.on(({ text }) => returned.push(text))
})

const action = (text: string) => ({ kind: 'action', text }) as const
const asSource = {
  title: 'Manual of the UPS',
  address: null,
  kind: 'link',
  wayIn: 'typed',
  capture: null,
} as const
const lastWords = (): string => workspace.state.notices.at(-1)!.words
const withdrawn = (): number => workspace.requireView().withdrawn.size

describe('undo of entries', () => {
  it('gives the text of one that was typed back to the composer, after any number of redos too', async () => {
    await writeEntry(workspace, action('upsc mast'), 'draft')
    await undo(workspace)
    await redo(workspace)
    await undo(workspace)
    expect(returned).toEqual(['upsc mast', 'upsc mast'])
    expect(lastWords()).toBe('Withdrawn. The entry stays readable, and its text is back in the composer.')
  })

  it('withdraws a batch with one sentence and no text given back, and redo brings all of it back', async () => {
    await writeEntries(workspace, ['one', 'two', 'three'].map(action))
    await undo(workspace)
    expect([withdrawn(), lastWords()]).toEqual([3, 'Withdrew 3 entries. They stay readable.'])
    await redo(workspace)
    expect([withdrawn(), lastWords()]).toEqual([0, 'Redone.'])
    expect(returned).toEqual([])
  })

  it('gives nothing back of a batch of one, or of one that was carried', async () => {
    await writeEntries(workspace, [action('from a log')])
    await undo(workspace)
    expect([withdrawn(), lastWords()]).toEqual([1, 'Withdrawn. The entry stays readable.'])
    const source = (await keepSource(workspace, asSource))!
    const { id: lab } = workspace.requireLab()
    const node = { kind: 'source', id: source.id } as const
    const whole = {
      lab,
      node,
      revision: null,
      selectors: [],
      origin: { kind: 'source' },
      fence: null,
    } as const
    const fragment = { ...whole, title: 'Manual of the UPS', address: null }
    await carryFragment(workspace, fragment, { at: 'journal' }, 'drag')
    await undo(workspace)
    expect([withdrawn(), lastWords()]).toEqual([2, 'Withdrawn. The entry stays readable.'])
    expect(returned).toEqual([])
  })
})
