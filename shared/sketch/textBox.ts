/** Where the lines of an SVG text stand and how wide they are (SVG 1.1 §10). */
import { boxAround, unite, type Box } from './matrix.ts'
import type { Measuring } from './measure.ts'
import { isElement, isText, type Piece } from './piece.ts'

export interface Font {
  readonly family: string
  /** In user units. */
  readonly size: number
  readonly weight: string
  readonly style: string
}

export interface TextSize {
  readonly width: number
  /** Above and below the alphabetic baseline, of the font and not of the letters. */
  readonly ascent: number
  readonly descent: number
}

/** Measures a text of one line in a font; given from outside, where fonts are. */
export type TextMeasure = (text: string, font: Font) => TextSize

/** The size of text where nothing says another. */
const USUAL_SIZE = 16

/** A length of SVG in user units; undefined for what is none, and for shares of something else. */
export function lengthInUnits(text: string, size: number): number | undefined {
  const [, amount, unit] = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)([a-z%]*)/iu.exec(text) ?? []
  if (amount === undefined) return undefined
  switch (unit!.toLowerCase()) {
    case '':
    case 'px':
      return Number(amount)
    case 'em':
      return Number(amount) * size
    case 'ex':
      return (Number(amount) * size) / 2
    case 'rem':
      return Number(amount) * USUAL_SIZE
    case 'pt':
      return (Number(amount) * 4) / 3
    default:
      return undefined
  }
}

function fontOf(piece: Piece, { style }: Measuring): Font {
  return {
    family: style(piece, 'font-family') || 'sans-serif',
    size: sizeOf(piece, style),
    weight: style(piece, 'font-weight') || '400',
    style: style(piece, 'font-style') || 'normal',
  }
}

function sizeOf(piece: Piece, style: Measuring['style']): number {
  const text = style(piece, 'font-size')
  const share = /^([\d.]+)(em|%)$/u.exec(text)
  if (!share) return lengthInUnits(text, USUAL_SIZE) ?? USUAL_SIZE
  // A share is of the size around; one step outward is what these drawings have.
  const around = piece.parentNode && isElement(piece.parentNode) ? style(piece.parentNode, 'font-size') : ''
  const base = around === text ? USUAL_SIZE : (lengthInUnits(around, USUAL_SIZE) ?? USUAL_SIZE)
  return (Number(share[1]) / (share[2] === '%' ? 100 : 1)) * base
}

interface Run {
  x: number
  readonly y: number
  width: number
  readonly above: number
  readonly below: number
  readonly text: string
  readonly font: Font
}

interface Writing {
  x: number
  y: number
  /** Runs since the last given x, to be moved by how the text is anchored. */
  chunk: Run[]
  anchor: string
  /** White space at the end of what was written: further white space collapses into it, as at the beginning. */
  endsInSpace: boolean
}

/** The box around the lines of a text, or of one of its spans as it stands in its text. */
export function textBox(piece: Piece, measuring: Measuring): Box | undefined {
  const text = textAround(piece)
  const runs = new Map<Piece, Run[]>()
  write(text, measuring, runs)
  return (runs.get(piece) ?? []).reduce<Box | undefined>(
    (box, { x, y, width, above, below }) =>
      unite(
        box,
        boxAround([
          { x, y: y - above },
          { x: x + width, y: y + below },
        ]),
      ),
    undefined,
  )
}

/** The advance of all of a text's characters, wherever they stand. */
export function textLength(piece: Piece, measuring: Measuring): number {
  const runs = new Map<Piece, Run[]>()
  write(textAround(piece), measuring, runs)
  return (runs.get(piece) ?? []).reduce((sum, { width }) => sum + width, 0)
}

function textAround(piece: Piece): Piece {
  let at = piece
  while (at.localName === 'tspan' && at.parentNode && isElement(at.parentNode)) at = at.parentNode
  return at
}

