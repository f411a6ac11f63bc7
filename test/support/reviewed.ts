/** Procedures as the review reads them, for tests. */
import { createIdMaker } from '../../shared/lab/ids.ts'
import type { PartId, StepId } from '../../shared/lab/ids.ts'
import type { FileState, Place, PartKind, StepLevel } from '../../shared/lab/model.ts'
import type { ReviewedDocument, ReviewedPart, ReviewedRow } from '../../shared/procedure/review/types.ts'

let counted = 0
const ids = createIdMaker(
  () => 1_700_000_000_000 + counted++,
  (count) => new Uint8Array(count).fill(counted % 251),
)

export function reviewedPart(
  kind: PartKind,
  text: string,
  olderEnds = 0,
  file: FileState | null = null,
): ReviewedPart {
  return { id: ids.make<PartId>(), kind, text, file, olderEnds }
}

export interface RowFields {
  readonly parts: readonly ReviewedPart[]
  readonly level?: StepLevel
  readonly place?: Place | null
  readonly isPlaceSaid?: boolean
  readonly pointOfNoReturn?: boolean
}

export function reviewedRow(number: string, fields: RowFields): ReviewedRow {
  return {
    id: ids.make<StepId>(),
    number,
    level: fields.level ?? 'step',
    place: fields.place ?? null,
    isPlaceSaid: fields.isPlaceSaid ?? false,
    pointOfNoReturn: fields.pointOfNoReturn ?? false,
    parts: fields.parts,
  }
}

export function reviewedDocument(fields: Partial<ReviewedDocument>): ReviewedDocument {
  return { parts: [], rows: [], parameters: [], silences: [], ...fields }
}

/** A procedure of one step with one part. */
export function singleStep(kind: PartKind, text: string): ReviewedDocument {
  return reviewedDocument({ rows: [reviewedRow('1', { parts: [reviewedPart(kind, text, 1)] })] })
}
