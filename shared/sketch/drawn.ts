/** What came of drawing a text. */
import type { Element } from 'hast'

/** A finished drawing: safe to show as it is, in the colours of whatever face it is shown in. */
export interface Drawn {
  readonly ok: true
  /** What kind of diagram it is, in words. */
  readonly kind: string
  /** The title that its text gives it. */
  readonly title: string | null
  /** An `svg` element of presentation attributes alone, without ids but those that are referred to. */
  readonly svg: Element
  /** Its natural size, in units of which `TEXT_UNITS` are the height of its letters. */
  readonly width: number
  readonly height: number
  /** The words in it, in the order of the drawing. */
  readonly labels: readonly string[]
}

/** It could not be drawn. */
export interface NotDrawn {
  readonly ok: false
  readonly code: 'text' | 'kind' | 'too large' | 'too slow' | 'broken'
  /** One sentence for the person, which names the line where there is one. */
  readonly reason: string
  /** The line of the text, counted from 1; null where it is about no line. */
  readonly line: number | null
}

export type SketchResult = Drawn | NotDrawn

/** The size of a diagram's letters in its own units. */
export const TEXT_UNITS = 15
