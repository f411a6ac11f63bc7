/**
 * Lays a wording beside a text, token by token: what is the same, what was put in a token's place, what fell out.
 * The best local alignment with affine gaps (O. Gotoh, "An improved algorithm for matching biological sequences", 1982):
 * opening a gap costs much and widening it little, so that words stay together rather than being scattered wherever the
 * like of them stands.
 */
import type { Token } from './tokens.ts'

/** For each token of the wording its partner in the text; `none` where it has none. */
export interface Alignment {
  /** Index of the equal token. */
  readonly same: Int32Array
  /** Index of the token that stands in its place, equal or not. */
  readonly place: Int32Array
}
export const none = -1

const OPEN = 4
/** For each code unit put in between, and for each unit of weight that fell out. */
const WIDEN = 0.02
const DROP = 0.05
const REPLACE = 1
const IMPOSSIBLE = -1e9

/** How a cell was reached: its best way in the lowest two bits, then whether a gap was widened. */
const way = { start: 0, beside: 1, dropped: 2, inserted: 3, mask: 3, widenDrop: 4, widenInsert: 8 } as const

interface Trace {
  readonly cells: Uint8Array
  readonly width: number
  readonly best: { readonly row: number; readonly column: number }
}

/** The best local alignment of a wording with a text. Costs the product of both lengths in time, and in bytes. */
export function align(wording: readonly Token[], text: readonly Token[]): Alignment {
  return follow(fill(wording, text), wording, text)
}

function fill(wording: readonly Token[], text: readonly Token[]): Trace {
  const width = text.length + 1
  const cells = new Uint8Array((wording.length + 1) * width)
  const widening = Float64Array.from(text, ({ start, end }) => WIDEN * (end - start))
  const [wordingKeys, textKeys] = keysOf(wording, text) as [Int32Array, Int32Array]
  const isBlank = Uint8Array.from(text, (token) => (token.isBlank ? 1 : 0))
  const dropped = new Float64Array(width).fill(IMPOSSIBLE)
  let above = new Float64Array(width)
  let scores = new Float64Array(width)
  let best = { row: 0, column: 0, score: 0 }
  for (let row = 1; row <= wording.length; row++) {
    const { weight, isBlank: isBlankHere } = wording[row - 1]!
    const key = wordingKeys[row - 1]!
    const drop = DROP * weight
    const unlike = [isBlankHere ? IMPOSSIBLE : -REPLACE, isBlankHere ? weight / 2 : IMPOSSIBLE] as const
    let inserted = IMPOSSIBLE
    for (let column = 1; column < width; column++) {
      let cell = 0
      if (dropped[column]! > above[column]! - OPEN) cell |= way.widenDrop
      dropped[column] = Math.max(dropped[column]!, above[column]! - OPEN) - drop
      if (inserted > scores[column - 1]! - OPEN) cell |= way.widenInsert
      inserted = Math.max(inserted, scores[column - 1]! - OPEN) - widening[column - 1]!
      const worth = key === textKeys[column - 1] ? weight : unlike[isBlank[column - 1]! as 0 | 1]
      const beside = above[column - 1]! + worth
      const score = Math.max(0, beside, dropped[column]!, inserted)
      if (score > 0)
        cell |= score === beside ? way.beside : score === dropped[column] ? way.dropped : way.inserted
      scores[column] = score
      cells[row * width + column] = cell
      if (score > best.score) best = { row, column, score }
    }
    ;[above, scores] = [scores, above]
  }
  return { cells, width, best }
}

/** The same number for the same key. */
function keysOf(...sides: readonly (readonly Token[])[]): Int32Array[] {
  const numbers = new Map<string, number>()
  return sides.map((tokens) =>
    Int32Array.from(tokens, ({ key }) => {
      const number = numbers.get(key) ?? numbers.size
      numbers.set(key, number)
      return number
    }),
  )
}

function follow({ cells, width, best }: Trace, wording: readonly Token[], text: readonly Token[]): Alignment {
  const same = new Int32Array(wording.length).fill(none)
  const place = new Int32Array(wording.length).fill(none)
  let { row, column } = best
  let state: number = way.beside
  while (row > 0 && column > 0) {
    const cell = cells[row * width + column]!
    if (state === way.beside) state = cell & way.mask
    if (state === way.start) break
    if (state === way.beside) {
      row--
      column--
      place[row] = column
      if (wording[row]!.key === text[column]!.key) same[row] = column
    } else if (state === way.dropped) {
      if (!(cell & way.widenDrop)) state = way.beside
      row--
    } else {
      if (!(cell & way.widenInsert)) state = way.beside
      column--
    }
  }
  return { same, place }
}
