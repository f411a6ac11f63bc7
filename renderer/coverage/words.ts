/** What stands in the panel in words. Pure. */
import type { BarStretch } from '../../shared/procedure/coverage/summary.ts'
import type { MissingItem, UnprovenItem } from './model.ts'

/** The stretches of the bar. */
export const stretchWords: Readonly<Record<BarStretch, string>> = {
  covered: 'Covered',
  leftOut: 'Left out',
  uncertain: 'Unknown',
  missing: 'Missing',
}

const reasonWords: Partial<Record<MissingItem['reasons'][number], string>> = {
  leaned: 'A step names what it makes.',
  pair: 'A step holds its other half.',
  destroys: 'It takes something away.',
  fix: 'It ended a problem.',
  untouched: 'No step touches the same thing.',
  between: 'It was done between two steps.',
}

/** So many reasons are said; the most telling come first. */
const MOST_REASONS = 2

/** Why something is listed where it is; empty where nothing speaks for it but its place. */
export function whyListed({ reasons }: Pick<MissingItem, 'reasons'>): string {
  return reasons
    .slice(0, MOST_REASONS)
    .map((reason) => reasonWords[reason] ?? '')
    .join(' ')
    .trim()
}

/** What is not known of something that may be missing. */
export function whyUnsure({ outcome, effect }: Pick<MissingItem, 'outcome' | 'effect'>): string {
  if (outcome === 'unknown' && effect === 'unknown')
    return 'Whether it worked is unknown, and so is what it does.'
  return outcome === 'unknown' ? 'Whether it worked is unknown.' : 'What it does is unknown.'
}

export const unprovenWords: Readonly<Record<UnprovenItem['why'], string>> = {
  failed: 'It failed each time.',
  unknown: 'Whether it worked is unknown.',
  reworded: 'It worked in other words.',
  never: 'No entry holds it.',
}

/** Reasons for leaving something out that are often given. */
export const readyReasons = [
  'Done once, not part of this job.',
  'Only a trial.',
  'Done in another way here.',
  'Belongs to another procedure.',
] as const
