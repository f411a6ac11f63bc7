import type { Element, ElementContent, Properties } from 'hast'
import type { Run } from './runs.ts'

/** A hast element. */
export function element(tagName: string, properties: Properties, children: ElementContent[]): Element {
  return { type: 'element', tagName, properties, children }
}

/** The element that shows a run and says where it came from. */
export function runElement(run: Run, tagName: 'span' | 'mark' = 'span'): Element {
  return element(tagName, { dataFrom: run.from, dataTo: run.to }, [{ type: 'text', value: run.text }])
}

/** The run that an element shows, undefined where it shows none. */
export function maybeRunOf(node: Element): Run | undefined {
  const { dataFrom, dataTo } = node.properties
  const child = node.children[0]
  if (dataFrom === undefined || dataTo === undefined || child?.type !== 'text') return undefined
  return { from: Number(dataFrom), to: Number(dataTo), text: child.value }
}
