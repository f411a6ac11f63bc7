/** Words that are pasted a second time are a copy, with links of its own. */
import { expect, it } from 'vitest'
import { changeOfPaste } from '../../../../../renderer/store/movingWords.ts'
import { carry } from '../../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../../shared/distil/fragment.ts'
import * as acts from '../../../../../shared/lab/acts.ts'
import type { Change } from '../../../../../shared/lab/change.ts'
import type { Part } from '../../../../../shared/lab/model.ts'
import { replacing } from '../../../../../shared/lab/text.ts'
import { openTestLab } from '../../../support/lab.ts'

const words = 'Both lamps are green.'

async function cutWords() {
  const lab = await openTestLab()
  const around = lab.surroundings
  const commit = async (change: Change): Promise<void> => {
    expect((await lab.committer.commit(change)).ok).toBe(true)
  }
  const { project, change } = acts.addProject(around, { title: 'Dome', aim: '', status: 'under way' })
  const made = acts.addProcedure(around, project.id, 'Look at the logger')
  const { entry, change: noted } = acts.addEntry(around, {
    project: project.id,
    kind: 'observation',
    text: words,
  })
  for (const one of [change, made.change, noted]) await commit(one)
  const now = (await lab.queries.standing(entry.id))!
  const from = { lab: lab.id, title: '', address: null, node: { kind: 'entry', id: entry.id } as const }
  const origin = { kind: 'entry', entryKind: 'observation' } as const
  const fragment = pickFragment({ ...from, ...now, origin }, [{ start: 0, end: words.length }])!
  const position = acts.positionBetween(null, null)
  const landing = { at: 'new step', procedure: made.procedure.id, position, kind: 'expect' } as const
  const carried = carry(around, fragment, landing, 'drag')
  await commit(carried.change)
  const node = carried.link.newer.node as { readonly kind: 'part'; readonly id: Part['id'] }
  const put = carried.change.operations.find((one) => one.op === 'put' && one.table === 'parts')!
  const part = (put as { readonly record: Part }).record
  const text = (await lab.queries.standing(node.id))!
  const at = text.text.indexOf(words)
  const range = { start: at, end: at + words.length }
  const cut = {
    ...{ lab: lab.id, part: node.id, revision: text.revision, words },
    stretches: [range],
    links: [carried.link.id],
  }
  await commit(acts.writeText(around, node, text.revision, replacing(text.text.length, range, '')).change)
  const paste = async (offset: number): Promise<void> => {
    const pasted = await changeOfPaste(lab, cut, part, offset)
    await commit(pasted!)
  }
  const places = async () => {
    const links = await lab.queries.standingLinks(node.id)
    return links.map(({ state }) => state.newer.places[0]!).sort((a, b) => a.start - b.start)
  }
  return { lab, paste, places }
}

it('back in their text they are the same words, with the same link; the copy behind them has one of its own', async () => {
  const { lab, paste, places } = await cutWords()
  await paste(0)
  expect(await places()).toEqual([{ start: 0, end: words.length }])
  await paste(words.length)
  expect(await places()).toEqual([
    { start: 0, end: words.length },
    { start: words.length, end: 2 * words.length },
  ])
  expect(await lab.rebuild()).toBe(true)
  await lab.committer.undo()
  expect(await places()).toEqual([{ start: 0, end: words.length }])
})

it('a copy that is put in between the words is not taken for them', async () => {
  const { lab, paste, places } = await cutWords()
  await paste(0)
  await paste(5)
  expect(await places()).toEqual([
    { start: 0, end: 2 * words.length },
    { start: 5, end: 5 + words.length },
  ])
  expect(await lab.rebuild()).toBe(true)
})
