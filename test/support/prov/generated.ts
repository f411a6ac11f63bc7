/**
 * Labs with a random past: acts of every kind, undo, redo, withdrawing and bringing back, marks, versions, links between words
 * that stand already, links set again, and in the end a text that is struck out everywhere.
 */
import fc from 'fast-check'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { linkWords } from '../../../shared/distil/carry.ts'
import { pickFragment } from '../../../shared/distil/fragment.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { Revision } from '../../../shared/lab/model.ts'
import { foldText } from '../../../shared/lab/text.ts'
import { setLinkAgain } from '../../../shared/provenance/setAgain.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'
import {
  beginStory,
  changeOf,
  moves,
  recordsOf,
  standing,
  standingEntries,
  type Move,
  type Records,
} from '../../unit/support/story.ts'
import { byId, pick, rangeIn } from '../../unit/support/records.ts'

/** Stands in an entry of every generated lab, is carried on, and is struck out. */
export const STRUCK = 'Zw0lf-Böxkämpfer'

/** What happened in a lab, to see that no kind of it is missing. */
export type Happened = Record<
  'undo' | 'redo' | 'withdraw' | 'back' | 'mark' | 'version' | 'late link' | 'revised link' | 'other',
  number
>
export const nothingHappened = (): Happened => ({
  ...{ undo: 0, redo: 0, withdraw: 0, back: 0 },
  ...{ mark: 0, version: 0, 'late link': 0, 'revised link': 0, other: 0 },
})

export const pasts = fc.record({ seed: fc.nat({ max: 9999 }), list: moves(30) })

/** @param happened counts of all labs so far, counted on */
export async function openGeneratedLab(
  { seed, list }: { readonly seed: number; readonly list: readonly Move[] },
  happened: Happened,
): Promise<OpenLab> {
  const around = repeatableSurroundings(seed)
  let acting = 0
  // Nobody, one or two who gave a name.
  const people = [null, 'Kim', 'Robin "Rob" of the rack']
  const lab = await openTestLab({ ...around, who: () => people[acting++ % (1 + (seed % 3))]! })
  await beginStory(lab)
  await leakSecret(lab)
  for (const move of list) await play(lab, move, happened)
  const [entry] = (await recordsOf(lab)).entries
  const struck = await lab.committer.strikeOut({ kind: 'entry', id: entry!.id }, STRUCK, 'a password')
  if (!struck.ok) throw new Error(struck.sentence)
  return lab
}

/** An entry with the secret, and a step that quotes it. */
async function leakSecret(lab: OpenLab): Promise<void> {
  const { projects, procedures, steps } = await recordsOf(lab)
  const { entry, revision, change } = acts.addEntry(lab.surroundings, {
    project: projects[0]!.id,
    kind: 'output',
    text: `🔭 The word is ${STRUCK}, says the logger.`,
  })
  await mustCommit(lab, change)
  const text = standing(await recordsOf(lab), entry.id).text
  const fragment = pickFragment(
    {
      ...{
        lab: lab.id,
        node: { kind: 'entry', id: entry.id } as const,
        revision,
        text,
        title: '',
        address: null,
      },
      origin: { kind: 'entry', entryKind: 'output' },
    },
    [{ start: 3, end: 15 + STRUCK.length }],
  )!
  const step = steps.find((one) => one.procedure === procedures[0]!.id)!
  const part = acts.newPart(lab.surroundings, step, 'why')
  const begun = acts.beginPart(lab.surroundings, part, text)
  const range = { start: 3, end: 15 + STRUCK.length }
  const newer = {
    node: { kind: 'part', id: part.id } as const,
    revision: begun.revision,
    text,
    ranges: [range],
  }
  const link = acts.put('links', linkWords(lab.surroundings, fragment, newer, 'drag'))
  await mustCommit(lab, acts.makeChange(lab.surroundings, 'carry', [...begun.operations, link]))
}

async function mustCommit(lab: OpenLab, change: Change): Promise<void> {
  const result = await lab.committer.commit(change)
  if (!result.ok) throw new Error(result.sentence)
}

