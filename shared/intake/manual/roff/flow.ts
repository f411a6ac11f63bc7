/** Builds a page's tree while its lines come in: paragraphs, items with terms, code, headings, levels of indent. */
import type { BlockContent, PhrasingContent, RootContent } from 'mdast'
import { append, item, paragraph } from '../blocks.ts'
import { Exhausted, type Budget } from './budget.ts'
import { CodeLines } from './code-lines.ts'
import { lineEnd, toPhrasing } from './phrasing.ts'
import { addText, wordsOfRuns, type Run } from './style.ts'
import { isTerm, maybeHangingMark } from './terms.ts'

interface Level {
  readonly children: RootContent[]
  /** The body of the item that is open, to which text goes. */
  item: RootContent[] | null
  /** An item that was left by the end of a deeper level: an indented paragraph without a term goes on with it. */
  left: RootContent[] | null
}

const maxLevels = 24
/** Changes of font within one paragraph. */
const maxRuns = 20_000

export class Flow {
  readonly #budget: Budget
  readonly root: RootContent[] = []
  #levels: Level[] = [{ children: this.root, item: null, left: null }]
  #tooDeep = 0
  #line: Run[] = []
  #isJoined = false
  #code: CodeLines | null = null
  #capture: { readonly runs: Run[]; done(runs: Run[]): void } | null = null

  constructor(budget: Budget) {
    this.#budget = budget
  }

  get isFilled(): boolean {
    return this.#code === null
  }

  /** Whether the words that come are at the beginning of a paragraph. */
  get isAtStart(): boolean {
    return this.#line.length === 0 && (this.#code?.isEmpty ?? true)
  }

  setFill(isFilled: boolean): void {
    if (isFilled === this.isFilled) return
    this.#endLine()
    if (!isFilled) {
      this.#endParagraph()
      this.#code = new CodeLines()
      return
    }
    this.#endCode()
    this.#code = null
  }

