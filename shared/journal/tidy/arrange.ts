/** The second half of tidying: what is left once commands and answers stand in fences, by the tree of the text. */
import { maybeTree } from '../../markdown/parse.ts'
import type { Edit } from './edits.ts'
import { arrangeGaps } from './gaps.ts'
import { arrangeHeadings } from './headings.ts'
import { linesOf, type Line } from './lines.ts'
import { arrangeLists, arrangeTypedLists } from './lists.ts'
import type { Page } from './page.ts'
import { findRuns } from './runs.ts'
import { arrangeSpacing } from './spacing.ts'

/** The edits for lists, headings, spaces and empty lines. */
export function arrange(text: string): Edit[] {
  const tree = maybeTree(text)
  if (!tree) return []
  const lines = linesOf(text)
  const page: Page = { text, tree, lines, isFrozen: frozenIn(lines) }
  const typed = arrangeTypedLists(page)
  return [
    ...typed.edits,
    ...arrangeLists(page),
    ...arrangeHeadings(page),
    ...arrangeSpacing(page, typed.lines),
    ...arrangeGaps(page, typed.lines),
  ]
}

function frozenIn(lines: readonly Line[]): (n: number) => boolean {
  const { runs, doubtful } = findRuns(lines)
  const frozen = new Set(doubtful)
  for (const { first, last } of runs) for (let n = first; n <= last; n += 1) frozen.add(n)
  return (n) => frozen.has(n)
}
