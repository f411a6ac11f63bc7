/** Empty lines between blocks: one where blocks need one, never more than one. */
import type { Nodes, Parents } from 'mdast'
import { spanOf, visitOwn, type Page } from './page.ts'
import { isJoinedHeading } from './headings.ts'
import { toEdit, type Edit, type Replacement } from './edits.ts'

/** @param typed lines that become items of a list, which need no empty line before the list that goes on with them */
export function arrangeGaps(page: Page, typed: ReadonlySet<number>): Edit[] {
  const replacements = [...atStart(page), ...between(page, page.tree, typed)]
  visitOwn(page.tree, (node) => {
    if (node.type === 'list' || node.type === 'listItem') replacements.push(...between(page, node, typed))
  })
  const all = [...replacements, ...atEnd(page)].filter(({ from, to, insert }) => from < to || insert !== '')
  return all.map((replacement) => toEdit('blank lines', [replacement]))
}

function between(page: Page, parent: Parents, typed: ReadonlySet<number>): Replacement[] {
  return parent.children.slice(1).flatMap((node, at) => {
    const before = parent.children[at]!
    const [above, below] = [spanOf(before).last, spanOf(node).first]
    if (isKept(page, before, above) || isKept(page, node, below)) return []
    const count = below - above - 1
    if (count > 0) return narrow(page, above, below)
    if (
      parent.type !== 'root' ||
      count < 0 ||
      !needApart(page, before, node) ||
      (typed.has(above) && node.type === 'list')
    )
      return []
    if (isOpen(page, before)) return []
    const { end } = page.lines[above]!
    return [{ from: end, to: end, insert: '\n' }]
  })
}

/** Nothing changes beside a line that may be a machine's. Beside a fence it may: its content ends with it. */
function isKept(page: Page, node: Nodes, n: number): boolean {
  return node.type !== 'code' && page.isFrozen(n)
}

function needApart(page: Page, before: Nodes, node: Nodes): boolean {
  const becomesHeading = (one: Nodes, n: number): boolean =>
    one.type === 'paragraph' && isJoinedHeading(page, n)
  if (becomesHeading(before, spanOf(before).last) || becomesHeading(node, spanOf(node).first)) return true
  const types = [before.type, node.type]
  if (types.includes('heading')) return true
  if (types.includes('code'))
    return types.some((type) => type === 'paragraph' || type === 'list' || type === 'code')
  return before.type === 'paragraph' && node.type === 'list'
}

/** Leaves one empty line, with nothing in it. */
function narrow(page: Page, above: number, below: number): Replacement[] {
  const [first, last] = [page.lines[above + 1]!, page.lines[below - 1]!]
  return [{ from: first.from, to: last.end, insert: '' }]
}

function atStart({ tree, lines, isFrozen }: Page): Replacement[] {
  const [node] = tree.children
  if (!node || isFrozen(spanOf(node).first)) return []
  return [{ from: 0, to: lines[spanOf(node).first]!.from, insert: '' }]
}

function atEnd(page: Page): Replacement[] {
  const { text, tree, lines, isFrozen } = page
  const node = tree.children.at(-1)
  if (!node || isFrozen(spanOf(node).last)) return []
  const last = lines[spanOf(node).last]!
  if (isOpen(page, node)) return []
  return [{ from: last.end, to: text.length, insert: '' }]
}

/** Whether a block ends in raw HTML or a fence that was never closed: an empty line behind it could be its own. */
export function isOpen({ lines }: Page, node: Nodes): boolean {
  let last = node
  while ('children' in last && last.children.length > 0) last = last.children.at(-1)!
  if (last.type !== 'code') return last.type === 'html'
  const { first, last: end } = spanOf(last)
  const isFenced = /^[ \t]*(?:(?:>|[-+*]|\d{1,9}[.)])[ \t]+)*(?:`{3,}|~{3,})/u.test(lines[first]!.text)
  return isFenced && (end === first || !/^[ \t>]*(?:`{3,}|~{3,})[ \t]*$/u.test(lines[end]!.text))
}
