/**
 * Markdown as a hast tree that is safe to show: no element of it runs, loads or navigates.
 * Every run of text carries `data-from` and `data-to`, its place in the Markdown source (see runs.ts).
 * Nothing in the source stays hidden: raw HTML, unused link definitions and refused addresses show as text.
 */
import type { Element, ElementContent, Root } from 'hast'
import { sanitize } from 'hast-util-sanitize'
import { toHast } from 'mdast-util-to-hast'
import { element, runElement } from './elements.ts'
import { createHandlers } from './handlers.ts'
import { isDeeperThan, isQuickToParse, maxDepth, parseWithTokens } from './parse.ts'
import { renderedSchema } from './schema.ts'

/** Renders Markdown. Never fails; what is too long or nested too deeply is shown as it stands. */
export function renderMarkdown(text: string): Root {
  if (!isQuickToParse(text)) return asItStands(text)
  const parsed = parseWithTokens(text)
  if (isDeeperThan(parsed.tree, maxDepth)) return asItStands(text)
  const rendered = toHast(parsed.tree, { handlers: createHandlers(parsed) })
  const root: Root = {
    type: 'root',
    children: rendered.type === 'root' ? rendered.children : ([rendered] as ElementContent[]),
  }
  return sanitize(root, renderedSchema) as Root
}

function asItStands(text: string): Root {
  const pre: Element = element('pre', { className: ['as-it-stands'] }, [
    runElement({ from: 0, to: text.length, text }),
  ])
  return { type: 'root', children: [pre] }
}
