/** What a person takes of a draft becomes steps, parts and links, in one Change. */
import { generateNKeysBetween } from 'fractional-indexing'
import { linkWords } from '../../distil/carry.ts'
import { settleFragment } from '../../distil/fragment.ts'
import {
  beginPart,
  compareSteps,
  makeChange,
  newPart,
  newStep,
  put,
  type StandingText,
  type Surroundings,
} from '../../lab/acts.ts'
import type { Change, Operation } from '../../lab/change.ts'
import type { Place, Procedure, Step } from '../../lab/model.ts'
import { fail, succeed, type Failure, type Result } from '../../lab/result.ts'
import { toStorableText } from '../../lab/text.ts'
import { isSamePlace, rowPlaces } from '../rows/places.ts'
import type { DraftPart, DraftRow } from './draft.ts'

/** Where drafted steps go. */
export interface DraftTarget {
  readonly procedure: Procedure
  /** All of the procedure, in any order. */
  readonly steps: readonly Step[]
  /** The row behind which they come; null for the head. */
  readonly after: Step | null
  /** An entry's text as it stands, with its last revision; undefined where it is gone. */
  readonly textOf: (entry: string) => StandingText | undefined
}

export interface AcceptedDraft {
  readonly change: Change
  readonly steps: readonly Step[]
}

/**
 * Makes steps of drafted rows, in their order, behind a row. Every part has its links as if its words were carried by hand.
 * A place is said where it differs from that of the row before; the row behind keeps the place that it had.
 * @returns a failure where an entry's words changed since the draft was made
 */
export function acceptDraft(
  around: Surroundings,
  { procedure, steps, after, textOf }: DraftTarget,
  rows: readonly DraftRow[],
): Result<AcceptedDraft, Failure<'nothing chosen' | 'changed'>> {
  if (rows.length === 0) return fail('nothing chosen', 'No step is chosen. Choose at least one.')
  const order = [...steps].sort(compareSteps)
  const at = after ? order.findIndex(({ id }) => id === after.id) : -1
  const low = order[at] ?? null
  const next = order[at + 1] ?? null
  const high = order.slice(at + 1).find(({ position }) => low === null || position > low.position)
  const positions = generateNKeysBetween(low?.position ?? null, high?.position ?? null, rows.length)
  const places = rowPlaces(procedure, steps)
  let here = low ? (places.get(low.id)?.place ?? null) : procedure.place
  const made: Step[] = []
  const operations: Operation[] = []
  for (const [n, row] of rows.entries()) {
    const place = placeToSay(here, row.place)
    const step = { ...newStep(around, procedure.id, positions[n]!), place }
    here = row.place ?? here
    const parts = row.parts.map((part) => partOperations(around, step, part, textOf))
    if (parts.includes(null))
      return fail('changed', 'An entry was amended since the steps were proposed. Propose them again.')
    operations.push(put('steps', step), ...parts.flatMap((one) => one ?? []))
    made.push(step)
  }
  operations.push(...placeKept(next, next ? (places.get(next.id)?.place ?? null) : null, here))
  return succeed({ change: makeChange(around, 'draft steps', operations), steps: made })
}

/** What a new row says of its place: nothing where it is that of the row before, or is not known. */
export const placeToSay = (here: Place | null, wanted: Place | null): Place | null =>
  wanted === null || isSamePlace(here, wanted) ? null : wanted

/** The row behind says its own place where it would now take over another. */
export function placeKept(next: Step | null, was: Place | null, here: Place | null): Operation[] {
  if (!next || next.place !== null || was === null || isSamePlace(was, here)) return []
  return [put('steps', { ...next, place: was }, next)]
}

/** Null where the words that a part came from are no longer there. */
function partOperations(
  around: Surroundings,
  step: Step,
  { kind, text, file, from }: DraftPart,
  textOf: DraftTarget['textOf'],
): Operation[] | null {
  const storable = toStorableText(text)
  const part = newPart(around, step, kind, file)
  const { revision, operations } = beginPart(around, part, storable)
  const links: Operation[] = []
  for (const { fragment, ranges } of from) {
    const standing = textOf(fragment.node.id)
    const settled = standing ? settleFragment(fragment, standing) : null
    if (!settled) return null
    const newer = { node: { kind: 'part', id: part.id }, revision, text: storable, ranges } as const
    links.push(put('links', linkWords(around, settled, newer, 'draft')))
  }
  return [...operations, ...links]
}
