/** A drawing as a file of its own: SVG 1.1 that any viewer reads, on a light ground, with its words as text. */
import type { Element, ElementContent } from 'hast'
import type { Drawn } from './drawn.ts'
import { tokens, toLight } from './palette.ts'

const FONTS = "Commissioner, 'Noto Sans', 'DejaVu Sans', sans-serif"

/**
 * The bytes of a drawing's file, as text with an XML declaration. The same drawing gives the same text. The fonts are
 * named, not held: a reader without them shows the words in one of its own, and they may be wider than their boxes.
 */
export function toSvgFile({ svg, width, height, title, kind }: Drawn): string {
  const box = String(svg.properties['viewBox'] ?? `0 0 ${width} ${height}`)
  const [x, y] = box.split(/[\s,]+/u)
  const attributes = { ...svg.properties, viewBox: box, width, height }
  const ground = `<rect x="${x}" y="${y}" width="${width}" height="${height}" fill="${tokens['--paper']}"/>`
  const inner = svg.children.map(write).join('')
  const name = `<title>${escape(title ?? kind)}</title>`
  return `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" font-family="${FONTS}"${writeAttributes(attributes)}>${name}${ground}${inner}</svg>\n`
}

function write(node: ElementContent): string {
  if (node.type === 'text') return escape(node.value)
  if (node.type !== 'element') return ''
  const inner = node.children.map(write).join('')
  const tag = `${node.tagName}${writeAttributes(node.properties)}`
  return inner === '' ? `<${tag}/>` : `<${tag}>${inner}</${node.tagName}>`
}

function writeAttributes(properties: Element['properties']): string {
  return Object.entries(properties)
    .filter(([, value]) => value !== null && value !== undefined && value !== false)
    .map(([name, value]) => {
      const text = Array.isArray(value) ? value.join(' ') : String(value)
      return ` ${attributeName(name)}="${escape(toLight(text))}"`
    })
    .join('')
}

/** These keep their capitals in SVG. */
const capital = new Set(['viewBox', 'refX', 'refY', 'markerUnits', 'markerWidth', 'markerHeight'])
const oddNames: Readonly<Record<string, string>> = {
  strokeDashArray: 'stroke-dasharray',
  strokeLineCap: 'stroke-linecap',
  strokeLineJoin: 'stroke-linejoin',
}

function attributeName(name: string): string {
  if (capital.has(name)) return name
  return oddNames[name] ?? name.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`)
}

/** Characters that XML 1.0 §2.2 has no place for are left out. */
function escape(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/gu, '')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
  )
}
