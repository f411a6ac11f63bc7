import type { ReactNode } from 'react'
import type { Range } from '../../shared/lab/model.ts'

/** A text with the words that were looked for marked. @param marks UTF-16 code units of the text, in order, apart */
export function Marked({
  text,
  marks,
}: {
  readonly text: string
  readonly marks: readonly Range[]
}): ReactNode {
  const pieces: ReactNode[] = []
  let at = 0
  for (const { start, end } of marks) {
    pieces.push(withoutSigns(text.slice(at, start)))
    pieces.push(
      <mark key={start} className="st-mark st-mark--found">
        {text.slice(start, end)}
      </mark>,
    )
    at = end
  }
  return [...pieces, withoutSigns(text.slice(at))]
}

/** Fences, heading signs and marks of emphasis say nothing in a line or two. What is marked is shown as it stands. */
function withoutSigns(text: string): string {
  return text
    .replace(/(^|\n)[ \t]*(?:`{3,}|~{3,})[^\s`]*/gu, '$1')
    .replace(/(^|\n)#{1,6}[ \t]+/gu, '$1')
    .replace(/`|\*\*/gu, '')
    .replace(/\n\s*\n/gu, '\n')
}
