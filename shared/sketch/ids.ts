/** Several drawings in one page: each with ids of its own. */
import type { Element, ElementContent } from 'hast'

/** A copy of a drawing whose ids, and what refers to them, begin with a prefix. @param prefix letters, digits and `-` */
export function withIds(svg: Element, prefix: string): Element {
  return {
    ...svg,
    properties: Object.fromEntries(
      Object.entries(svg.properties).map(([name, value]) => [
        name,
        typeof value === 'string' ? renamed(name, value, prefix) : value,
      ]),
    ),
    children: svg.children.map((child): ElementContent =>
      child.type === 'element' ? withIds(child, prefix) : child,
    ),
  }
}

function renamed(name: string, value: string, prefix: string): string {
  if (name === 'id') return `${prefix}${value}`
  return value.startsWith('url(#') ? `url(#${prefix}${value.slice('url(#'.length)}` : value
}
