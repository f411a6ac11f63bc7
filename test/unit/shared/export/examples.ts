import type { EntryId, SourceId } from '../../../../shared/lab/ids.ts'
import type { EntryKind, StepPartKind } from '../../../../shared/lab/model.ts'
import { readMoment, type Moment } from '../../../../shared/lab/moment.ts'
import type {
  EntryOrigin,
  ExportedPart,
  ExportedProcedure,
  Origin,
  SourceOrigin,
} from '../../../../shared/export/input.ts'

export const momentAt = (minute: number): Moment =>
  readMoment(`2026-11-25T02:${String(minute).padStart(2, '0')}:00+01:00`)!

export const entryOrigin = (id: string, minute: number, kind: EntryKind, text: string): EntryOrigin => ({
  kind: 'entry',
  id: id as EntryId,
  entry: { kind, moment: momentAt(minute), text },
})

export const sourceOrigin = (id: string, title: string, address: string | null): SourceOrigin => ({
  kind: 'source',
  id: id as SourceId,
  source: { title, address, taken: momentAt(0) },
})

export const part = (kind: StepPartKind, text: string, ...origins: Origin[]): ExportedPart => ({
  kind,
  text,
  origins,
})

/** One part a step. */
export const procedureOf = (...parts: ExportedPart[]): ExportedProcedure => ({
  title: 'Move the logger',
  purpose: '',
  steps: parts.map((one) => ({ parts: [one] })),
})
