/** What a page says about itself in its head. */
import type { Element, Root } from 'hast'
import { maybeWebAddress } from '../markdown/addresses.ts'
import { toOneLine } from '../markdown/words.ts'
import { attribute, findElement, outermostElements, textOf } from './elements.ts'

export interface PageHead {
  readonly title: string | undefined
  /** Absolute http or https address of the page. */
  readonly address: string | undefined
  /** Where its relative addresses start from. */
  readonly base: string | undefined
}

/** @param known the address that the page is known to have come from, which counts more than what it says */
export function readHead(tree: Root, known: string | undefined): PageHead {
  const says = (name: string): Element[] => outermostElements(tree, (node) => node.tagName === name)
  const canonical = says('link').find((link) => /\bcanonical\b/iu.test(attribute(link, 'rel') ?? ''))
  const graphUrl = says('meta').find((meta) => attribute(meta, 'property')?.toLowerCase() === 'og:url')
  const named = [canonical && attribute(canonical, 'href'), graphUrl && attribute(graphUrl, 'content')]
  const address = [known, ...named].flatMap((one) => maybeWebAddress(one ?? '', known) ?? [])[0]
  const base = says('base').flatMap((one) => maybeWebAddress(attribute(one, 'href') ?? '', address) ?? [])[0]
  return { title: maybeTitle(tree), address, base: base ?? address }
}

function maybeTitle(tree: Root): string | undefined {
  const named = [findElement(tree, new Set(['title'])), findElement(tree, new Set(['h1']))]
  return named.map((element) => (element ? toOneLine(textOf(element)) : '')).find((words) => words !== '')
}