/** Lays the text out; every element is told the runs in it. */
function write(text: Piece, measuring: Measuring, runs: Map<Piece, Run[]>): void {
  const writing: Writing = { x: 0, y: 0, chunk: [], anchor: 'start', endsInSpace: true }
  writeElement(text, measuring, writing, runs, [])
  if (writing.endsInSpace) dropLastSpace(writing, measuring)
  closeChunk(writing)
}

function writeElement(
  piece: Piece,
  measuring: Measuring,
  writing: Writing,
  runs: Map<Piece, Run[]>,
  around: readonly Piece[],
): void {
  if (measuring.style(piece, 'display') === 'none') return
  const font = fontOf(piece, measuring)
  place(piece, measuring, writing, font)
  const within = [...around, piece]
  runs.set(piece, [])
  for (const part of piece.childNodes) {
    if (isText(part)) writeText(part.textContent ?? '', piece, measuring, writing, runs, within, font)
    else if (isElement(part) && part.localName !== 'title' && part.localName !== 'desc')
      writeElement(part, measuring, writing, runs, within)
  }
}

function place(piece: Piece, measuring: Measuring, writing: Writing, font: Font): void {
  const first = (name: string): number | undefined => {
    const value = piece.getAttribute(name)
    return value === null ? undefined : lengthInUnits(value.trim().split(/[\s,]+/u)[0] ?? '', font.size)
  }
  const [x, y, dx, dy] = [first('x'), first('y'), first('dx'), first('dy')]
  if (x !== undefined || y !== undefined) closeChunk(writing)
  if (writing.chunk.length === 0) writing.anchor = measuring.style(piece, 'text-anchor') || 'start'
  if (x !== undefined) writing.x = x
  if (y !== undefined) writing.y = y
  writing.x += dx ?? 0
  writing.y += dy ?? 0
}

function writeText(
  raw: string,
  owner: Piece,
  measuring: Measuring,
  writing: Writing,
  runs: Map<Piece, Run[]>,
  within: readonly Piece[],
  font: Font,
): void {
  const keepsSpace =
    /^pre|^break-spaces/u.test(measuring.style(owner, 'white-space')) ||
    owner.getAttribute('xml:space') === 'preserve'
  const text = keepsSpace ? raw.replace(/[\n\t\r]/gu, ' ') : collapse(raw, writing)
  if (text === '') return
  const { width, ascent, descent } = measuring.text(text, font)
  const down = baselineShift(measuring.style(owner, 'dominant-baseline'), ascent, descent, font.size)
  const run: Run = { x: writing.x, y: writing.y + down, width, above: ascent, below: descent, text, font }
  writing.chunk.push(run)
  writing.x += width
  for (const piece of within) runs.get(piece)!.push(run)
}

function collapse(raw: string, writing: Writing): string {
  const single = raw.replace(/[ \n\t\r]+/gu, ' ')
  const text = writing.endsInSpace ? single.replace(/^ /u, '') : single
  if (text !== '') writing.endsInSpace = text.endsWith(' ')
  return text
}

/** How far down the alphabetic baseline lies from the line that the text is placed by. */
function baselineShift(baseline: string, ascent: number, descent: number, size: number): number {
  switch (baseline) {
    case 'middle':
      return size / 4
    case 'central':
      return (ascent - descent) / 2
    case 'hanging':
      return ascent * 0.8
    case 'text-before-edge':
    case 'text-top':
      return ascent
    case 'text-after-edge':
    case 'ideographic':
    case 'text-bottom':
      return -descent
    default:
      return 0
  }
}

/** White space at the end of a text takes no room. */
function dropLastSpace({ chunk }: Writing, measuring: Measuring): void {
  const last = chunk.at(-1)
  if (last?.text.endsWith(' ')) last.width = measuring.text(last.text.trimEnd(), last.font).width
}

/** Moves the runs of a chunk to where its anchor puts them. */
function closeChunk(writing: Writing): void {
  const { chunk, anchor } = writing
  const width = chunk.reduce((sum, run) => sum + run.width, 0)
  const share = anchor === 'middle' ? 0.5 : anchor === 'end' ? 1 : 0
  for (const run of chunk) run.x -= share * width
  writing.chunk = []
}
