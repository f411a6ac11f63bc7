/** Counts how often a way of finding fragments again is right, wrong, or says nothing. */
import type { Range, Selector } from '../../../shared/lab/model.ts'
import type { TextPair } from './texts.ts'
import type { Truth, Verdict } from './truth.ts'

/** Where a stretch of the older text is in the newer one; null where it says nothing. */
export type Finder = (selector: Selector, pair: TextPair) => Range | null
export type Outcome = 'right' | 'missed' | 'wrong'

/** A word's length, by which two edges may differ. */
const WORD = 12

/**
 * What an answer is worth. Of a fragment that exists still, each edge must stand within a word of the surviving
 * characters' edge; or, where the fragment lost characters at that edge, between there and where its surroundings go on.
 */
export function judge(answer: Range | null, verdict: Exclude<Verdict, { kind: 'unsettled' }>): Outcome {
  if (verdict.kind === 'gone') return answer === null ? 'right' : 'wrong'
  if (answer === null) return 'missed'
  return isRightPlace(answer, verdict.truth) ? 'right' : 'wrong'
}

function isRightPlace({ start, end }: Range, { place, widest }: Truth): boolean {
  return (
    start >= widest.start - WORD &&
    start <= place.start + WORD &&
    end >= place.end - WORD &&
    end <= widest.end + WORD &&
    start < place.end &&
    end > place.start
  )
}
