/** Fragments out of a procedure's parts. */
import { pickFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import type { LabId } from '../../../shared/lab/ids.ts'
import type { Part, Range } from '../../../shared/lab/model.ts'

/**
 * Picks ranges of a part's text; all of it where none are given. Which revision the words stand in is settled when they
 * are carried.
 * @returns null where nothing but white space was picked
 */
export function pickFromPart(
  lab: LabId,
  part: Part,
  text: string,
  title: string,
  ranges?: readonly Range[],
): Fragment | null {
  const from = {
    lab,
    node: { kind: 'part', id: part.id },
    revision: null,
    origin: { kind: 'part', partKind: part.kind },
    title,
    address: null,
    text,
  } as const
  return pickFragment(from, ranges ?? [{ start: 0, end: text.length }])
}
