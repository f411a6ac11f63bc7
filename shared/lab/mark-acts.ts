/** What is set on an entry after it was written: each a mark of its own, appended and never changed. */
import type { Act, Change } from './change.ts'
import type { EntryId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import { isSame } from './fields.ts'
import type { Mark, MarkSays } from './model.ts'

const actOf: Readonly<Record<MarkSays['kind'], Act>> = {
  tick: 'tick an item',
  outcome: 'set an outcome',
  happened: 'say when it happened',
  place: 'say where it happened',
  file: 'say which file it is',
}

/** Sets something on an entry. @param says what is set, and what stands there now */
export function markEntry(around: Surroundings, entry: EntryId, says: MarkSays): Change {
  return markEntries(around, [{ entry, says }])
}

/** Sets something on several entries by one act; all of one kind. */
export function markEntries(
  around: Surroundings,
  marks: readonly { readonly entry: EntryId; readonly says: MarkSays }[],
): Change {
  const [first] = marks
  if (!first) throw new RangeError('no entry to mark')
  return makeChange(
    around,
    actOf[first.says.kind],
    marks.map(({ entry, says }) => {
      const mark: Mark = { id: around.ids.make(), entry, moment: around.clock.now(), says }
      return put('marks', mark)
    }),
  )
}

/** Whether two marks set the same thing of the same entry. */
export function isOfSame(a: Mark, b: Mark): boolean {
  if (a.entry !== b.entry || a.says.kind !== b.says.kind) return false
  if (a.says.kind === 'tick' && b.says.kind === 'tick') return isSame(a.says.item, b.says.item)
  if (a.says.kind === 'outcome' && b.says.kind === 'outcome') return isSame(a.says.command, b.says.command)
  return true
}

/** What sets back what a mark set. */
export function reversedSays(says: MarkSays): MarkSays {
  return { ...says, set: says.was, was: says.set } as MarkSays
}
