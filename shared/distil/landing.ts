/** Where a fragment may land, and what each place is called while it is being dragged. Only rightward. */
import { compareSteps } from '../lab/acts.ts'
import type { PartId, ProcedureId, StepId } from '../lab/ids.ts'
import type { EntryKind, Step, StepPartKind } from '../lab/model.ts'
import { defaultEntryKind, defaultPartKind } from './distil.ts'
import type { Fragment } from './fragment.ts'

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
  | {
      readonly at: 'text'
      readonly part: PartId
      readonly step: StepId
      readonly kind: StepPartKind
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
    case 'new step': {
      const kind = partKindAt(fragment, place.kind)
      return `${nameOfNewStep(numberOf(steps, place.after), steps.length)}: ${kind}`
    }
    case 'step':
      return `${capitalised(partKindAt(fragment, place.kind))} of step ${numberOf(steps, place.step)}`
    case 'text':
      return `Here in ${place.kind} of step ${numberOf(steps, place.step)}`
  }
}

function nameOfNewStep(after: number, count: number): string {
  if (count === 0) return 'First step'
  return after === 0 ? 'New step before 1' : `New step after ${after}`
}

/** 1 for the first; 0 for null and for a step that is not among them. */
export function numberOf(steps: readonly Step[], step: StepId | null): number {
  const ordered = [...steps].sort(compareSteps)
  return ordered.findIndex(({ id }) => id === step) + 1
}

const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

/** All places of a procedure that a fragment can be carried to without pointing into a text, in reading order. */
export function placesIn(procedure: ProcedureId, steps: readonly Step[]): LandingPlace[] {
  const ordered = [...steps].sort(compareSteps)
  return [
    { at: 'new step', procedure, after: null },
    ...ordered.flatMap(({ id }): LandingPlace[] => [
      { at: 'step', step: id },
      { at: 'new step', procedure, after: id },
    ]),
  ]
}
