/** Terms of items that a page has no macro for: a short line above an indent, a mark that was moved out of a paragraph. */
import { addText, motionBack, motionOn, wordsOfRuns, type Run } from './style.ts'

const maxTerm = 120

/** Whether a paragraph right above an indent is a term rather than a sentence. */
export function isTerm(runs: readonly Run[]): boolean {
  const words = wordsOfRuns(runs).trim()
  return words !== '' && words.length <= maxTerm && !/(?:[.:;,]|\ufdd0.*)$/u.test(words)
}

/** `\h'-04'•\h'+03'`: a mark that was moved out of the paragraph that it belongs to. */
export function maybeHangingMark(runs: readonly Run[]): { term: Run[]; rest: Run[] } | undefined {
  const words = wordsOfRuns(runs)
  if (!/^[ \n]*\ufdd0[^\ufdd0\ufdd1\n]{1,12}\ufdd1/u.test(words)) return undefined
  const end = words.indexOf(motionOn)
  const term: Run = { text: words.slice(words.indexOf(motionBack) + 1, end), font: 'R' }
  const rest: Run[] = []
  let at = 0
  for (const { text, font } of runs) {
    addText(rest, text.slice(Math.max(0, end + 1 - at)), font)
    at += text.length
  }
  return { term: [term], rest }
}
