/**
 * How a capture's Markdown looks to someone who reads it: its signs step back, headings, lists, code, quotes, tables and
 * pictures look like what they are. The text itself stays as it is, sign for sign, so that every place in it holds.
 */
import { RangeSet, type Range, type Text } from '@codemirror/state'
import { BlockWrapper, Decoration, type DecorationSet } from '@codemirror/view'
import type { SyntaxNode, SyntaxNodeRef, Tree } from '@lezer/common'
import type { PageStart } from '../../../../shared/lab/model.ts'
import { isPictureData, maybeLinkAddress } from '../../../../shared/markdown/addresses.ts'
import { levelOf } from './outline.ts'
import { dressTable } from './table.ts'
import { LettersWidget, PageWidget, PictureWidget, RuleWidget } from './widgets.ts'

/** A link of the text: where its words stand and where it leads. */
export interface TextLink extends Place {
  readonly address: string
}

export interface Looks {
  readonly decorations: DecorationSet
  /** Boxes of tables: around everything else. */
  readonly outer: DecorationSet
  readonly wrappers: RangeSet<BlockWrapper>
  /** What is not seen, or stands as one piece: the cursor steps over it, and finding passes by. */
  readonly hidden: DecorationSet
  readonly links: readonly TextLink[]
  /** The blocks of the text's first level, in order. */
  readonly blocks: readonly Place[]
}

/** A half-open stretch of the text, in UTF-16 code units. */
export interface Place {
  readonly from: number
  readonly to: number
}

/** Collects what the handlers below say about places. */
export class Drawing {
  readonly marks: Range<Decoration>[] = []
  readonly outer: Range<Decoration>[] = []
  readonly wrappers: Range<BlockWrapper>[] = []
  readonly links: TextLink[] = []
  readonly definitions = new Map<string, string>()
  private readonly replaced: Range<Decoration>[] = []
  private readonly lines = new Map<number, { classes: Set<string>; attributes: Record<string, string> }>()
  private readonly code = new Set<number>()

  constructor(
    readonly text: string,
    readonly doc: Text,
  ) {}

  mark(from: number, to: number, className: string, attributes: Record<string, string> = {}): void {
    if (from < to) this.marks.push(Decoration.mark({ class: className, attributes }).range(from, to))
  }

  hide(from: number, to: number): void {
    if (from < to) this.replaced.push(hiding.range(from, to))
  }

  replace(from: number, to: number, widget: LettersWidget | PictureWidget | RuleWidget): void {
    if (from < to) this.replaced.push(Decoration.replace({ widget }).range(from, to))
  }

  line(at: number, className: string, attributes: Record<string, string> = {}): void {
    const line = this.lines.get(at) ?? { classes: new Set(), attributes: {} }
    for (const name of className.split(' ')) line.classes.add(name)
    Object.assign(line.attributes, attributes)
    this.lines.set(at, line)
  }

  /** Lines whose blanks mean something. */
  keepBlanks(at: number): void {
    this.code.add(at)
  }

  link(from: number, to: number, address: string, className = 'st-r-link'): void {
    if (from >= to) return
    this.links.push({ from, to, address })
    this.mark(from, to, className, { 'data-address': address })
  }

  result(pages: readonly PageStart[], blocks: readonly Place[]): Looks {
    const hidden = withoutOverlaps(this.replaced)
    const joins = hidden.filter(({ from, to }) => this.text.slice(from, to).includes('\n'))
    this.dressBlankLines()
    const lines = withoutJoined([...this.lines], joins).map(([at, { classes, attributes }]) =>
      Decoration.line({ class: [...classes].join(' '), attributes }).range(at),
    )
    return {
      decorations: Decoration.set([...this.marks, ...hidden, ...lines, ...pageMarks(pages, this.doc)], true),
      outer: Decoration.set(this.outer, true),
      wrappers: BlockWrapper.set(this.wrappers, true),
      hidden: Decoration.set(hidden, true),
      links: this.links,
      blocks,
    }
  }

  private dressBlankLines(): void {
    let at = 0
    for (let iterator = this.doc.iterLines(), next = iterator.next(); !next.done; next = iterator.next()) {
      if (next.value.trim() === '' && !this.code.has(at)) this.line(at, 'st-r-blank')
      at += next.value.length + 1
    }
  }
}

const hiding = Decoration.replace({})

/** Of pieces that overlap, the one that begins first and reaches furthest stays. */
function withoutOverlaps(ranges: readonly Range<Decoration>[]): Range<Decoration>[] {
  const sorted = [...ranges].sort((a, b) => a.from - b.from || b.to - a.to)
  const kept: Range<Decoration>[] = []
  let end = -1
  for (const range of sorted) {
    if (range.from < end) continue
    kept.push(range)
    end = range.to
  }
  return kept
}

/** Lines that begin within a piece that takes their line end away are no lines of their own on the screen. */
function withoutJoined<T>(
  lines: [number, T][],
  joins: readonly { from: number; to: number }[],
): [number, T][] {
  let next = 0
  return lines
    .sort(([a], [b]) => a - b)
    .filter(([at]) => {
      while (next < joins.length && joins[next]!.to < at) next += 1
      const join = joins[next]
      return !join || at <= join.from
    })
}

