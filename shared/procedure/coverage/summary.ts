/** Coverage as counts, for a picture. */
import type { Coverage } from './omissions.ts'

export interface CoverageCounts {
  /** Of what changed something in the journal and stands, each command once. They add up to `all`. */
  readonly covered: number
  readonly leftOut: number
  readonly missing: number
  readonly uncertain: number
  readonly all: number
  /** Commands of the procedure that no entry shows to have worked as they are written. */
  readonly unproven: number
}

export function countsOf({ covered, leftOut, omissions, uncertain, unproven }: Coverage): CoverageCounts {
  const counts = {
    covered: covered.length,
    leftOut: leftOut.length,
    missing: omissions.length,
    uncertain: uncertain.length,
  }
  return {
    ...counts,
    all: covered.length + leftOut.length + omissions.length + uncertain.length,
    unproven: unproven.length,
  }
}

/** The bar's stretches from left to right, as shares of 1; empty ones left out. */
export function barOf(counts: CoverageCounts): { readonly is: BarStretch; readonly share: number }[] {
  if (counts.all === 0) return []
  return stretches.map((is) => ({ is, share: counts[is] / counts.all })).filter(({ share }) => share > 0)
}

const stretches = ['covered', 'leftOut', 'uncertain', 'missing'] as const
export type BarStretch = (typeof stretches)[number]

/** The counts in one sentence. */
export function wordsOfCounts({ all, covered, leftOut, missing, uncertain }: CoverageCounts): string {
  if (all === 0) return 'The journal holds no command that changed anything.'
  const parts = [
    `${covered} of ${all} have a counterpart`,
    ...(missing > 0 ? [`${missing} ${missing === 1 ? 'is' : 'are'} missing`] : []),
    ...(uncertain > 0 ? [`of ${uncertain} the outcome or the effect is unknown`] : []),
    ...(leftOut > 0 ? [`${leftOut} left out with a reason`] : []),
  ]
  return `Of what changed something, ${parts.join(', ')}.`
}
