/** How the time of a suggestion grows with the tagged texts: a ratio of two models asked in turn. */
import { suggestTags } from '../../../shared/find/suggest-tags.ts'
import { emptyTagModel, withTexts, type TaggedText, type TagModel } from '../../../shared/find/tag-model.ts'
import { randomOf } from './tags.ts'

/** A made-up page of that many words: common words are common and rare ones rare (Zipf's law, roughly). */
export function madeUpText(at: number, words: number): TaggedText {
  const random = randomOf(at + 1)
  const word = (): string => `w${wordName(Math.floor(20_000 ** random()))}`
  return {
    id: `text-${String(at).padStart(6, '0')}`,
    title: `${word()} ${word()}`,
    text: Array.from({ length: words }, word).join(' '),
    tags: Array.from({ length: 4 }, () => `tag-${wordName(Math.floor(300 ** random()))}`),
  }
}

/** A number in letters, so that no token is torn apart at a digit. */
function wordName(number: number): string {
  return [...String(number)].map((digit) => 'abcdefghij'[Number(digit)]).join('')
}

/** How many times longer a suggestion takes against `many` tagged texts than against `few`; the median of seven rounds. */
export function slowdown(few: number, many: number): number {
  const texts = Array.from({ length: many }, (_, at) => madeUpText(at, 120))
  const small = withTexts(emptyTagModel, texts.slice(0, few))
  const great = withTexts(emptyTagModel, texts)
  const asked = Array.from({ length: 10 }, (_, at) => madeUpText(1_000_000 + at, 120))
  // Reckons what follows from each model, and lets the compiler warm up.
  timeOf(small, asked)
  timeOf(great, asked)
  const ratios = Array.from({ length: 7 }, () => timeOf(great, asked) / timeOf(small, asked))
  return ratios.sort((one, other) => one - other)[3]!
}

function timeOf(model: TagModel, asked: readonly TaggedText[]): number {
  const start = performance.now()
  for (const { title, text } of asked) suggestTags(model, { title, text })
  return performance.now() - start
}
