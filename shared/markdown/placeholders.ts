/** Placeholders of parameters in a rendered text, set apart so that they can be shown as what they are. */
import type { Element, ElementContent, Root, RootContent } from 'hast'
import { placeholdersIn } from '../procedure/values/placeholders.ts'
import { element, maybeRunOf, runElement } from './elements.ts'
import type { Run } from './runs.ts'

/**
 * A copy of a rendered tree in which each placeholder stands in a `<data>` (HTML §4.5.13) whose value is its name; its signs
 * and its name are runs of their own, so that every character still knows its place. A tree without any is given back.
 */
export function setPlaceholdersApart(root: Root, text: string): Root {
  if (placeholdersIn(text).length === 0) return root
  return { ...root, children: inChildren(root.children) }
}

function inChildren<T extends RootContent | ElementContent>(children: readonly T[]): T[] {
  return children.flatMap((child) => (child.type === 'element' ? (inElement(child) as T[]) : [child]))
}

function inElement(node: Element): Element[] {
  const run = maybeRunOf(node)
  if (!run) return [{ ...node, children: inChildren(node.children) }]
  // What a run that is not linear shows is not what stands in the source.
  if (run.to - run.from !== run.text.length) return [node]
  const places = placeholdersIn(run.text)
  if (places.length === 0) return [node]
  const made: Element[] = []
  let at = 0
  for (const { start, end, name } of places) {
    if (start > at) made.push(piece(run, at, start))
    const pieces = [piece(run, start, start + 1), piece(run, start + 1, end - 1), piece(run, end - 1, end)]
    made.push(element('data', { value: name }, pieces))
    at = end
  }
  if (at < run.text.length) made.push(piece(run, at, run.text.length))
  return made
}

function piece(run: Run, start: number, end: number): Element {
  return runElement({ from: run.from + start, to: run.from + end, text: run.text.slice(start, end) })
}
