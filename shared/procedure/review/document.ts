/** A procedure's records as the plain value that the review reads. */
import { compareSteps } from '../../lab/acts.ts'
import type { FileState, Link, Parameter, Part, Procedure, Silence, Step } from '../../lab/model.ts'
import { rowNumbers } from '../rows/numbers.ts'
import { rowPlaces } from '../rows/places.ts'
import type { ReviewedDocument, ReviewedPart } from './types.ts'

/** Of one procedure, each list in any order; of other procedures nothing is looked at. */
export interface ReviewRecords {
  readonly procedure: Procedure
  readonly steps: readonly Step[]
  readonly parts: readonly Part[]
  /** By the parts' ids. A part that is missing is empty. */
  readonly texts: ReadonlyMap<string, string>
  readonly links: readonly Link[]
  readonly parameters: readonly Parameter[]
  readonly silences: readonly Silence[]
}

/** @param before what was made last: parts that are as they were stay the same object, and are not read again */
export function documentOf(records: ReviewRecords, before?: ReviewedDocument): ReviewedDocument {
  const { procedure } = records
  const steps = records.steps.filter((step) => step.procedure === procedure.id).sort(compareSteps)
  const numbers = rowNumbers(steps)
  const places = rowPlaces(procedure, steps)
  const parts = partsOf(records, before)
  return {
    parts: parts.get(null) ?? [],
    rows: steps.map((step) => ({
      id: step.id,
      number: numbers.get(step.id) ?? '',
      level: step.level,
      place: places.get(step.id)?.place ?? null,
      isPlaceSaid: step.place !== null,
      pointOfNoReturn: step.pointOfNoReturn,
      parts: parts.get(step.id) ?? [],
    })),
    parameters: records.parameters.filter((one) => one.procedure === procedure.id),
    silences: records.silences.filter((one) => one.procedure === procedure.id),
  }
}

/** The parts by their steps; the procedure's own stand under null. */
function partsOf(
  { procedure, parts, texts, links }: ReviewRecords,
  before?: ReviewedDocument,
): Map<Step['id'] | null, ReviewedPart[]> {
  const counts = new Map<string, number>()
  for (const { newer } of links) counts.set(newer.node.id, (counts.get(newer.node.id) ?? 0) + 1)
  const old = new Map((before ? partsIn(before) : []).map((part) => [part.id, part]))
  const found = new Map<Step['id'] | null, ReviewedPart[]>()
  for (const { id, step, kind, file, procedure: owner } of parts) {
    if (owner !== procedure.id) continue
    const part: ReviewedPart = { id, kind, text: texts.get(id) ?? '', file, olderEnds: counts.get(id) ?? 0 }
    const last = old.get(id)
    found.set(step, [...(found.get(step) ?? []), last && isSame(last, part) ? last : part])
  }
  return found
}

/**
 * A document whose parts are the objects that they were before, where nothing of them changed: for one that was copied on
 * its way into a worker.
 */
export function keepingParts(document: ReviewedDocument, before: ReviewedDocument): ReviewedDocument {
  const old = new Map(partsIn(before).map((part) => [part.id, part]))
  const kept = (part: ReviewedPart): ReviewedPart => {
    const last = old.get(part.id)
    return last && isSame(last, part) ? last : part
  }
  return {
    ...document,
    parts: document.parts.map(kept),
    rows: document.rows.map((row) => ({ ...row, parts: row.parts.map(kept) })),
  }
}

/** Every part with its text, the procedure's own first. */
export const partsIn = ({ parts, rows }: ReviewedDocument): ReviewedPart[] => [
  ...parts,
  ...rows.flatMap((row) => row.parts),
]

const isSame = (a: ReviewedPart, b: ReviewedPart): boolean =>
  a.kind === b.kind && a.text === b.text && a.olderEnds === b.olderEnds && isSameFile(a.file, b.file)

const isSameFile = (a: FileState | null, b: FileState | null): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b)
