/** What is said of places in a text while it is dressed, and what comes of it. */
import type { Range, RangeSet, Text } from '@codemirror/state'
import { BlockWrapper, Decoration, type DecorationSet } from '@codemirror/view'
import type { PageStart } from '../../../../shared/lab/model.ts'
import { PageWidget, type LettersWidget, type PictureWidget, type RuleWidget } from './widgets.ts'

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

/** Collects what is said about places. */
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
