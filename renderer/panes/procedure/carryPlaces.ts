/** The list of places that something picked can be carried to. Pure. */
import type { Fragment } from '../../../shared/distil/fragment.ts'
import {
  canLand,
  entryKindAt,
  nameOfPlace,
  partKindAt,
  placesIn,
  type LandingPlace,
} from '../../../shared/distil/landing.ts'
import type { EntryKind, Step, StepPartKind } from '../../../shared/lab/model.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { mainPartOf, type ShownProcedure, type ShownStep } from './shown.ts'

/** Kinds that the person chose instead of the usual ones; null for the usual one. */
export interface WantedKinds {
  readonly part: StepPartKind | null
  readonly entry: EntryKind | null
}

export interface CarryChoice {
  /** Unlike that of any other place of the list. */
  readonly id: string
  /** null where a procedure must be begun first. */
  readonly place: LandingPlace | null
  readonly name: string
  /** Words of the step by which a person knows it again; empty for a step yet to be made. */
  readonly excerpt: string
}

const EXCERPT = 90

/**
 * All places that a fragment may be carried to, the journal first, then the procedure in reading order; where there is no
 * procedure, one can be begun.
 */
export function carryChoices(
  fragment: Fragment,
  procedure: ShownProcedure | null,
  kinds: WantedKinds,
): CarryChoice[] {
  const journal: LandingPlace = { at: 'journal', kind: entryKindAt(fragment, kinds.entry ?? undefined) }
  const choices = canLand(fragment, journal) ? [toChoice(journal, fragment, [])] : []
  if (!procedure) return [...choices, beginning(partKindAt(fragment, kinds.part ?? undefined))]
  const steps = procedure.steps.map(({ step }) => step)
  const kind = partKindAt(fragment, kinds.part ?? undefined)
  for (const place of placesIn(procedure.id, steps))
    choices.push(toChoice(withKind(place, kind), fragment, steps, procedure.steps))
  return choices
}

function beginning(kind: StepPartKind): CarryChoice {
  const excerpt = 'The project has none yet. It gets the title of the project until you give it another.'
  return { id: 'begin', place: null, name: `Begin a procedure; first step: ${kind}`, excerpt }
}

function withKind(place: LandingPlace, kind: StepPartKind): LandingPlace {
  return place.at === 'new step' || place.at === 'step' ? { ...place, kind } : place
}

function toChoice(
  place: LandingPlace,
  fragment: Fragment,
  steps: readonly Step[],
  shown: readonly ShownStep[] = [],
): CarryChoice {
  const name = nameOfPlace(place, fragment, steps)
  switch (place.at) {
    case 'journal':
      return { id: 'journal', place, name, excerpt: '' }
    case 'new step':
      return { id: `after ${place.after ?? 'none'}`, place, name, excerpt: '' }
    case 'own':
      return { id: `own ${place.kind}`, place, name, excerpt: '' }
    case 'step':
    case 'text': {
      const step = shown.find(({ step }) => step.id === place.step)
      const excerpt = plainWords(step ? (mainPartOf(step)?.text ?? '') : '', EXCERPT)
      return { id: `step ${place.step}`, place, name, excerpt }
    }
  }
}

/** The choices whose name or excerpt holds every typed word, letter case and accents aside. */
export function filterChoices(choices: readonly CarryChoice[], typed: string): CarryChoice[] {
  const wanted = fold(typed).split(/\s+/u).filter(Boolean)
  return choices.filter(({ name, excerpt }) => {
    const words = fold(`${name} ${excerpt}`)
    return wanted.every((word) => words.includes(word))
  })
}

function fold(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLocaleLowerCase()
}
