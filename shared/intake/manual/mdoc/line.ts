/** One line of a page while its macros are carried out: words, and the spaces between them as mdoc(7) sets them. */
import { addText, type Font, type Run } from '../roff/style.ts'

const closing = new Set(['.', ',', ':', ';', ')', ']', '?', '!'])
const opening = new Set(['(', '['])

export const isClosing = (word: string): boolean => closing.has(word)
export const isOpening = (word: string): boolean => opening.has(word)

export class Line {
  readonly runs: Run[] = []
  /** The line goes on from the one before without a space. */
  joinsBefore = false
  #isTight: boolean
  readonly #isSpaced: boolean

  /** @param isSpaced false between `.Sm off` and `.Sm on` */
  constructor(isSpaced: boolean, isTight: boolean) {
    this.#isSpaced = isSpaced
    this.#isTight = isTight
  }

  /** The next line goes on without a space. */
  get joinsNext(): boolean {
    return this.#isTight || !this.#isSpaced
  }

  /** No space before what comes next. */
  tighten(): void {
    this.#isTight = true
  }

  put(runs: readonly Run[]): void {
    if (runs.length === 0) return
    if (this.runs.length === 0) this.joinsBefore ||= this.#isTight
    else if (!this.#isTight && this.#isSpaced) addText(this.runs, ' ', 'R')
    for (const { text, font } of runs) addText(this.runs, text, font)
    this.#isTight = false
  }

  word(text: string, font: Font = 'R'): void {
    this.put([{ text, font }])
  }

  /** A sign that stands right behind what came. */
  close(text: string): void {
    this.tighten()
    this.word(text)
  }

  /** A sign that stands right before what comes. */
  open(text: string): void {
    this.word(text)
    this.tighten()
  }
}
