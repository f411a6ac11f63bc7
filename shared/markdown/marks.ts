/** Marking ranges of the Markdown source in its rendered form. */
import type { Element, ElementContent, Root, RootContent } from 'hast'
import type { Range } from '../lab/model.ts'
import { maybeRunOf, runElement } from './elements.ts'
import type { Run } from './runs.ts'

/**
 * A copy of a rendered tree in which the words of the given source ranges stand in `<mark>`.
 * Linear runs are split exactly; any other run is marked whole when a range touches it.
 */
export function markRanges(root: Root, ranges: readonly Range[]): Root {
  const wanted = ranges.filter((range) => range.start < range.end)
  if (wanted.length === 0) return root
  return { ...root, children: markChildren(root.children, wanted) }
}

function markChildren<T extends RootContent | ElementContent>(
  children: readonly T[],
  ranges: readonly Range[],
): T[] {
  return children.flatMap((child) =>
    child.type === 'element' ? (markElement(child, ranges) as T[]) : [child],
  )
}

function markElement(node: Element, ranges: readonly Range[]): Element[] {
  const run = maybeRunOf(node)
  if (!run && isMarkedPicture(node, ranges))
    return [{ ...node, properties: { ...node.properties, dataMarked: true } }]
  if (!run) return [{ ...node, children: markChildren(node.children, ranges) }]
  return splitRun(run, ranges).map((piece) => runElement(piece, isTouched(piece, ranges) ? 'mark' : 'span'))
}

/** Says whether a range touches a kept picture, which is no run of text. */
function isMarkedPicture({ properties }: Element, ranges: readonly Range[]): boolean {
  const { dataPictureFrom, dataPictureTo } = properties
  if (dataPictureFrom === undefined || dataPictureTo === undefined) return false
  return ranges.some(({ start, end }) => start < Number(dataPictureTo) && end > Number(dataPictureFrom))
}

function isTouched(run: Run, ranges: readonly Range[]): boolean {
  return ranges.some((range) => range.start < run.to && range.end > run.from)
}

function splitRun(run: Run, ranges: readonly Range[]): readonly Run[] {
  if (run.to - run.from !== run.text.length) return [run]
  const inside = ranges
    .flatMap((range) => [range.start, range.end])
    .filter((at) => at > run.from && at < run.to)
  const cuts = [...new Set([run.from, ...inside, run.to])].sort((a, b) => a - b)
  return cuts.slice(1).map((to, i) => {
    const from = cuts[i]!
    return { from, to, text: run.text.slice(from - run.from, to - run.from) }
  })
}
