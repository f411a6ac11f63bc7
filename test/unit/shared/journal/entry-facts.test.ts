import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  inJournalOrder,
  momentOf,
  outcomeOf,
  outcomeOfExit,
  placeOf,
  threadsOf,
} from '../../../../shared/journal/entry-facts.ts'
import { itemsOf, tickSays } from '../../../../shared/journal/ticks.ts'
import { noFacts } from '../../../../shared/lab/acts.ts'
import type { EntryId, MarkId, ProjectId, RevisionId } from '../../../../shared/lab/ids.ts'
import type { Entry, Mark, MarkSays, Piece } from '../../../../shared/lab/model.ts'
import { instantOf, toMoment, type Moment } from '../../../../shared/lab/moment.ts'
import { toChangeSetJson } from '../../../../shared/lab/text.ts'
import { advancePieces } from '../../../../shared/provenance/pieces.ts'
import { ChangeSet } from '@codemirror/state'

const entryAt = (id: string, minute: number, more: Partial<Entry> = {}): Entry => ({
  ...noFacts,
  id: id as EntryId,
  project: 'p' as ProjectId,
  kind: 'action',
  moment: toMoment(minute * 60_000, 60),
  ...more,
})
let made = 0
const markOf = (says: MarkSays): Mark => ({
  id: `m${made++}` as MarkId,
  entry: 'e' as EntryId,
  moment: toMoment(made, 0),
  says,
})
const typed = (start: number, end: number): Piece[] => [{ revision: 'r' as RevisionId, start, end }]

describe('the outcome of a command', () => {
  it('is what the exit code says until something is set, and unknown without one', () => {
    expect([0, 1, 127, 255, null].map(outcomeOfExit)).toEqual([
      'succeeded',
      'failed',
      'failed',
      'failed',
      'unknown',
    ])
    const ran = { exitCode: 1, started: null, ended: null, log: 'gate.log' }
    expect(outcomeOf(entryAt('e', 0, { ran }))).toBe('failed')
    expect(outcomeOf(entryAt('e', 0))).toBe('unknown')
  })

  it('is what was set last for the command, before what was set for the whole entry', () => {
    const entry = entryAt('e', 0)
    const first = markOf({ kind: 'outcome', command: typed(0, 5), set: 'failed', was: null })
    const whole = markOf({ kind: 'outcome', command: null, set: 'succeeded', was: null })
    const back = markOf({ kind: 'outcome', command: typed(0, 5), set: null, was: 'failed' })
    expect(outcomeOf(entry, [first, whole], typed(2, 5))).toBe('failed')
    expect(outcomeOf(entry, [first, whole], typed(8, 12))).toBe('succeeded')
    expect(outcomeOf(entry, [first, whole, back], typed(0, 5))).toBe('succeeded')
    expect(outcomeOf(entry, [first], typed(8, 12))).toBe('unknown')
  })
})

describe('the order of the journal', () => {
  it('goes by when things happened, and by when they were written within one instant', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ minute: fc.nat(20), late: fc.option(fc.nat(20)) }), { maxLength: 30 }),
        (rows) => {
          const entries = rows.map(({ minute, late }, at) =>
            entryAt(String(at).padStart(3, '0'), minute, {
              happened: late === null ? null : toMoment(late * 60_000, 0),
            }),
          )
          const ordered = inJournalOrder(entries)
          expect(new Set(ordered)).toEqual(new Set(entries))
          for (let i = 1; i < ordered.length; i++) {
            const [a, b] = [ordered[i - 1]!, ordered[i]!]
            const [x, y] = [instantOf(momentOf(a)), instantOf(momentOf(b))]
            expect(x < y || (x === y && a.id < b.id)).toBe(true)
          }
        },
      ),
    )
  })

  it('puts an entry where a later mark says that it happened, and back when that is taken away', () => {
    const set = toMoment(0, 60)
    const entry = entryAt('e', 9)
    const mark = markOf({ kind: 'happened', set, was: null })
    const back = markOf({ kind: 'happened', set: null, was: set })
    expect(momentOf(entry, [mark])).toBe(set)
    expect(momentOf(entry, [mark, back])).toBe(entry.moment)
    const place = { machine: null, host: 'gate', user: 'root', directory: '/etc' }
    expect(placeOf(entry, [markOf({ kind: 'place', set: place, was: null })])).toEqual(place)
  })

  it('keeps later additions under what they were added to, in the order in which they were written', () => {
    const head = entryAt('a', 5)
    const later = entryAt('c', 9, { under: head.id, happened: '1970-01-01T00:00:00.000Z' as Moment })
    const sooner = entryAt('b', 8, { under: head.id })
    const stray = entryAt('d', 10, { under: 'gone' as EntryId })
    const { heads, additions } = threadsOf(inJournalOrder([later, head, stray, sooner]))
    expect(heads).toEqual([head, stray])
    expect(additions.get('a')).toEqual([sooner, later])
  })
})

describe('a list to tick', () => {
  const text = 'Before the mast:\n\n- [ ] helmet on\n  - [x] strap closed\n- [ ] second person\n- plain'
  const pieces = typed(0, text.length)

  it('has the items of its task lists, at their depth, as their signs say', () => {
    expect(itemsOf(text, pieces, []).map(({ words, depth, isTicked }) => [words, depth, isTicked])).toEqual([
      ['helmet on', 0, false],
      ['strap closed', 1, true],
      ['second person', 0, false],
    ])
  })

  it('is ticked item by item by marks, and a tick survives an amendment beside it', () => {
    const [helmet] = itemsOf(text, pieces, [])
    const tick = markOf(tickSays(helmet!))
    const isTicked = (now: string, present: readonly Piece[], marks: readonly Mark[]) =>
      itemsOf(now, present, marks).map((item) => item.isTicked)
    expect(isTicked(text, pieces, [tick])).toEqual([true, true, false])
    const changes = ChangeSet.of({ from: 0, insert: '- [ ] gloves on\n\n' }, text.length)
    const amended = advancePieces(pieces, toChangeSetJson(changes), 'r2' as RevisionId, null)
    expect(isTicked(`- [ ] gloves on\n\n${text}`, amended, [tick])).toEqual([false, true, true, false])
    const untick = markOf(tickSays(itemsOf(text, pieces, [tick])[0]!))
    expect(isTicked(text, pieces, [tick, untick])).toEqual([false, true, false])
  })
})
