/**
 * How a capture's Markdown looks to someone who reads it: its signs step back, headings, lists, code, quotes, tables and
 * pictures look like what they are. The text itself stays as it is, sign for sign, so that every place in it holds.
 */
import { RangeSet, type Text } from '@codemirror/state'
import { Decoration, type BlockWrapper } from '@codemirror/view'
import type { SyntaxNode, SyntaxNodeRef, Tree } from '@lezer/common'
import type { PageStart } from '../../../../shared/lab/model.ts'
import { Drawing, pageMarks, type Looks, type Place } from './drawing.ts'
import { dressAutolink, dressLink, dressPicture, dressUrl, readDefinitions } from './dressLinks.ts'
import { levelOf } from './outline.ts'
import { dressTable } from './table.ts'
import { LettersWidget, RuleWidget } from './widgets.ts'

/** The looks of a text that is too long to be dressed: its pages alone. */
export function plainLooks(pages: readonly PageStart[], doc: Text): Looks {
  return {
    decorations: Decoration.set(pageMarks(pages, doc), true),
    outer: Decoration.none,
    wrappers: RangeSet.of<BlockWrapper>([]),
    hidden: Decoration.none,
    links: [],
    blocks: [],
  }
}

/** The looks of a whole text. */
export function looksOf(text: string, doc: Text, tree: Tree, pages: readonly PageStart[]): Looks {
  const steps = looksByBlocks(text, doc, tree, pages)
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value
}

/** The same, with a pause offered behind each block of the text's first level. */
export function* looksByBlocks(
  text: string,
  doc: Text,
  tree: Tree,
  pages: readonly PageStart[],
): Generator<undefined, Looks> {
  const drawing = new Drawing(text, doc)
  const starts = new Set(pages.map(({ start }) => start))
  if (text.includes(']:')) readDefinitions(drawing, tree)
  for (let block = tree.topNode.firstChild; block; block = block.nextSibling) {
    dressBlock(drawing, block, starts)
    yield undefined
  }
  return drawing.result(pages, blocksOf(tree))
}

function dressBlock(drawing: Drawing, block: SyntaxNode, pages: ReadonlySet<number>): void {
  let depth = 0
  block.cursor().iterate(
    (node) => {
      if (isList(node.name)) depth += 1
      return dress(drawing, node, depth, pages)
    },
    ({ name }) => {
      if (isList(name)) depth -= 1
    },
  )
}

/** The blocks of the first level, in order. */
export function blocksOf(tree: Tree): Place[] {
  const blocks: Place[] = []
  for (let node = tree.topNode.firstChild; node; node = node.nextSibling)
    blocks.push({ from: node.from, to: node.to })
  return blocks
}

const isList = (name: string): boolean => name === 'BulletList' || name === 'OrderedList'

