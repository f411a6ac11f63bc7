/** A text as it stood when words were carried from it or to it, laid beside what it became; each pair of texts once. */
import { alignTexts } from './alignTexts.ts'
import type { TextAlignment } from './partners.ts'

export interface OlderText {
  readonly text: string
  /** The alignment with a newer text; null where both are too long. */
  readonly alignTo: (newer: string) => TextAlignment | null
}

/** The older text; what it was laid beside is remembered for as long as this is. */
export function olderText(text: string): OlderText {
  const known = new Map<string, TextAlignment | null>()
  return {
    text,
    alignTo: (newer) => {
      const alignment = known.get(newer)
      if (alignment !== undefined) return alignment
      const fresh = alignTexts(text, newer)
      known.set(newer, fresh)
      return fresh
    },
  }
}
