/**
 * Words of a dictionary that differ from a given one by a few letters: missing, added, wrong, or two swapped (optimal string
 * alignment; Damerau 1964, with the rows of Wagner, Fischer 1974). The dictionary is gone through once. A word's rows go on
 * from those of the beginning that it shares with the word before, and what begins like a word that went too far astray is
 * passed over unread.
 */
import type { Dictionary } from './dictionary.ts'

export interface NearWord {
  readonly at: number
  /** 1 or 2. */
  readonly distance: number
}

/** Longer words of the dictionary are passed over. UTF-16 code units. */
const LONGEST = 48
const FAR = 100

/**
 * @param word folded, of letters only
 * @param most letters that may be wrong, 1 or 2
 * @param isBeginning take words that go on behind the given one, too
 * @returns words other than the word itself, nor such that begin with it where longer ones are taken
 */
export function findNearWords(
  dictionary: Dictionary,
  word: string,
  most: number,
  isBeginning: boolean,
): NearWord[] {
  const rows = new Rows(word, most, isBeginning)
  const found: NearWord[] = []
  let reader = dictionary.reader()
  /** All words that share so many code units with the one before are as far away as it is. */
  let settledFrom = Infinity
  for (let at = 0; at < dictionary.length; at++) {
    let depth = reader.number()
    const length = reader.number()
    const end = reader.at + length
    // Every so many words one is written whole: what it shares is told from what was read.
    if (depth === 0)
      for (; reader.at < end && depth < rows.depth && depth < settledFrom; depth++)
        if (!reader.has(rows.codeAt(depth))) break
    if (depth < settledFrom) {
      settledFrom = Infinity
      rows.depth = depth
      while (reader.at < end && settledFrom === Infinity)
        if (rows.push(reader.number())) settledFrom = rows.depth
    } else if (rows.distance > most && dictionary.isHead(at)) {
      const block = dictionary.lastBlockFrom(rows.beginning, at)
      if (block.first > at) {
        reader = block.reader
        at = block.first - 1
        continue
      }
    }
    if (rows.distance > 0 && rows.distance <= most) found.push({ at, distance: rows.distance })
    reader.at = end
  }
  return found
}

/** One row of distances for each code unit of the dictionary's word: how far its beginning is from each of the given one's. */
class Rows {
  /** How many code units were read. */
  depth = 0
  private readonly codes: Uint16Array
  private readonly read = new Uint16Array(LONGEST + 1)
  private readonly width: number
  private readonly cells: Uint8Array
  /** How far the nearest beginning of what was read is that is as long as the given word or longer. */
  private readonly nearest: Uint8Array

  constructor(
    word: string,
    private readonly most: number,
    private readonly isBeginning: boolean,
  ) {
    this.codes = Uint16Array.from({ length: word.length }, (_, at) => word.charCodeAt(at))
    this.width = word.length + 1
    this.cells = new Uint8Array(this.width * (LONGEST + 2))
    for (let at = 0; at < this.width; at++) this.cells[at] = at
    this.nearest = new Uint8Array(LONGEST + 2).fill(FAR)
  }

  codeAt(depth: number): number {
    return this.read[depth]!
  }

  /** What was read. */
  get beginning(): string {
    return String.fromCharCode(...this.read.subarray(0, this.depth))
  }

  /** How far what was read is from the given word. */
  get distance(): number {
    return this.isBeginning ? Math.min(this.nearest[this.depth]!, this.last) : this.last
  }

  /** Reads on. @returns whether nothing that goes on so can change the distance, or come near any more */
  push(code: number): boolean {
    const isLetter = (code >= 97 && code <= 122) || code >= 0x80
    const least = isLetter && this.depth < LONGEST ? this.addRow(code) : this.addFarRow(code)
    const { depth, nearest, codes } = this
    nearest[depth] = depth < codes.length ? FAR : Math.min(nearest[depth - 1]!, this.last)
    return least > this.most || (this.isBeginning && depth >= codes.length + this.most)
  }

  private get last(): number {
    return this.cells[this.depth * this.width + this.width - 1]!
  }

  private addRow(code: number): number {
    const { codes, cells, width } = this
    const before = this.depth * width
    const row = before + width
    const previous = this.depth > 0 ? this.read[this.depth - 1]! : -1
    this.read[this.depth++] = code
    let least = (cells[row] = this.depth)
    for (let at = 1; at < width; at++) {
      const wanted = codes[at - 1]!
      let distance = cells[before + at - 1]! + (wanted === code ? 0 : 1)
      distance = Math.min(distance, cells[before + at]! + 1, cells[row + at - 1]! + 1)
      if (at > 1 && wanted === previous && codes[at - 2] === code)
        distance = Math.min(distance, cells[before - width + at - 2]! + 1)
      cells[row + at] = distance
      if (distance < least) least = distance
    }
    return least
  }

  private addFarRow(code: number): number {
    this.read[this.depth++] = code
    this.cells.fill(FAR, this.depth * this.width, (this.depth + 1) * this.width)
    return FAR
  }
}
