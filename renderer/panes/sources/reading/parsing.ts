/** Parsing a text that is read, in slices, so that a long one never holds up a key. */
import { markdownLanguage } from '@codemirror/lang-markdown'
import type { Tree } from '@lezer/common'

/** A text up to this length is parsed at once, before it is drawn, in UTF-16 code units. */
export const PARSED_AT_ONCE = 40_000
/** How long one slice takes, in milliseconds. */
const SLICE_MS = 10

/** The syntax tree of a short text. */
export function parseNow(text: string): Tree {
  return markdownLanguage.parser.parse(text)
}

/**
 * Parses with pauses in which the screen is drawn and keys are heard.
 * @returns how to stop it; nothing is told after that
 */
export function parseInSlices(text: string, onDone: (tree: Tree) => void): () => void {
  const parse = markdownLanguage.parser.startParse(text)
  return inSlices(() => parse.advance(), onDone)
}

/** Goes through something step by step, with such pauses. */
export function stepInSlices<T>(steps: Generator<undefined, T>, onDone: (value: T) => void): () => void {
  return inSlices(
    () => {
      const step = steps.next()
      return step.done ? { value: step.value } : null
    },
    (done) => onDone(done.value),
  )
}

function inSlices<T extends object>(advance: () => T | null, onDone: (value: T) => void): () => void {
  let timer = setTimeout(work)
  function work(): void {
    const until = performance.now() + SLICE_MS
    while (performance.now() < until) {
      const done = advance()
      if (done) return onDone(done)
    }
    timer = setTimeout(work)
  }
  return () => clearTimeout(timer)
}
