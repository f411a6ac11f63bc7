/**
 * Fragments at large: drawn evenly from all counted ones of the frozen half, whether or not the algorithms of the truth
 * agree on them, so that a reader's judgement also covers what the measure as a whole leaves out.
 */
import { draw, seededNumbers } from '../drawing.ts'
import { drawFragments, type Fragment } from './fragments.ts'
import { needsGfm, type TextPair } from './texts.ts'

const SEED = 20270211
/**
 * A hundred, as many from each part as its share of all 3,967 fragments makes (531 belong to pairs with GFM's
 * specification, which cannot be had everywhere): so the others are the same with and without them.
 */
const COUNT = 87
const COUNT_WITH_GFM = 13

/** The fragments that were judged, in the order in which they were drawn; without GFM's specification those of the other pairs. */
export function drawAtLarge(pairs: readonly TextPair[]): Fragment[] {
  const counted = pairs.flatMap((pair) => drawFragments(pair, 'frozen'))
  return [
    ...draw(counted.filter(({ pair }) => !needsGfm(pair)), COUNT, seededNumbers(SEED)), // prettier-ignore
    ...draw(counted.filter(({ pair }) => needsGfm(pair)), COUNT_WITH_GFM, seededNumbers(SEED)), // prettier-ignore
  ]
}
