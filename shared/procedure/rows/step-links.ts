/** References to steps in a text: Markdown links with the scheme `step:` and the step's id. */
import { visit } from 'unist-util-visit'
import type { StepId } from '../../lab/ids.ts'
import type { Range } from '../../lab/model.ts'
import { maybeStepNamed } from '../../markdown/addresses.ts'
import { maybeTree } from '../../markdown/parse.ts'
import { toOneLine, wordsOf } from '../../markdown/words.ts'

export interface StepLink extends Range {
  readonly step: StepId
  /** As they were typed; the number in them may be an old one. */
  readonly words: string
}

/** All references to steps in a Markdown text, in order. Code holds none. */
export function stepLinksIn(text: string): StepLink[] {
  // Most texts have none, and need not be read.
  const tree = text.includes('step:') ? maybeTree(text) : undefined
  const links: StepLink[] = []
  if (!tree) return links
  visit(tree, 'link', (node) => {
    const step = maybeStepNamed(node.url)
    const { start, end } = node.position ?? {}
    if (step && start?.offset !== undefined && end?.offset !== undefined)
      links.push({ step, words: toOneLine(wordsOf(node)), start: start.offset, end: end.offset })
  })
  return links
}

/** What a reference reads as: the step's present number, or that it is gone. */
export function wordsOfStepLink(number: string | undefined, words: string): string {
  if (number) return `step ${number}`
  return number === '' ? words || 'that section' : `${words || 'a step'} (gone)`
}

/** A reference as it is typed. */
export function stepLinkTo(step: StepId, number: string): string {
  return `[step ${number}](step:${step})`
}

/** The text with every reference as plain words, with present numbers: for export and for print. */
export function withPresentNumbers(text: string, numbers: ReadonlyMap<string, string>): string {
  return stepLinksIn(text).reduceRight((made, { start, end, step, words }) => {
    const plain = wordsOfStepLink(numbers.get(step), words).replace(/[\\[\]*_`<&]/gu, '\\$&')
    return `${made.slice(0, start)}${plain}${made.slice(end)}`
  }, text)
}
