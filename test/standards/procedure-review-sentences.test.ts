/**
 * The review against 150 sentences labelled after public handbooks. A label and a finding are compared by sentence and rule:
 * precision is the share of findings that are labelled, recall the share of labels that are found.
 */
import { describe, expect, it } from 'vitest'
import { reviewProcedure } from '../../shared/procedure/review/review.ts'
import { singleStep } from '../support/reviewed.ts'
import { frozenSentences, type LabelledSentence } from './procedure-review-frozen.ts'
import { sentenceRules } from './procedure-review-labels.ts'
import { tuningSentences } from './procedure-review-tuning.ts'

const judged: ReadonlySet<string> = new Set(sentenceRules)

function foundIn({ part, text }: LabelledSentence): string[] {
  const found = reviewProcedure(singleStep(part, text)).map(({ rule }) => rule)
  return [...new Set(found)].filter((rule) => judged.has(rule))
}

function measure(sentences: readonly LabelledSentence[]) {
  const [right, wrong, missed]: string[][] = [[], [], []]
  for (const sentence of sentences) {
    const found = foundIn(sentence)
    const labels: readonly string[] = sentence.breaks
    right!.push(...found.filter((rule) => labels.includes(rule)))
    wrong!.push(...found.filter((rule) => !labels.includes(rule)).map((rule) => `${rule}: ${sentence.text}`))
    missed!.push(...labels.filter((rule) => !found.includes(rule)).map((rule) => `${rule}: ${sentence.text}`))
  }
  return {
    precision: right!.length / (right!.length + wrong!.length),
    recall: right!.length / (right!.length + missed!.length),
    counts: [right!.length, wrong!.length, missed!.length],
    wrong,
    missed,
  }
}

describe('sentences labelled after public handbooks', () => {
  it('are 150, half of them frozen, and both halves have good and bad ones for each rule', () => {
    expect([frozenSentences.length, tuningSentences.length]).toEqual([75, 75])
    for (const half of [frozenSentences, tuningSentences])
      for (const rule of sentenceRules)
        expect(half.filter(({ breaks }) => breaks.includes(rule)).length, rule).toBeGreaterThanOrEqual(2)
  })

  it.each([
    ['to tune by', tuningSentences],
    ['frozen', frozenSentences],
  ] as const)('are told apart with precision of at least .9 and recall of at least .7: %s', (name, half) => {
    const { precision, recall, ...rest } = measure(half)
    if (process.env.SHOW_FIGURES) console.log(name, precision, recall, JSON.stringify(rest, null, 1))
    expect(precision).toBeGreaterThanOrEqual(0.9)
    expect(recall).toBeGreaterThanOrEqual(0.7)
  })
})