/** Marks where pages begin. Two that begin at the same place stand above each other. */
export function pageMarks(pages: readonly PageStart[], doc: Text): Range<Decoration>[] {
  return pages
    .filter(({ start }) => start <= doc.length)
    .map(({ start, label }, at) => {
      const widget = new PageWidget(label)
      return Decoration.widget({ widget, block: true, side: -1000 + at }).range(doc.lineAt(start).from)
    })
}

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

function readDefinitions(drawing: Drawing, tree: Tree): void {
  tree.iterate({
    enter: ({ name, node }) => {
      if (name !== 'LinkReference') return undefined
      const [label, url] = [node.getChild('LinkLabel'), node.getChild('URL')]
      const key = label && keyOf(drawing.text.slice(label.from, label.to))
      if (key && url && !drawing.definitions.has(key))
        drawing.definitions.set(key, addressIn(drawing.text.slice(url.from, url.to)))
      return false
    },
  })
}

const keyOf = (label: string): string =>
  label
    .replace(/^\[|\]$/gu, '')
    .replace(/\s+/gu, ' ')
    .trim()
    .toLowerCase()

/** A destination without its angle brackets and escapes (CommonMark §6.3). */
function addressIn(destination: string): string {
  return destination
    .replace(/^<|>$/gu, '')
    .replace(/\\([!-/:-@[-`{-~])/gu, '$1')
    .replace(/&amp;/gu, '&')
}

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

interface LinkPlaces {
  /** The words, between the brackets. */
  readonly from: number
  readonly to: number
  readonly url: string | undefined
}

/** The words and the destination of a link or a picture; null for brackets that are neither. */
function placesOf(drawing: Drawing, node: SyntaxNode): LinkPlaces | null {
  const { text } = drawing
  const marks = node.getChildren('LinkMark')
  const open = marks[0]
  const close = marks.find(({ from }) => text[from] === ']')
  if (!open || !close) return null
  const url = node.getChildren('URL').find(({ from }) => from >= close.to)
  const label = node.getChildren('LinkLabel').find(({ from }) => from >= close.to)
  const named = label && text.slice(label.from, label.to) !== '[]' ? label : { from: open.to, to: close.from }
  const destination = url
    ? addressIn(text.slice(url.from, url.to))
    : drawing.definitions.get(keyOf(text.slice(named.from, named.to)))
  return { from: open.to, to: close.from, url: destination }
}

function dressLink(drawing: Drawing, node: SyntaxNode): void {
  const places = placesOf(drawing, node)
  const address = places?.url === undefined ? undefined : maybeLinkAddress(places.url)
  // What is no link, or leads where nothing may lead, shows its signs.
  if (!places || address === undefined || isBlank(drawing.text.slice(places.from, places.to))) return
  drawing.hide(node.from, places.from)
  drawing.hide(places.to, node.to)
  drawing.link(places.from, places.to, address)
}

function dressAutolink(drawing: Drawing, node: SyntaxNode): boolean {
  const url = node.getChild('URL')
  const address = url ? maybeLinkAddress(drawing.text.slice(url.from, url.to)) : undefined
  if (url && address !== undefined) {
    drawing.hide(node.from, url.from)
    drawing.hide(url.to, node.to)
    drawing.link(url.from, url.to, address)
  }
  return false
}

const holdersOfUrls = new Set(['Link', 'Image', 'Autolink', 'LinkReference'])

/** An address that stands in the text as it is. */
function dressUrl(drawing: Drawing, node: SyntaxNode): void {
  if (holdersOfUrls.has(node.parent?.name ?? '')) return
  const written = drawing.text.slice(node.from, node.to)
  const whole = /^www\./iu.test(written)
    ? `http://${written}`
    : /^[^/:]+@[^/:]+$/u.test(written)
      ? `mailto:${written}`
      : written
  const address = maybeLinkAddress(whole)
  if (address !== undefined) drawing.link(node.from, node.to, address)
}

/** A picture that stands in the text is shown; of any other, its words and, behind a press, its address. */
function dressPicture(drawing: Drawing, node: SyntaxNode): boolean {
  const places = placesOf(drawing, node)
  if (places?.url === undefined) return true
  const words = drawing.text.slice(places.from, places.to).replace(/\\([!-/:-@[-`{-~])/gu, '$1')
  if (isPictureData(places.url)) {
    drawing.replace(node.from, node.to, new PictureWidget(places.url.replace(/\s+/gu, ''), words))
    return false
  }
  const address = maybeLinkAddress(places.url)
  if (address === undefined) return true
  if (words.trim() === '') {
    drawing.link(node.from, node.to, address, 'st-r-picture')
    drawing.replace(node.from, node.to, new LettersWidget('Picture without words'))
    return false
  }
  drawing.link(node.from, node.to, address, 'st-r-picture')
  drawing.replace(node.from, places.from, new LettersWidget('Picture: '))
  drawing.hide(places.to, node.to)
  return false
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