  /** The runs of one line. They go on with the line before without a space where that one said so. */
  text(runs: readonly Run[], isJoined = false): void {
    if (this.#capture) {
      if (this.#capture.runs.length > 0 && !this.#isJoined) addText(this.#capture.runs, ' ', 'R')
      for (const { text, font } of runs) addText(this.#capture.runs, text, font)
      this.#isJoined = isJoined
      if (!isJoined && wordsOfRuns(runs).trim() !== '') this.#endCapture()
      return
    }
    if (this.#code) {
      this.#code.add(wordsOfRuns(runs), isJoined)
      return
    }
    if (this.#line.length > 0 && !this.#isJoined) addText(this.#line, ' ', 'R')
    for (const { text, font } of runs) addText(this.#line, text, font)
    this.#isJoined = isJoined
  }

  /** The next words go without a space behind those that came. */
  join(): void {
    this.#isJoined = true
    this.#code?.join()
  }

  lineBreak(): void {
    if (this.#capture) return
    if (this.#code) this.#code.endLine()
    else if (this.#line.length > 0 && !this.#endsInBreak()) {
      addText(this.#line, lineEnd, 'R')
      this.#isJoined = true
    }
  }

  #endsInBreak(): boolean {
    return this.#line.at(-1)!.text.endsWith(lineEnd)
  }

  /** Blank space downwards. */
  space(): void {
    if (this.#capture) return
    if (this.#code) this.#code.blank()
    else this.#endParagraph()
  }

  /** Takes the next line's words for something else than text: a term, a heading. */
  capture(done: (runs: Run[]) => void): void {
    this.close()
    this.#capture = { runs: [], done }
  }

  #endCapture(): void {
    const capture = this.#capture
    this.#capture = null
    this.#isJoined = false
    capture?.done(capture.runs)
  }

  #endLine(): void {
    this.#endCapture()
  }

  /** Ends the paragraph, and the code so far; what comes is a block of its own. */
  close(): void {
    this.#endCapture()
    this.#endCode()
    this.#endParagraph()
  }

  #endParagraph(): void {
    const runs = this.#line
    this.#line = []
    this.#isJoined = false
    if (runs.length === 0) return
    if (runs.length > maxRuns) throw new Exhausted()
    this.#budget.spendNodes(runs.length)
    const mark = maybeHangingMark(runs)
    if (mark) this.#openItem([toPhrasing(mark.term)])
    const content = toPhrasing(mark ? mark.rest : runs)
    if (content.length > 0) this.block(paragraph(content))
  }

  #endCode(): void {
    const value = this.#code?.take()
    if (value !== undefined && value !== '') this.block({ type: 'code', value })
  }

  block(node: RootContent): void {
    this.#budget.spendNodes(1)
    const level = this.#levels.at(-1)!
    if (!level.item) level.left = null
    append(level.item ?? level.children, node)
  }

  heading(depth: 2 | 3, runs: readonly Run[]): void {
    this.close()
    this.#levels = [{ children: this.root, item: null, left: null }]
    this.#tooDeep = 0
    const children = toPhrasing(runs.map(({ text }) => ({ text: text.replaceAll(lineEnd, ' '), font: 'R' })))
    if (children.length > 0) this.block({ type: 'heading', depth, children })
  }

  /** A paragraph at the level's own indent: it ends the item that is open. */
  paragraph(): void {
    this.close()
    const level = this.#levels.at(-1)!
    level.item = null
    level.left = null
  }

  /** A paragraph that is indented as the item's body is. */
  indented(): void {
    this.close()
    const level = this.#levels.at(-1)!
    level.item ??= level.left
  }

  /** A new item with that term. */
  item(term: readonly Run[]): void {
    this.paragraph()
    this.#openItem([toPhrasing(term)])
  }

  /** One term more for the item that was opened last, where nothing stands in its body yet. */
  alsoTerm(term: readonly Run[]): void {
    this.close()
    const body = this.#levels.at(-1)!.item
    const first = body?.[0]
    if (body?.length !== 1 || first?.type !== 'paragraph') this.item(term)
    else first.children.push({ type: 'break' }, ...toPhrasing(term))
  }

  #openItem(terms: readonly PhrasingContent[][]): void {
    const level = this.#levels.at(-1)!
    const body: BlockContent[] = []
    this.#budget.spendNodes(2)
    item(level.children, terms, body)
    level.item = body
    level.left = null
  }

  /** One level deeper. A short paragraph right above it is the term of what stands in it. */
  indent(): void {
    const term = this.#line
    if (!this.#capture && this.#code === null && isTerm(term)) {
      this.#line = []
      this.close()
      if (this.#levels.at(-1)!.item === null) this.#openItem([toPhrasing(term)])
      else this.block(paragraph(toPhrasing(term)))
    } else this.close()
    this.#deepen()
  }

  /** A list's own level: its items stand in it, whatever stands above. */
  nest(): void {
    this.close()
    this.#deepen()
  }

  #deepen(): void {
    if (this.#levels.length >= maxLevels) {
      this.#tooDeep += 1
      return
    }
    const level = this.#levels.at(-1)!
    this.#levels.push({ children: level.item ?? level.children, item: null, left: null })
  }

  /** Goes on with the item that was left, as a list within it ends. */
  resume(): void {
    const level = this.#levels.at(-1)!
    level.item ??= level.left
  }

  /** Back by one level, or to the level of that number (1 is the section's own). */
  dedent(to?: number): void {
    this.close()
    if (this.#tooDeep > 0 && to === undefined) {
      this.#tooDeep -= 1
      return
    }
    this.#tooDeep = 0
    const depth = Math.max(1, to ?? this.#levels.length - 1)
    while (this.#levels.length > depth) this.#levels.pop()
    const level = this.#levels.at(-1)!
    level.left = level.item ?? level.left
    level.item = null
  }
}
