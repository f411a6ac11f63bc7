/** Lists: one sign for items, `-`, and `1.` for numbered ones; boxes to tick as GFM has them. */
import type { List, Nodes, Paragraph, Parents } from 'mdast'
import { visitOwn, spanOf, type Page } from './page.ts'
import { applyReplacements, toEdit, type Edit, type Replacement } from './edits.ts'
import { isJoinedHeading } from './headings.ts'
import { isOpen } from './gaps.ts'
import { indentOf, isBlank, type Line } from './lines.ts'
import { maybeNumbered, maybeTyped, type TypedItem } from './markers.ts'

/** One edit for each list that Markdown knows, with all that lie in it: signs that differ would part it. */
export function arrangeLists(page: Page): Edit[] {
  const edits: Edit[] = []
  page.tree.children.forEach((node) => {
    if (node.type !== 'list' || wouldJoin(node, page.tree)) return
    const markers = maybeMarkersIn(page, node)
    if (!markers || markers.length === 0) return
    edits.push(toEdit(markers.some(({ insert }) => insert.includes('[')) ? 'tasks' : 'list', markers))
  })
  return edits
}

/** A numbered list that stands behind another one, with nothing but lists between, could go on with its numbers. */
function wouldJoin(list: List, parent: Parents): boolean {
  const siblings: readonly Nodes[] = parent.children
  for (let at = siblings.indexOf(list) - 1; list.ordered === true && at >= 0; at -= 1) {
    const before = siblings[at]!
    if (before.type !== 'list') return false
    if (before.ordered === true) return true
  }
  return false
}

/** What changes in a list's signs; null where a line of it may not change. */
function maybeMarkersIn(page: Page, list: List): Replacement[] | null {
  const found: Replacement[] = []
  let isRefused = false
  const take = (node: Nodes, parent: Parents): void => {
    if (node.type === 'list' && wouldJoin(node, parent)) isRefused = true
    if (node.type !== 'listItem') return
    const at = node.position!.start.offset!
    const changes = markerAt(page.text, at)
    if (changes.length > 0 && page.isFrozen(spanOf(node).first)) isRefused = true
    found.push(...changes)
  }
  visitOwn(list, take)
  return isRefused || page.lines.some((line) => wouldBeRule(line, found)) ? null : found
}

function markerAt(text: string, at: number): Replacement[] {
  const [sign] = /^(?:[-+*]|\d{1,9}[.)])/u.exec(text.slice(at, at + 10)) ?? ['']
  if (sign === '') return []
  const last = at + sign.length
  const changes: Replacement[] = []
  if (sign === '*' || sign === '+') changes.push({ from: at, to: last, insert: '-' })
  if (sign.endsWith(')')) changes.push({ from: last - 1, to: last, insert: '.' })
  const box = /^([ \t]+)\[\][ \t]+(?=\S)/u.exec(text.slice(last, last + 200))
  if (box) changes.push({ from: last + box[1]!.length, to: last + box[1]!.length + 2, insert: '[ ]' })
  return changes
}

/** Whether a line would become a rule, or the line below a heading. */
function wouldBeRule({ from, end, text }: Line, replacements: readonly Replacement[]): boolean {
  const own = replacements.filter((one) => one.from >= from && one.to <= end)
  if (own.length === 0) return false
  const shifted = own.map((one) => ({ ...one, from: one.from - from, to: one.to - from }))
  return /^[-\s]*$/u.test(applyReplacements(text, shifted))
}

/** Lists that Markdown does not know: other bullets, dashes, letters, boxes without a sign before them. */
export function arrangeTypedLists(page: Page): { edits: Edit[]; lines: ReadonlySet<number> } {
  const edits: Edit[] = []
  const lines = new Set<number>()
  // A list of which one line may not change is left as a whole.
  const left = page.tree.children.filter((node) => node.type === 'list' && !maybeMarkersIn(page, node))
  const isLeft = (node: Nodes): boolean =>
    left.some(({ position }) => {
      const at = node.position!.start.offset!
      return at >= position!.start.offset! && at < position!.end.offset!
    })
  visitOwn(page.tree, (node, parent) => {
    if (node.type !== 'paragraph' || isLeft(node)) return
    const items = typedItemsOf(page, node)
    if (items.length === 0 || blocksBehind(page, node, parent).some((next) => wouldDrawIn(page, next))) return
    const isInItem = parent.type === 'listItem'
    const replacements = items.flatMap((item, at) => rewrite(page, node, item, at === 0 && !isInItem))
    edits.push(toEdit(items.some(({ kind }) => kind === 'box') ? 'tasks' : 'list', replacements))
    for (const { line } of items) lines.add(line.n)
  })
  return { edits, lines }
}