/** @returns false where what the node holds needs no look of its own */
function dress(
  drawing: Drawing,
  ref: SyntaxNodeRef,
  depth: number,
  pages: ReadonlySet<number>,
): boolean | void {
  const { name, from, to } = ref
  const { text, doc } = drawing
  const level = levelOf(ref)
  if (level > 0) return dressHeading(drawing, ref.node, level)
  switch (name) {
    case 'Paragraph':
      return dressParagraph(drawing, ref.node, pages)
    case 'Emphasis':
      return drawing.mark(from, to, 'st-r-em')
    case 'StrongEmphasis':
      return drawing.mark(from, to, 'st-r-strong')
    case 'Strikethrough':
      return drawing.mark(from, to, 'st-r-gone')
    case 'InlineCode':
      return drawing.mark(from, to, 'st-r-mono')
    case 'EmphasisMark':
    case 'StrikethroughMark':
      return drawing.hide(from, to)
    case 'CodeMark':
      return ref.node.parent?.name === 'InlineCode' ? drawing.hide(from, to) : undefined
    case 'Escape':
      return drawing.hide(from, from + 1)
    case 'Entity':
      return dressEntity(drawing, from, to)
    case 'HardBreak':
      return drawing.hide(from, text[to - 1] === '\n' ? to - 1 : to)
    case 'Link':
      return dressLink(drawing, ref.node)
    case 'Autolink':
      return dressAutolink(drawing, ref.node)
    case 'URL':
      return dressUrl(drawing, ref.node)
    case 'Image':
      return dressPicture(drawing, ref.node)
    case 'FencedCode':
      return dressFence(drawing, ref.node)
    case 'CodeBlock':
      return dressIndented(drawing, ref.node)
    case 'HTMLBlock':
    case 'CommentBlock':
    case 'ProcessingInstructionBlock':
    case 'LinkReference':
      return (eachLine(drawing, from, to, (line) => drawing.line(line.from, 'st-r-raw')), false)
    case 'HTMLTag':
      return drawing.mark(from, to, 'st-r-soft')
    case 'Blockquote':
      return eachLine(drawing, from, to, (line) => drawing.line(line.from, 'st-r-quote'))
    case 'QuoteMark':
      return drawing.hide(from, text[to] === ' ' ? to + 1 : to)
    case 'ListItem':
      return dressItem(drawing, ref.node, depth)
    case 'TaskMarker':
      return drawing.replace(from, to, taskWidget(text.slice(from, to)))
    case 'HorizontalRule':
      return drawing.replace(from, to, new RuleWidget())
    case 'Table':
      return dressTable(drawing, ref.node, doc)
    default:
      return undefined
  }
}

type Line = Place

function eachLine({ doc }: Drawing, from: number, to: number, look: (line: Line, at: number) => void): void {
  const last = doc.lineAt(to).number
  for (let number = doc.lineAt(from).number, at = 0; number <= last; number += 1, at += 1)
    look(doc.line(number), at)
}

const isBlank = (text: string): boolean => /^[ \t]*$/u.test(text)

function dressHeading(drawing: Drawing, node: SyntaxNode, level: number): void {
  const { text, doc } = drawing
  const line = doc.lineAt(node.from)
  drawing.line(line.from, `st-r-h st-r-h${level}`, { role: 'heading', 'aria-level': String(level) })
  for (const mark of node.getChildren('HeaderMark'))
    if (node.name.startsWith('Setext')) drawing.hide(doc.lineAt(mark.from).from - 1, mark.to)
    else if (mark.from === node.from) drawing.hide(mark.from, skipBlanks(text, mark.to))
    else drawing.hide(skipBlanksBack(text, mark.from), mark.to)
}

function skipBlanks(text: string, from: number): number {
  let at = from
  while (text[at] === ' ' || text[at] === '\t') at += 1
  return at
}

function skipBlanksBack(text: string, from: number): number {
  let at = from
  while (text[at - 1] === ' ' || text[at - 1] === '\t') at -= 1
  return at
}

/** Lines of one paragraph run on: where a line ends is a matter of who typed it (CommonMark §6.8). */
function dressParagraph(drawing: Drawing, node: SyntaxNode, pages: ReadonlySet<number>): void {
  const { text, doc } = drawing
  const line = doc.lineAt(node.from)
  if (isBlank(text.slice(line.from, node.from))) drawing.hide(line.from, node.from)
  const breaks = new Set<number>()
  node.cursor().iterate(({ name, to }) => {
    if (name === 'HardBreak') breaks.add(text[to - 1] === '\n' ? to - 1 : to)
  })
  for (let at = text.indexOf('\n', node.from); at >= 0 && at < node.to; at = text.indexOf('\n', at + 1)) {
    const prefix = /^[ \t>]*/u.exec(text.slice(at + 1, at + 200))![0]
    const next = Math.min(at + 1 + prefix.length, node.to)
    if (pages.has(at + 1) || pages.has(next)) continue
    if (breaks.has(at)) drawing.hide(at + 1, next)
    else drawing.replace(at, next, space)
  }
}

const space = new LettersWidget(' ')

const namedEntities: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: '\u00a0',
}

