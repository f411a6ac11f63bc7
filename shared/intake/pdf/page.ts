/** What is read of a PDF's pages, before anything is made of it. Lengths in points (1/72 inch), y growing downwards. */

/** Text that stands on one line in one font, without a wide gap. */
export interface Run {
  readonly text: string
  readonly left: number
  readonly right: number
  /** The baseline. */
  readonly y: number
  /** The font's height. */
  readonly size: number
  /** Names the font within the document. */
  readonly font: string
  readonly isMono: boolean
  readonly isRightToLeft: boolean
  /** Its place in the order in which the page draws its text. */
  readonly order: number
  /** White space was drawn before it, on its line. */
  readonly isSpaced: boolean
}

/** One line of text: runs that share a baseline, in reading order. */
export interface Row {
  readonly text: string
  readonly runs: readonly Run[]
  readonly left: number
  readonly right: number
  readonly y: number
  /** Of most of its characters. */
  readonly size: number
  /** All of it is set in fonts whose characters have one width. */
  readonly isMono: boolean
  /** It has a gap as wide as several words: a line of a table or of a list of contents. */
  readonly isTabular: boolean
}

/** Rows that belong together, from top to bottom: a page, or one of its columns. */
export interface Flow {
  readonly rows: readonly Row[]
  readonly left: number
  readonly right: number
}

export interface Page {
  readonly flows: readonly Flow[]
}

export interface OutlineItem {
  readonly title: string
  /** 0-based index of the page that it leads to. */
  readonly page: number
  /** 1 for the outermost. */
  readonly depth: number
}
