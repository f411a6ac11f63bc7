/** Spaces within the lines of a person's own text, and at their ends. */
import type { Heading, Nodes, Paragraph } from 'mdast'
import { visit } from 'unist-util-visit'
import { spanOf, visitOwn, type Page } from './page.ts'
import { toEdit, type Edit, type Replacement } from './edits.ts'
import { isJoinedHeading } from './headings.ts'
import { isPlainProse } from './likeness.ts'
import type { Line } from './lines.ts'

/** @param typed lines that become items of a list, so that the line above each ends there */
export function arrangeSpacing(page: Page, typed: ReadonlySet<number>): Edit[] {
  const edits: Edit[] = []
  const add = (kind: Edit['kind'], replacements: Replacement[]): void => {
    if (replacements.length > 0) edits.push(toEdit(kind, replacements))
  }
  visitOwn(page.tree, (node, parent) => {
    if (node.type !== 'paragraph' && node.type !== 'heading') return
    const own = linesOfNode(page, node)
    const fixed = fixedRangesIn(node)
    add(
      'spacing',
      own.flatMap((line) => gapsIn(line, node, fixed)),
    )
    add(
      'trailing blanks',
      own.flatMap((line) => {
        const isByHeading = [0, 1].some((n) => isJoinedHeading(page, line.n + n))
        const isParted = typed.has(line.n + 1) || (parent.type === 'root' && isByHeading)
        return trailingIn(line, node, isParted)
      }),
    )
  })
  return edits
}

/** The lines of a block that may change. What is underlined is another rule's. */
function linesOfNode(page: Page, node: Paragraph | Heading): Line[] {
  const { first, last } = spanOf(node)
  if (node.type === 'heading' && last > first) return []
  return page.lines.slice(first, last + 1).filter(({ n }) => !page.isFrozen(n))
}

interface Fixed {
  readonly from: number
  readonly to: number
}
const fixedTypes = new Set([
  'inlineCode',
  'link',
  'linkReference',
  'image',
  'imageReference',
  'html',
  'footnoteReference',
])

/** What stays as it is within a paragraph: code, links, pictures. */
function fixedRangesIn(block: Nodes): Fixed[] {
  const fixed: Fixed[] = []
  visit(block, (node) => {
    const { position } = node
    if (fixedTypes.has(node.type) && position)
      fixed.push({ from: position.start.offset ?? 0, to: position.end.offset ?? 0 })
  })
  return fixed
}

/** Two blanks and more, a tab, a blank that does not break. */
const wide = /(?<=\S)(?:[ \t\u00a0\u202f]{2,}|[\t\u00a0\u202f])(?=\S)/gu
/** Behind a sign at the head of a line, a blank more or less would change what the line is. */
const headSign =
  /^\s*(?:[-+*•◦‣▪–—☐☑☒#>=~`|]+|\d{1,9}[.)]|[a-z][.)]|\[[ xX]?\]|[-+*•]\s+\[[ xX]?\]|\d{1,9}[.)]\s+\[[ xX]?\])$/u

function gapsIn(line: Line, node: Nodes, fixed: readonly Fixed[]): Replacement[] {
  if (!isPlainProse(line.text)) return []
  const start = node.position!.start.offset!
  return Array.from(line.text.matchAll(wide)).flatMap((match): Replacement[] => {
    const [from, to] = [line.from + match.index, line.from + match.index + match[0].length]
    const isFixed = fixed.some((one) => from < one.to && to > one.from)
    if (isFixed || from < start || headSign.test(line.text.slice(0, match.index))) return []
    return [{ from, to, insert: ' ' }]
  })
}

/** Blanks at the end of a line, unless two of them break the line there (CommonMark 0.31.2 §6.7). */
function trailingIn(line: Line, node: Nodes, isParted: boolean): Replacement[] {
  const blanks = /[ \t]+$/u.exec(line.text)?.[0] ?? ''
  const isLast = isParted || spanOf(node).last === line.n
  if (blanks === '' || line.text.trim() === '' || (!isLast && /^ {2,}$/u.test(blanks))) return []
  return [{ from: line.end - blanks.length, to: line.end, insert: '' }]
}
