/** HTML as a hast tree, by an HTML standard parser, with a limit on nesting so that no later walk can run out of stack. */
import type { Root } from 'hast'
import { fromParse5 } from 'hast-util-from-parse5'
import { defaultTreeAdapter, parse, type DefaultTreeAdapterTypes as Tree } from 'parse5'
import { maxHtmlDepth } from './limits.ts'

class TooDeep extends Error {}

/**
 * Parses a page or a fragment (which then stands in the tree's body). Scripts are never run: nothing here can.
 * @returns undefined when elements nest deeper than `maxHtmlDepth`
 */
export function maybePageTree(html: string): Root | undefined {
  const document = maybeDocument(html)
  return document && (fromParse5(document) as Root)
}

/** The same as the parser's own tree. */
export function maybeDocument(html: string): Tree.Document | undefined {
  try {
    const document = parse(html, { scriptingEnabled: false, treeAdapter: depthLimited() })
    return isWithinDepth(document) ? document : undefined
  } catch (error) {
    if (error instanceof TooDeep) return undefined
    throw error
  }
}

/** Stops the parser as soon as an element is opened too deep: its own work grows with the square of the depth. */
function depthLimited(): typeof defaultTreeAdapter {
  const depths = new WeakMap<object, number>()
  return {
    ...defaultTreeAdapter,
    onItemPush(item: Tree.Element): void {
      const depth = (item.parentNode ? (depths.get(item.parentNode) ?? 0) : 0) + 1
      if (depth > maxHtmlDepth) throw new TooDeep()
      depths.set(item, depth)
    },
  }
}

/** The parser may also move elements after they were opened, so the finished tree is measured too. */
function isWithinDepth(document: Tree.Document): boolean {
  let level: Tree.Node[] = [document]
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > maxHtmlDepth + 2) return false
    level = level.flatMap((node): Tree.Node[] => ('childNodes' in node ? node.childNodes : []))
  }
  return true
}