/**
 * Whether a new item would take in the block behind it, so that it is read otherwise. A closed fence that is set in as an
 * item's words are belongs there.
 */
function wouldDrawIn(page: Page, next: Nodes): boolean {
  const { first, last } = spanOf(next)
  if (indentOf(page.lines[first]!.text) < 2) return false
  const own = page.lines.slice(first, last + 1).filter((line) => !isBlank(line))
  const isFence = next.type === 'code' && /^ *(?:`{3}|~{3})/u.test(own[0]!.text)
  return !isFence || isOpen(page, next) || own.some(({ text }) => indentOf(text) < 3)
}

/** What stands behind a block, and behind the list that it is in. */
function blocksBehind({ tree }: Page, node: Nodes, parent: Parents): Nodes[] {
  const at = tree.children.findIndex(({ position }) => position!.end.offset! >= node.position!.end.offset!)
  const siblings: readonly Nodes[] = parent.children
  return [siblings[siblings.indexOf(node) + 1], tree.children[at + 1]].filter((one) => one !== undefined)
}

type Item = TypedItem & { readonly line: Line }

function typedItemsOf(page: Page, paragraph: Paragraph): Item[] {
  const { first, last } = spanOf(paragraph)
  const items: Item[] = []
  for (let n = first; n <= last; n += 1) {
    const line = page.lines[n]!
    // The first line's own text begins behind the sign of an item that it may stand in.
    const isBehindSign = n === first && paragraph.position!.start.column > 4
    const item = isBehindSign ? null : (maybeTyped(line.text) ?? maybeNumbered(line.text))
    if (item && line.from + item.from >= paragraph.position!.start.offset!) items.push({ ...item, line })
  }
  // What becomes a heading parts the lists above and below it.
  const headings = page.lines.slice(first, last + 1).filter(({ n }) => isJoinedHeading(page, n))
  const partOf = ({ line }: Item): number => headings.filter(({ n }) => n < line.n).length
  return Array.from({ length: headings.length + 1 }, (_, part) =>
    keptOf(
      page,
      items.filter((item) => partOf(item) === part),
    ),
  ).flat()
}

function keptOf(page: Page, items: readonly Item[]): Item[] {
  const signed = items.filter(({ kind }) => kind !== 'number' && isList(kind, items))
  // Below an item, a number at the head of a line is one too.
  const kept = items.filter((item) =>
    item.kind === 'number' ? signed.some(({ line }) => line.n < item.line.n) : signed.includes(item),
  )
  return kept.some(({ line }) => page.isFrozen(line.n)) ? [] : kept
}

/** A dash or a letter alone is a part of a sentence; letters must be those of the alphabet in order. */
function isList(kind: TypedItem['kind'], items: readonly Item[]): boolean {
  const same = items.filter((item) => item.kind === kind)
  if (kind === 'dash') return same.length > 1
  return kind !== 'letter' || (same.length > 1 && same.every(({ value }, at) => value === at + 1))
}

function rewrite(page: Page, paragraph: Paragraph, item: Item, needsApart: boolean): Replacement[] {
  const { line, from, to } = item
  const above = page.lines[line.n - 1]
  const isBelowText =
    needsApart && above !== undefined && line.n > spanOf(paragraph).first && !isJoinedHeading(page, above.n)
  return [
    ...(isBelowText ? [{ from: above.end, to: above.end, insert: '\n' }] : []),
    { from: line.from + from, to: line.from + to, insert: signOf(item) },
  ]
}

function signOf({ kind, value }: TypedItem): string {
  if (kind === 'box') return value === 1 ? '- [x] ' : '- [ ] '
  return kind === 'letter' || kind === 'number' ? `${value}. ` : '- '
}
