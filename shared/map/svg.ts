/** A map as an SVG file that needs nothing beside itself (SVG 2). */
import { drawBands, drawEdge, drawLegend, drawNode, type Lit, type Palette, type Piece } from './drawing.ts'
import type { PlacedMap } from './layout.ts'
import { describeNode } from './names.ts'

/** @param about the map in sentences; it becomes the picture's description */
export function toSvgFile(
  map: PlacedMap,
  title: string,
  about: string,
  palette: Palette,
  lit: Lit | null,
): string {
  const ends = new Map(map.nodes.map((node) => [node.key, node]))
  const legend = drawLegend(map, palette)
  const height = Math.ceil(map.height + legend.height)
  const inner = [
    ...drawBands(map, palette).map(toMarkup),
    ...map.edges.flatMap((edge) => drawEdge(edge, ends, palette, lit)).map(toMarkup),
    ...map.nodes.map(
      (node) =>
        `<g><title>${escape(`${node.name}: ${describeNode(node)}`)}</title>${drawNode(node, palette, lit).map(toMarkup).join('')}</g>`,
    ),
    ...legend.pieces.map(toMarkup),
  ]
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${map.width}" height="${height}" viewBox="0 0 ${map.width} ${height}" font-family="sans-serif" role="img">`,
    `<title>${escape(title)}</title><desc>${escape(about)}</desc>`,
    `<rect width="${map.width}" height="${height}" fill="${escape(palette('paper-raised'))}"/>`,
    ...inner,
    '</svg>',
    '',
  ].join('\n')
}

function toMarkup({ tag, attributes, text }: Piece): string {
  const said = Object.entries(attributes).map(
    ([name, value]) => ` ${hyphenated(name)}="${escape(String(value))}"`,
  )
  return text === undefined ? `<${tag}${said.join('')}/>` : `<${tag}${said.join('')}>${escape(text)}</${tag}>`
}

const hyphenated = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

const named: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }

/** For text and attributes. Characters that XML 1.0 (§2.2) has no way to write become U+FFFD. */
function escape(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replace(/[&<>"]/g, (character) => named[character]!)
}
