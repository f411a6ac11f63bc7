/** An info text: nodes, each with a head line and a heading, as `info` prints it or as the file itself has it. */
import type { Heading, RootContent } from 'mdast'
import { item, settleLists, text } from './blocks.ts'
import type { Found } from './found.ts'
import { indentOf, toBlocks, type Layout } from './layout.ts'

const headLine = /^(?:File: [^,\n]+,\s+)?(?:Node: [^,\n]+,?\s*)?(?:(?:Next|Prev|Up): [^,\n]+,?\s*)+$/u
const separator = '\u001f'
/** What the directory of all info texts takes from this one. */
const directory = /^(?:INFO-DIR-SECTION [^\n]*|START-INFO-DIR-ENTRY\n[^]*?\nEND-INFO-DIR-ENTRY)$/gmu
/** Tables for jumping, which end a file. */
const tables = new Set(['Tag Table:', 'End Tag Table', 'Indirect:', 'Local Variables:'])

/** Marks for pictures and indices within a text (Texinfo manual, "Info Format"). */
const mark = '\0\b'
const marks = new RegExp(`${mark}\\[[^\\]]*${mark}\\]`, 'gu')

/** The text without marks that only a reader of info texts knows; they hold backspaces, so they go before overstrikes. */
export function withoutMarks(text: string): string {
  return text.includes('\0') ? text.replace(marks, '') : text
}

/** Says whether a text begins as an info text does, by its first few thousand letters. */
export function startsAsInfo(beginning: string): boolean {
  const first = beginning.split('\n').find((line) => line.trim() !== '' && !line.startsWith(separator)) ?? ''
  return (
    /^This is \S+, produced by (?:makeinfo|texi2any)/u.test(first) ||
    headLine.test(first.trim().slice(0, 500))
  )
}

/** The text of the nodes; undefined where the text does not begin as an info text does. */
export function maybeInfo(all: string): Found | undefined {
  if (!startsAsInfo(all.slice(0, 20_000))) return undefined
  const lines = all.replace(directory, '').split('\n')
  const content: RootContent[] = []
  for (const node of splitNodes(lines)) if (!tables.has(node[0] ?? '')) addNode(node, content)
  settleLists(content)
  const heading = content.find((block): block is Heading => block.type === 'heading')
  const words = heading?.children.map((child) => ('value' in child ? child.value : '')).join('') ?? ''
  return { title: words, content, author: null, dated: null, notes: [] }
}

function splitNodes(lines: readonly string[]): string[][] {
  const nodes: string[][] = [[]]
  for (const line of lines) {
    if (line.startsWith(separator) || headLine.test(line.trim())) nodes.push([])
    else nodes.at(-1)!.push(line.replace(/\f/gu, '').trimEnd())
  }
  return nodes
}

/** A heading is underlined by as many signs as it has; the sign says its depth (Texinfo manual, "Headings"). */
const underlines = ['*', '=', '-', '.']

function addNode(lines: readonly string[], content: RootContent[]): void {
  let section: string[] = []
  const layout: Layout = { base: 0, width: 72, firstLine: 3 }
  const close = (): void => {
    content.push(...toBlocks(section, layout))
    section = []
  }
  for (let at = 0; at < lines.length; at += 1) {
    const depth = depthOf(lines, at)
    const menu = depth === undefined ? maybeMenu(lines, at) : undefined
    if (depth === undefined && !menu) section.push(lines[at]!)
    else close()
    if (depth !== undefined) content.push({ type: 'heading', depth, children: [text(lines[at]!)] })
    if (depth !== undefined) at += 1
    if (menu) {
      addMenu(lines.slice(at, menu), content)
      at = menu - 1
    }
  }
  close()
}

function depthOf(lines: readonly string[], at: number): Heading['depth'] | undefined {
  const line = lines[at]!
  const under = lines[at + 1] ?? ''
  const level = underlines.indexOf(under[0] ?? '')
  const isUnder = level >= 0 && under.length > 2 && under === under[0]!.repeat(under.length)
  if (!isUnder || indentOf(line) > 0 || Math.abs(line.length - under.length) > 2) return undefined
  return (level + 1) as Heading['depth']
}

const footnotes = /^\s*-{3,} Footnotes -{3,}$/u

/** Where a menu that begins here ends. */
function maybeMenu(lines: readonly string[], at: number): number | undefined {
  if (lines[at] !== '* Menu:') return undefined
  const end = lines.findIndex(
    (line, i) => i > at && (depthOf(lines, i) !== undefined || footnotes.test(line)),
  )
  return end < 0 ? lines.length : end
}

/** Each line of a menu is an item, with what follows further in; lines between them stay words. */
function addMenu(lines: readonly string[], content: RootContent[]): void {
  content.push({ type: 'paragraph', children: [text('Menu:')] })
  let isOpen = false
  for (const line of lines.slice(1)) {
    const words = line
      .replace(/^\* /u, '')
      .replace(/::(?=\s|$)/u, ':')
      .replace(/\s+/gu, ' ')
      .trim()
    const last = content.at(-1)
    if (words === '') isOpen = false
    else if (line.startsWith('* ')) item(content, [], [{ type: 'paragraph', children: [text(words)] }])
    else if (isOpen && last?.type === 'list') extend(last.children.at(-1)!, words)
    else content.push({ type: 'paragraph', children: [text(words)] })
    isOpen = words !== ''
  }
}

function extend(one: { children: unknown[] }, words: string): void {
  const paragraph = one.children.at(-1) as { children: { value: string }[] } | undefined
  if (paragraph) paragraph.children[0]!.value += ` ${words}`
}
