import type { PhrasingContent, Text } from 'mdast'

/** A text node. */
export function text(value: string): Text {
  return { type: 'text', value }
}

/** Neighbouring text nodes become one, so that what is special at their seam is seen when they are written. */
export function mergeText(nodes: readonly PhrasingContent[]): PhrasingContent[] {
  const merged: PhrasingContent[] = []
  for (const node of nodes) {
    const last = merged[merged.length - 1]
    if (node.type === 'text' && last?.type === 'text')
      merged[merged.length - 1] = text(last.value + node.value)
    else if (node.type !== 'text' || node.value !== '') merged.push(node)
  }
  return merged
}
