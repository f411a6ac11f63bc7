/** From what the library drew to a finished drawing, or to why there is none. */
import type { Element, Nodes } from 'hast'
import { fromHtml } from 'hast-util-from-html'
import { toString } from 'hast-util-to-string'
import { EXIT, SKIP, visit } from 'unist-util-visit'
import { TEXT_UNITS, type SketchResult } from './drawn.ts'
import { MAX_SKETCH_PIECES, maybeKindName } from './kinds.ts'
import { workIn } from './look.ts'
import { asValue } from './palette.ts'
import { broken, noKind, tooLarge } from './reason.ts'
import { toSafeDrawing } from './safe.ts'

/**
 * @param markup the library's SVG, as HTML writes it
 * @param type the library's name for the kind of diagram
 * @param source the text that was drawn
 */
export function toFinished(markup: string, type: string, source: string): SketchResult {
  const kind = maybeKindName(type)
  if (kind === undefined) return noKind(source)
  const svg = findSvg(fromHtml(markup, { fragment: true }))
  if (!svg) return broken
  if (countPieces(svg) > MAX_SKETCH_PIECES) return tooLarge
  const title = titleOf(svg)
  workIn(svg, source)
  const safe = toSafeDrawing(svg)
  const size = safe && maybeSize(safe)
  if (!safe || !size) return broken
  tidy(safe)
  safe.properties = { viewBox: size.box, fill: asValue('--ink'), fontSize: String(TEXT_UNITS) }
  return { ok: true, kind, title, svg: safe, width: size.width, height: size.height, labels: labelsOf(safe) }
}

function findSvg(tree: Nodes): Element | undefined {
  let found: Element | undefined
  visit(tree, 'element', (node) => {
    if (node.tagName !== 'svg') return undefined
    found = node
    return EXIT
  })
  return found
}

function countPieces(svg: Element): number {
  let count = 0
  visit(svg, () => {
    count += 1
    return count > MAX_SKETCH_PIECES ? EXIT : undefined
  })
  return count
}

function titleOf(svg: Element): string | null {
  const title = svg.children.find((child) => child.type === 'element' && child.tagName === 'title')
  const words = title ? toString(title).trim() : ''
  return words === '' ? null : words
}

function maybeSize(svg: Element): { box: string; width: number; height: number } | null {
  const numbers = String(svg.properties['viewBox'] ?? '')
    .split(/[\s,]+/u)
    .map(Number)
  const [x, y, width, height] = numbers.map((number) => Math.round(number * 100) / 100)
  if (numbers.length !== 4 || !numbers.every(Number.isFinite) || width! <= 0 || height! <= 0) return null
  return { box: `${x} ${y} ${width} ${height}`, width: width!, height: height! }
}

/** Hundredths of a unit are more than a screen shows; longer numbers only make the file large. Places in markup go too. */
function tidy(svg: Element): void {
  visit(svg, (node) => {
    delete node.position
    if (node.type !== 'element') return
    const { properties } = node
    for (const [name, value] of Object.entries(properties)) {
      if (name === 'id' || name === 'fill' || name === 'stroke' || name.startsWith('marker')) continue
      if (typeof value === 'number') properties[name] = Math.round(value * 100) / 100
      else if (typeof value === 'string') properties[name] = rounded(value)
    }
  })
}

const rounded = (text: string): string =>
  text.replace(/[-+]?\d*\.\d{3,}(?:e[-+]?\d+)?/giu, (number) =>
    String(Math.round(Number(number) * 100) / 100),
  )

function labelsOf(svg: Element): string[] {
  const labels: string[] = []
  visit(svg, 'element', (node) => {
    if (node.tagName !== 'text') return undefined
    const words = wordsOf(node)
    if (words !== '') labels.push(words)
    return SKIP
  })
  return labels
}

/** Lines of a text stand in spans with a place of their own; between these belongs a space. */
function wordsOf(text: Element): string {
  return text.children
    .map((child) =>
      child.type === 'text' ? child.value : child.type === 'element' ? `${toString(child)} ` : '',
    )
    .join('')
    .replace(/\s+/gu, ' ')
    .trim()
}
