/** Where a fragment may land, and what each place is called while it is being dragged. Only rightward. */
import { compareSteps } from '../lab/acts.ts'
import { levelBehind } from '../procedure/rows/order.ts'
import { nameOfPart, numberOf } from '../procedure/rows/numbers.ts'
import type { PartId, ProcedureId, StepId } from '../lab/ids.ts'
import {
  procedurePartKinds,
  type EntryKind,
  type PartKind,
  type ProcedurePartKind,
  type Step,
  type StepPartKind,
} from '../lab/model.ts'
import { ownPartLabels } from '../export/labels.ts'
import { defaultEntryKind, defaultPartKind } from './distil.ts'
import type { Fragment } from './fragment.ts'

/** The procedure's own parts that take carried words: all but its title, which is one line. */
export type OwnLandingKind = Exclude<ProcedurePartKind, 'title'>

export const ownLandingKinds = procedurePartKinds.filter((kind): kind is OwnLandingKind => kind !== 'title')

/** A place as a person points at it. Kinds left out are chosen from the fragment. */
export type LandingPlace =
  | { readonly at: 'journal'; readonly kind?: EntryKind }
  | {
      readonly at: 'new step'
      readonly procedure: ProcedureId
      readonly after: StepId | null
      readonly kind?: StepPartKind
    }
  | { readonly at: 'step'; readonly step: StepId; readonly kind?: StepPartKind }
  | { readonly at: 'own'; readonly procedure: ProcedureId; readonly kind: OwnLandingKind }
  | {
      readonly at: 'text'
      readonly part: PartId
      /** null for a part of the procedure itself. */
      readonly step: StepId | null
      readonly kind: PartKind
      readonly offset: number
    }

/** Whether a fragment may land there: the journal takes what comes from a source, a procedure takes all. */
export function canLand(fragment: Pick<Fragment, 'origin'>, place: LandingPlace): boolean {
  return place.at !== 'journal' || fragment.origin.kind === 'source'
}

/** The part that a fragment becomes at a place in a procedure. */
export function partKindAt(fragment: Pick<Fragment, 'origin' | 'fence'>, kind?: StepPartKind): StepPartKind {
  return kind ?? defaultPartKind(fragment.origin, fragment.fence)
}

/** The kind of entry that a fragment becomes in the journal. */
export function entryKindAt(fragment: Fragment, kind?: EntryKind): EntryKind {
  return kind ?? defaultEntryKind(fragment)
}

/** What a place is called, for instance "Expect of step 4" or "New step after 4: do". */
export function nameOfPlace(
  place: LandingPlace,
  fragment: Pick<Fragment, 'origin' | 'fence'>,
  steps: readonly Step[],
): string {
  switch (place.at) {
    case 'journal':
      return place.kind ? `Entry in the journal: ${place.kind}` : 'Entry in the journal'
    case 'new step':
      return `${nameOfNewStep(steps, place.after)}: ${partKindAt(fragment, place.kind)}`
    case 'step':
      return `${capitalised(partKindAt(fragment, place.kind))} of step ${numberOf(steps, place.step)}`
    case 'own':
      return `Of the procedure itself: ${place.kind === 'purpose' ? 'Purpose' : ownPartLabels[place.kind]}`
    case 'text':
      return `Here in ${uncapitalised(nameOfPart(place.kind, numberOf(steps, place.step)))}`
  }
}

/** By the step that it comes behind; behind the heading of a section it is the first of that section. */
function nameOfNewStep(steps: readonly Step[], after: StepId | null): string {
  if (steps.length === 0) return 'First step'
  const order = [...steps].sort(compareSteps)
  const at = order.findIndex(({ id }) => id === after)
  const words = levelBehind(steps, after) === 'sub-step' ? 'New sub-step' : 'New step'
  const before = order
    .slice(0, at + 1)
    .filter(({ level }) => level !== 'section')
    .at(-1)
  const first = order[at]?.level === 'section' ? ', first in its section' : ''
  if (before) return `${words} after ${numberOf(steps, before.id)}${first}`
  return `${words} before 1${first}`
}

const uncapitalised = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)
const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

/** All places of a procedure that a fragment can be carried to without pointing into a text, in reading order. */
export function placesIn(procedure: ProcedureId, steps: readonly Step[]): LandingPlace[] {
  const ordered = [...steps].sort(compareSteps)
  return [
    { at: 'new step', procedure, after: null },
    ...ordered.flatMap(({ id, level }): LandingPlace[] => [
      ...(level === 'section' ? [] : [{ at: 'step', step: id } as const]),
      { at: 'new step', procedure, after: id },
    ]),
    ...ownLandingKinds.map((kind) => ({ at: 'own', procedure, kind }) as const),
  ]
}
