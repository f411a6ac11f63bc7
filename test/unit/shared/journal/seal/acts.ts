/** Journals of any kind, for laws. */
import fc from 'fast-check'
import { entryKinds, outcomes } from '../../../../../shared/lab/model.ts'
import { Journal } from './scenario.ts'

/** What is struck out of them. */
export const SECRET = 'corona-borealis-7'

/** What a person does to a journal, one after the other; `at` picks the entry. */
export const act = fc.oneof(
  fc.record({
    does: fc.constant('add' as const),
    kind: fc.constantFrom(...entryKinds),
    text: words(),
    at: fc.nat(),
    facts: fc.boolean(),
  }),
  fc.record({ does: fc.constant('amend' as const), text: words(), at: fc.nat() }),
  fc.record({ does: fc.constant('withdraw' as const), at: fc.nat(), withdrawn: fc.boolean() }),
  fc.record({ does: fc.constant('mark' as const), at: fc.nat(), host: words(), which: fc.nat(3) }),
  fc.record({ does: fc.constant('strike' as const), at: fc.nat() }),
)
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never

/** Words in which the secret stands often enough to be struck. */
function words(): fc.Arbitrary<string> {
  const piece = fc.oneof(
    fc.constantFrom(SECRET, '\n', 'mast ', '```\n', 'ä€𝄞', '\\', '"', '{"sha256":"00"}'),
    fc.string({ unit: 'grapheme', maxLength: 6 }),
  )
  return fc.array(piece, { maxLength: 5 }).map((pieces) => pieces.join(''))
}

/** Does one act. */
export function perform(journal: Journal, next: Act): void {
  const entry = journal.entries[next.at % Math.max(1, journal.entries.length)]
  if (next.does === 'add') {
    const place = { machine: null, host: next.text, user: 'ops', directory: null }
    const ran = { exitCode: 1, started: null, ended: null, log: next.text }
    journal.add(next.kind, next.text, next.facts ? { place, ran, under: entry?.id ?? null } : {})
  } else if (!entry) return
  else if (next.does === 'amend') journal.amend(entry, next.text)
  else if (next.does === 'withdraw') journal.withdraw(entry, next.withdrawn)
  else if (next.does === 'strike') journal.strike(entry, SECRET, `it was ${SECRET}`)
  else {
    const { id } = journal.revisionsOf(entry.id)[0]!
    const place = { machine: null, host: next.host, user: null, directory: '/srv' }
    const item = [{ revision: id, start: 0, end: 1 }]
    const was = null
    if (next.which === 0) journal.mark(entry, { kind: 'tick', item, set: true, was: false })
    else if (next.which === 1) journal.mark(entry, { kind: 'outcome', command: item, set: outcomes[1], was })
    else if (next.which === 2) journal.mark(entry, { kind: 'happened', set: entry.moment, was })
    else journal.mark(entry, { kind: 'place', set: place, was })
  }
}

/** Journals after a few acts. */
export const journals = fc
  .tuple(fc.nat(), fc.array(act, { minLength: 1, maxLength: 14 }))
  .map(([seed, acts]) => {
    const journal = new Journal(seed)
    for (const next of acts) perform(journal, next)
    return journal
  })
