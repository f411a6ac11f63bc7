/** A text with some of its words marked. */
import type { ReactNode } from 'react'
import type { Range } from '../../shared/lab/model.ts'

interface MarkedProps {
  readonly text: string
  /** UTF-16 code units of the text, in order, apart from each other. */
  readonly marks: readonly Range[]
}

/** The text as it is written. */
export function Marked({ text, marks }: MarkedProps): ReactNode {
  const pieces: ReactNode[] = []
  let at = 0
  for (const { start, end } of marks) {
    pieces.push(text.slice(at, start))
    pieces.push(
      <mark key={start} className="st-mark st-mark--found">
        {text.slice(start, end)}
      </mark>,
    )
    at = end
  }
  return [...pieces, text.slice(at)]
}

/** Every place where one of some words stands in a text, the longest one where several do. In order, apart from each other. */
export function placesOf(words: readonly string[], text: string): Range[] {
  const wanted = [...words].filter((word) => word !== '').sort((one, other) => other.length - one.length)
  if (wanted.length === 0) return []
  const any = wanted.map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')
  return [...text.matchAll(new RegExp(any, 'gu'))].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
  }))
}
