/** Taking in HTML: a saved page, or a fragment that was pasted or dropped. */
import type { Element, ElementContent } from 'hast'
import { toMdast } from 'hast-util-to-mdast'
import type { Code, Root as MarkdownRoot } from 'mdast'
import { serialiseMarkdown } from '../export/serialise.ts'
import { maybeWebAddress } from '../markdown/addresses.ts'
import { isBinaryText, maybeBinaryKind } from './binary.ts'
import { toCleanText } from './clean-text.ts'
import { contentOf } from './content.ts'
import { decodeHtml } from './decode.ts'
import { attribute, blockNames, findElement, textOf } from './elements.ts'
import { liftBlocks } from './flow.ts'
import { readHead } from './head.ts'
import { maxHtmlBytes, maxHtmlDepth, maxHtmlElements } from './limits.ts'
import { maybePageTree } from './page-tree.ts'
import { fragmentOf } from './pasted.ts'
import type { Pictures } from './pictures.ts'
import { toReadable, type Reading } from './readable.ts'
import { readStated } from './stated.ts'
import { empty, nothingStated, notText, tooDeep, tooLarge, tooManyElements, type Intake } from './taken.ts'
import { encodingNotes, titleOfName, titleOfWords, toTitle } from './text.ts'

/** What is known about a page before it is read; each counts more than what the page says. */
export interface Known {
  readonly address: string | null
  /** Empty where none is known. */
  readonly title?: string
  /** Name of its encoding. */
  readonly encoding?: string | undefined
  /** The pictures that came along. */
  readonly pictures?: Pictures
}

/**
 * Takes in the bytes of an HTML page: its content as Markdown, without programs, menus and forms.
 * Nothing of the page is run or fetched.
 *
 * @param name the file's name
 * @param address where the page came from, if that is known
 */
export function intakeHtml(name: string, bytes: Uint8Array, address: string | null = null): Intake {
  return intakePage(name, bytes, { address })
}

/** Takes in the bytes of an HTML page about which something is known. */
export function intakePage(name: string, bytes: Uint8Array, known: Known): Intake {
  if (bytes.length > maxHtmlBytes) return tooLarge(name, bytes.length, maxHtmlBytes)
  const binary = maybeBinaryKind(bytes)
  if (binary !== undefined) return notText(name, binary)
  const decoded = decodeHtml(bytes, known.encoding)
  if (isBinaryText(decoded.text)) return notText(name, 'holds more control characters than any page does')
  const { text, notes } = toCleanText(decoded.text)
  const tree = maybePageTree(text)
  if (!tree) return tooDeep(name, maxHtmlDepth)
  const head = readHead(tree, maybeWebAddress(known.address ?? ''))
  const reading: Reading = { base: head.base, isPage: true, leftOut: new Map(), pictures: known.pictures }
  const content = toReadable(contentOf(tree), reading)
  const elements = countElements(content)
  if (elements > maxHtmlElements) return tooManyElements(name, elements, maxHtmlElements)
  const words = toWords(content)
  if (words === '') return empty(name)
  return {
    ok: true,
    title: toTitle(known.title || (head.title ?? titleOfName(name))),
    address: head.address ?? null,
    kind: 'page',
    text: words,
    mediaType: 'text/html',
    ...nothingStated,
    ...readStated(tree),
    notes: [...encodingNotes(decoded), ...notes, ...leftOutNotes(reading)],
  }
}

/** Takes in HTML that was pasted or dropped. What the person selected is taken whole; only programs and controls go. */
export function intakePastedHtml(name: string, html: string, address: string | null = null): Intake {
  if (html.length > maxHtmlBytes) return tooLarge(name, html.length, maxHtmlBytes)
  const pasted = fragmentOf(html)
  const { text, notes } = toCleanText(pasted.html)
  const tree = maybePageTree(text)
  if (!tree) return tooDeep(name, maxHtmlDepth)
  const head = readHead(tree, maybeWebAddress(address ?? '') ?? pasted.address)
  const reading: Reading = { base: head.base, isPage: false, leftOut: new Map() }
  const content = toReadable(findElement(tree, new Set(['body'])) ?? tree, reading)
  const elements = countElements(content)
  if (elements > maxHtmlElements) return tooManyElements(name, elements, maxHtmlElements)
  const words = toWords(content)
  if (words === '') return empty(name)
  return {
    ok: true,
    title: toTitle(head.title ?? titleOfWords(words)),
    address: head.address ?? null,
    kind: 'page',
    text: words,
    mediaType: 'text/html',
    ...nothingStated,
    notes: [...notes, ...leftOutNotes(reading)],
  }
}

function toWords(content: readonly ElementContent[]): string {
  const children = inGroups(content).flatMap((group) => toMarkdownTree(group).children)
  const markdown = toCleanText(serialiseMarkdown(liftBlocks({ type: 'root', children }))).text
  return markdown.trim() === '' ? '' : markdown.replace(/^\n+/u, '')
}

function toMarkdownTree(children: ElementContent[]): MarkdownRoot {
  return toMdast({ type: 'root', children }, { document: true, handlers: { pre: toCode } }) as MarkdownRoot
}

const groupSize = 100

/** The library's time grows with the square of a list of siblings, so a long one is cut where a block begins. */
function inGroups(content: readonly ElementContent[]): ElementContent[][] {
  const groups: ElementContent[][] = [[]]
  for (const node of content) {
    const isBlock = node.type === 'element' && blockNames.has(node.tagName)
    if (isBlock && groups[groups.length - 1]!.length >= groupSize) groups.push([])
    groups[groups.length - 1]!.push(node)
  }
  return groups
}

function countElements(nodes: readonly ElementContent[]): number {
  return nodes.reduce(
    (sum, node) => (node.type === 'element' ? sum + 1 + countElements(node.children) : sum),
    0,
  )
}

/** The library's own way would trim the lines at the end and lay the text out anew. */
function toCode(_: unknown, pre: Element): Code {
  const code = findElement(pre, new Set(['code']))
  const language = code ? attribute(code, 'className')?.replace(/^language-/u, '') : undefined
  return { type: 'code', lang: language || null, meta: null, value: textOf(pre) }
}

function leftOutNotes({ leftOut }: Reading): readonly string[] {
  if (leftOut.size === 0) return []
  const counts = [...leftOut].map(
    ([words, count]) => `${count} ${count === 1 ? words.replace(/s$/u, '') : words}`,
  )
  return [`Left out: ${counts.join(', ')}.`]
}