async function play(lab: OpenLab, move: Move, happened: Happened): Promise<void> {
  const turn = move.kind % 10
  const rest = { ...move, kind: Math.floor(move.kind / 10) }
  if (turn < 2) {
    const act = turn === 0 ? 'undo' : 'redo'
    if ((await lab.committer[act]()).ok) happened[act]++
    return
  }
  const [kind, change] = await actOf(lab, rest, turn)
  if (change && (await lab.committer.commit(change)).ok) happened[kind]++
}

async function actOf(lab: OpenLab, move: Move, turn: number): Promise<[keyof Happened, Change | null]> {
  const records = await recordsOf(lab)
  const { surroundings } = lab
  switch (turn) {
    case 2: {
      const entry = pick(byId(standingEntries(records)), move.b)
      return ['withdraw', entry ? acts.withdrawEntry(surroundings, entry.id) : null]
    }
    case 3: {
      const standingNow = new Set(standingEntries(records).map(({ id }) => id))
      const gone = byId(records.entries.filter(({ id }) => !standingNow.has(id)))
      const entry = pick(gone, move.b)
      return ['back', entry ? acts.withdrawEntry(surroundings, entry.id, false) : null]
    }
    case 4: {
      const entry = pick(byId(standingEntries(records)), move.b)
      const says = { kind: 'outcome', command: null, set: 'succeeded', was: null } as const
      const mark = entry && {
        id: surroundings.ids.make<never>(),
        entry: entry.id,
        moment: surroundings.clock.now(),
        says,
      }
      return [
        'mark',
        mark ? acts.makeChange(surroundings, 'set an outcome', [acts.put('marks', mark)]) : null,
      ]
    }
    case 5:
      return ['version', await changeOf(lab, { ...move, kind: 24, a: 0 })]
    case 6:
      return ['late link', lateLink(lab, records, move)]
    case 7:
      return ['revised link', setAgain(lab, records, move)]
    default:
      return ['other', await changeOf(lab, move)]
  }
}

/** Links words of any revision of a text to words of any text that stands, which may be the newer one. */
function lateLink(lab: OpenLab, records: Records, { a, b, c }: Move): Change | null {
  const newer = pick(
    records.revisions.filter(({ ended }) => !ended),
    a,
  )
  const older = pick(byId(standingEntries(records)), b)
  if (!newer || !older) return null
  const isPart = records.parts.some(({ id }) => (id as string) === newer.node)
  const text = textAt(records, newer)
  const there = standing(records, older.id)
  const fragment = pickFragment(
    {
      ...{ lab: lab.id, node: { kind: 'entry', id: older.id } as const, title: '', address: null },
      ...{ revision: there.revision, text: there.text },
      origin: { kind: 'entry', entryKind: older.kind },
    },
    [rangeIn(there.text, b, c)],
  )
  const range = rangeIn(text, a, c)
  if (!fragment || range.start === range.end) return null
  const node = { kind: isPart ? 'part' : 'entry', id: newer.node } as Parameters<typeof linkWords>[2]['node']
  const link = linkWords(
    lab.surroundings,
    fragment,
    { node, revision: newer.id, text, ranges: [range] },
    'button',
  )
  return acts.makeChange(lab.surroundings, 'carry', [acts.put('links', link)])
}

/** Sets one end of any link that stands to other words of its text, whether it is loose or not. */
function setAgain(lab: OpenLab, records: Records, { a, b, c }: Move): Change | null {
  const link = pick(byId([...records.links]), a)
  if (!link) return null
  const side = b % 2 === 0 ? 'newer' : 'older'
  const { node } = link[side]
  if (node.kind !== 'entry' && node.kind !== 'part') return null
  if (!records.texts.some((text) => text.node === node.id)) return null
  const text = standing(records, node.id)
  const change = setLinkAgain(lab.surroundings, link, side, text, rangeIn(text.text, b, c))
  return change.ok ? change.value : null
}

/** A text at one of its revisions. */
export function textAt({ revisions }: Pick<Records, 'revisions'>, { node, number }: Revision): string {
  const until = revisions.filter((one) => one.node === node && one.number <= number)
  return foldText(until.sort((x, y) => x.number - y.number))
}
