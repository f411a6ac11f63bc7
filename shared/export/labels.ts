import type { EntryKind, ProcedurePartKind, StepPartKind } from '../lab/model.ts'
import type { Moment } from '../lab/moment.ts'

/** What stands before each part of a step, in the order in which the parts are written: a warning before the deed. */
export const partLabels = {
  heading: 'Section',
  condition: 'When',
  'done already': 'Done already if',
  caution: 'Caution',
  do: 'Do',
  file: 'File',
  expect: 'Expect',
  'if it fails': 'If it fails',
  hold: 'Hold point',
  undo: 'To undo',
  why: 'Why',
} as const satisfies Record<StepPartKind, string>

/** The headings of the parts of a procedure itself. */
export const ownPartLabels = {
  scope: 'Made for',
  access: 'Access',
  supplies: 'Parts and tools',
  time: 'Time',
  'back-up': 'Back-up first',
  'closing checks': 'Closing checks',
  'how to undo': 'How to undo it all',
} as const satisfies Record<Exclude<ProcedurePartKind, 'title' | 'purpose'>, string>

/** A moment for people: `2026-11-25 02:30:00 +01:00`. The offset it was written with is kept. */
export function momentLabel(moment: Moment): string {
  return `${moment.slice(0, 10)} ${moment.slice(11, 19)} ${moment.slice(23)}`
}

/** One line that names an entry: when it was written and what it is. */
export function entryLabel(entry: { readonly kind: EntryKind; readonly moment: Moment }): string {
  return `${momentLabel(entry.moment)}, ${entry.kind}`
}
