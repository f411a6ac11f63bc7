/** A link whose words were lost, set again by hand. One Change. */
import { makeChange, put, type StandingText, type Surroundings } from '../lab/acts.ts'
import type { Change } from '../lab/change.ts'
import type { Link, LinkEnd, LinkState, Range } from '../lab/model.ts'
import { fail, succeed, type Result } from '../lab/result.ts'
import { revising, type Side } from './moving.ts'
import { makeSelector } from './selectors.ts'

/** The ends whose words cannot be found. */
export function looseSides(state: Pick<LinkState, 'newer' | 'older'>): Side[] {
  return (['newer', 'older'] as const).filter((side) => state[side].loose)
}

/**
 * Has one end of a link lead to other words of its text: a new link that revises the old one, which leaves the present and
 * stays in the past.
 * @param text of the end's node as it stands
 * @param range what the person selected; blanks at its edges are not meant
 */
export function setLinkAgain(
  around: Surroundings,
  link: Link,
  side: Side,
  text: StandingText,
  range: Range,
): Result<Change> {
  const meant = withoutBlanks(text.text, range)
  if (!meant)
    return fail('nothing-selected', 'Select the words that it is to lead to first. Nothing was changed.')
  const end: LinkEnd = {
    node: link[side].node,
    revision: text.revision,
    ranges: [makeSelector(text.text, meant)],
  }
  return succeed(
    makeChange(around, 'set a link again', [
      { op: 'remove', table: 'links', before: link },
      put('links', revising(around, link, { [side]: end })),
    ]),
  )
}

function withoutBlanks(text: string, { start, end }: Range): Range | null {
  const words = text.slice(start, end)
  const trimmed = words.trim()
  if (trimmed === '') return null
  const from = start + words.indexOf(trimmed)
  return { start: from, end: from + trimmed.length }
}
