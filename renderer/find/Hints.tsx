import type { ReactNode } from 'react'

/** What can be typed, while nothing is. */
export function Hints(): ReactNode {
  return (
    <dl className="st-finder-hints">
      <dt>half a word</dt>
      <dd>Words are found by their beginning, commands and paths by any of their parts.</dd>
      <dt className="st-mono">"no space left" -swap</dt>
      <dd>Words in their order; with a minus, what must not be there.</dd>
      <dt className="st-mono">kind:fix in:rack tag:power place:gate</dt>
      <dd>Only what is of a kind, in a project, with a tag, at a place.</dd>
      <dt>disk last March</dt>
      <dd>Only what happened then. “As words” looks for the words instead.</dd>
    </dl>
  )
}
