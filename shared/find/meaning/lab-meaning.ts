/** Meaning beside an index: what was learnt, and where each segment's documents lie in it. */
import type { LabIndex, LiveSegment } from '../index/lab-index.ts'
import { isMeaning, learnMeaning, placeSegment, type Meaning, type Places } from './meaning.ts'

export interface LabMeaning {
  readonly meaning: Meaning
  /** By a segment's name. A segment that is not here is placed when it is asked for. */
  readonly places: ReadonlyMap<number, Places>
}

/** Learns, without placing anything yet. */
export function learnFrom(index: LabIndex): LabMeaning {
  return { meaning: learnMeaning(index), places: new Map() }
}

/** One step of placing: the next segment that has no places. @returns null where all have them, and no other has */
export function placeNext(lab: LabMeaning, { segments }: LabIndex): LabMeaning | null {
  const next = segments.find(({ name }) => !lab.places.has(name))
  const names = new Set(segments.map(({ name }) => name))
  const isTidy = [...lab.places.keys()].every((name) => names.has(name))
  if (!next && isTidy) return null
  const places = new Map([...lab.places].filter(([name]) => names.has(name)))
  if (next) places.set(next.name, placeSegment(lab.meaning, next))
  return { meaning: lab.meaning, places }
}

export function placesOf({ meaning, places }: LabMeaning, live: LiveSegment): Places {
  return places.get(live.name) ?? placeSegment(meaning, live)
}

/** What is written so that the meaning is kept between starts. */
export interface MeaningStep {
  /** null where what is kept is still right. */
  readonly meaning: Meaning | null
  readonly put: readonly { readonly name: number; readonly places: Places }[]
  readonly remove: readonly number[]
}

/** @param kept as it was when it was last kept; null for never */
export function toMeaningStep(kept: LabMeaning | null, lab: LabMeaning): MeaningStep {
  const isSame = kept?.meaning === lab.meaning
  return {
    meaning: isSame ? null : lab.meaning,
    put: [...lab.places].flatMap(([name, places]) =>
      isSame && kept.places.has(name) ? [] : [{ name, places }],
    ),
    remove: [...(kept?.places.keys() ?? [])].filter((name) => !lab.places.has(name)),
  }
}

/** The meaning as it was kept; null where it is none of this format, and has to be learnt anew. */
export function fromKept(meaning: unknown, places: ReadonlyMap<number, Places>): LabMeaning | null {
  return isMeaning(meaning) ? { meaning, places } : null
}