function dressEntity(drawing: Drawing, from: number, to: number): void {
  const name = drawing.text.slice(from + 1, to - 1)
  const number = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/iu.exec(name)
  const point = number ? (number[1] ? parseInt(number[1], 16) : Number(number[2])) : 0
  const sign = number
    ? point > 0 && point <= 0x10ffff && (point < 0xd800 || point > 0xdfff)
      ? String.fromCodePoint(point)
      : undefined
    : namedEntities[name]
  if (sign !== undefined) drawing.replace(from, to, new LettersWidget(sign))
}

/** The fences go; the language stands at the head of the block. */
function dressFence(drawing: Drawing, node: SyntaxNode): boolean {
  const { text, doc } = drawing
  const [opening, closing] = node.getChildren('CodeMark')
  const first = doc.lineAt(node.from)
  const last = doc.lineAt(node.to)
  const end = closing ? last.number - 1 : last.number
  const start = first.number + 1
  eachLine(drawing, node.from, node.to, (line) => drawing.keepBlanks(line.from))
  if (!opening || start > end) {
    eachLine(drawing, node.from, node.to, (line) => drawing.line(line.from, 'st-r-code'))
    return false
  }
  const isAlone = isBlank(text.slice(first.from, opening.from))
  const head = isAlone ? first.from : doc.line(start).from
  if (isAlone) drawing.hide(first.from, doc.line(start).from)
  else drawing.hide(opening.from, first.to)
  for (let number = start; number <= end; number += 1) {
    const line = doc.line(number)
    drawing.line(number === start ? head : line.from, 'st-r-code')
  }
  const info = node.getChild('CodeInfo')
  const language = info ? text.slice(info.from, info.to).trim().split(/\s/u)[0] : ''
  drawing.line(head, 'st-r-code-first', language ? { 'data-language': language } : {})
  drawing.line(start === end ? head : doc.line(end).from, 'st-r-code-last')
  for (const inner of node.getChildren('CodeText')) hideBefore(drawing, inner.from)
  if (closing) drawing.hide(doc.line(end).to, last.to)
  return false
}

/** The blanks before a piece of code that belong to the list it stands in. */
function hideBefore(drawing: Drawing, at: number): void {
  const { from } = drawing.doc.lineAt(at)
  if (isBlank(drawing.text.slice(from, at))) drawing.hide(from, at)
}

function dressIndented(drawing: Drawing, node: SyntaxNode): boolean {
  const lines: Line[] = []
  eachLine(drawing, node.from, node.to, (line) => lines.push(line))
  lines.forEach((line, at) => {
    drawing.keepBlanks(line.from)
    const edges = [at === 0 ? ' st-r-code-first' : '', at === lines.length - 1 ? ' st-r-code-last' : '']
    drawing.line(line.from, `st-r-code${edges.join('')}`)
    const blanks = /^(?: {4}|\t)/u.exec(drawing.text.slice(line.from, line.to))?.[0].length ?? 0
    drawing.hide(line.from, line.from + blanks)
  })
  return false
}

/** Deeper lists than this are drawn like this one. */
const DEEPEST = 6

function dressItem(drawing: Drawing, node: SyntaxNode, depth: number): void {
  const { text, doc } = drawing
  const mark = node.getChild('ListMark')
  const level = Math.min(depth, DEEPEST)
  eachLine(drawing, node.from, node.to, (line, at) => {
    if (at > 0) drawing.line(line.from, `st-r-in st-r-in${level}`)
  })
  if (!mark) return
  const line = doc.lineAt(mark.from)
  const isHead = isBlank(text.slice(line.from, mark.from))
  if (isHead) drawing.hide(line.from, mark.from)
  drawing.line(line.from, `st-r-item st-r-in st-r-in${level}`)
  const letters = /^[-+*]$/u.test(text.slice(mark.from, mark.to)) ? '•' : text.slice(mark.from, mark.to)
  drawing.replace(mark.from, skipBlanks(text, mark.to), new LettersWidget(letters, 'st-r-bullet'))
}

function taskWidget(marker: string): LettersWidget {
  const isDone = /x/iu.test(marker)
  return new LettersWidget(isDone ? '☑' : '☐', 'st-r-task', isDone ? 'Done:' : 'Open:')
}
