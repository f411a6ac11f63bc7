/** How easily a text reads, from its prose. Start here. */
import { countProse, type TextCounts } from './counts.ts'
import {
  automatedReadability,
  colemanLiau,
  fleschKincaidGrade,
  fleschReadingEase,
  gunningFog,
  smog,
} from './formulas.ts'

/**
 * What instructions should reach. A Flesch score of 60 is where Flesch's own table begins “plain English”; a grade of 9 is what
 * military manuals of the United States were to keep to within one (MIL-M-38784B); sentences of 20 words on average and none
 * over 40 are plainlanguage.gov's.
 */
export const easeBounds = {
  plainScore: 60,
  fairScore: 50,
  plainGrade: 9,
  fairGrade: 11,
  averageWords: 20,
  longestSentence: 40,
} as const

/** The formulas were made for samples of 100 words; fewer give a rough figure, and fewer than 30 none worth showing. */
const SAMPLE_WORDS = 100
const LEAST_WORDS = 30

export interface EaseScores {
  readonly fleschReadingEase: number
  readonly fleschKincaidGrade: number
  readonly gunningFog: number
  readonly smog: number
  readonly colemanLiau: number
  readonly automatedReadability: number
}

export interface Ease {
  readonly counts: TextCounts
  /** Null where there is no prose. */
  readonly scores: EaseScores | null
  readonly verdict: 'plain' | 'fair' | 'hard' | 'too short to say'
  /** Whether the text is shorter than the formulas were made for. */
  readonly isRough: boolean
  /** What to tell the person. */
  readonly sentence: string
}

/** Reads a Markdown text. English only: other languages get figures that mean nothing. */
export function readingEase(markdown: string): Ease {
  const counts = countProse(markdown)
  const scores = counts.words === 0 ? null : scoresOf(counts)
  const verdict = verdictOf(counts, scores)
  return {
    counts,
    scores,
    verdict,
    isRough: counts.words < SAMPLE_WORDS,
    sentence: sentenceOf(counts, scores, verdict),
  }
}

function scoresOf(counts: TextCounts): EaseScores {
  return {
    fleschReadingEase: fleschReadingEase(counts),
    fleschKincaidGrade: fleschKincaidGrade(counts),
    gunningFog: gunningFog(counts),
    smog: smog(counts),
    colemanLiau: colemanLiau(counts),
    automatedReadability: automatedReadability(counts),
  }
}

function verdictOf(counts: TextCounts, scores: EaseScores | null): Ease['verdict'] {
  if (!scores || counts.words < LEAST_WORDS) return 'too short to say'
  const { fleschReadingEase: score, fleschKincaidGrade: grade } = scores
  const isShort =
    counts.words / counts.sentences <= easeBounds.averageWords && counts.longest <= easeBounds.longestSentence
  if (score >= easeBounds.plainScore && grade <= easeBounds.plainGrade && isShort) return 'plain'
  return score >= easeBounds.fairScore && grade <= easeBounds.fairGrade ? 'fair' : 'hard'
}

function sentenceOf(counts: TextCounts, scores: EaseScores | null, verdict: Ease['verdict']): string {
  if (!scores || verdict === 'too short to say')
    return 'There is too little prose to say how easily it reads.'
  const average = Math.round(counts.words / counts.sentences)
  const figures = `about ${average} words a sentence, the longest ${counts.longest}; Flesch reading ease about ${Math.round(scores.fleschReadingEase)}`
  const advice =
    verdict === 'plain'
      ? 'Reads plainly'
      : `${verdict === 'fair' ? 'Could be plainer' : 'Hard to read'}. Shorten sentences and long words`
  return `${advice}: ${figures}.`
}
