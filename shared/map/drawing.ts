/** The picture of a map as drawn pieces, the same for the screen and for a file. */
import { bandWords, kindWords } from './names.ts'
import { GAP, MARGIN, SIGN_WIDTH, type PlacedMap, type PlacedNode } from './layout.ts'
import { bands, type MapBand, type MapEdge, type MapKind } from './model.ts'
import { paintOf, shapePath, type MapPaint } from './shapes.ts'

/** Attributes go by React's names; a file hyphenates them. */
export interface Piece {
  readonly tag: 'rect' | 'path' | 'text'
  readonly attributes: Readonly<Record<string, string | number>>
  readonly text?: string
}

/** What is lit up: signs and lines of a chain; null for no chain. */
export interface Lit {
  readonly nodes: ReadonlySet<string>
  readonly edges: ReadonlySet<string>
}

/** Gives a colour of the theme as CSS. */
export type Palette = (paint: MapPaint) => string

export const edgeKey = ({ older, newer }: Pick<MapEdge, 'older' | 'newer'>): string =>
  JSON.stringify([older, newer])

/** Room for a shape before the words. */
const SHAPE_ROOM = 40
const FONT = 13
/** So many characters of any sans-serif font find room beside a shape: a file is drawn with whatever font there is. */
const MOST_CHARACTERS = 32

/** The three papers with their names. */
export function drawBands(map: PlacedMap, palette: Palette): Piece[] {
  return bands.flatMap((band, at): Piece[] => {
    const x = MARGIN + at * (SIGN_WIDTH + GAP)
    return [
      rect(x - 8, 4, SIGN_WIDTH + 16, map.height - 8, { fill: palette(`paper-${band}`), rx: 4 }),
      words(bandWords[band], x + 4, 26, { fill: palette(`accent-${band}`), fontWeight: 640, fontSize: 14 }),
    ]
  })
}

/**
 * One sign: its box, its shape, its name, in this order. Hollow: nothing leads to or from it. Dashed box: a loose link.
 * @param most so many characters of the name at most
 */
export function drawNode(
  node: PlacedNode,
  palette: Palette,
  lit: Lit | null,
  most = MOST_CHARACTERS,
): Piece[] {
  const { kind, band, x, y, height, size, unused, members, loose, isWithdrawn } = node
  const isLit = lit?.nodes.has(node.key) === true
  const paint = palette(paintOf(kind, band))
  const middle = y + height / 2
  const isHollow = unused === members.length
  const outline = loose > 0 ? { strokeDasharray: '5 3' } : {}
  return [
    rect(x, y, SIGN_WIDTH, height, {
      ...outline,
      ...{ fill: palette('paper-raised'), rx: 3, strokeWidth: isLit ? 2.5 : 1 },
      stroke: isLit ? palette('ink') : palette(loose > 0 ? 'rule-strong' : 'rule'),
    }),
    {
      tag: 'path',
      attributes: {
        ...{ d: shapePath(kind, x + SHAPE_ROOM / 2, middle, size), stroke: paint, strokeWidth: 1.5 },
        ...{ fill: isHollow ? 'none' : paint, fillRule: 'evenodd', strokeLinejoin: 'round' },
      },
    },
    words(shorten(labelOf(node), most), x + SHAPE_ROOM, middle + 4.5, {
      fill: palette(lit && !isLit ? 'ink-soft' : 'ink'),
      fontWeight: isLit ? 640 : 400,
      ...(isWithdrawn ? { textDecoration: 'line-through' } : {}),
    }),
  ]
}

const labelOf = ({ kind, name, members }: PlacedNode): string =>
  kind === 'group' ? `${name} · ${members.length}` : name

function shorten(text: string, most: number): string {
  const characters = [...text]
  if (characters.length <= most) return text
  return `${characters
    .slice(0, most - 1)
    .join('')
    .trimEnd()}…`
}

/** One line: from the older sign to the newer one, the thicker the more links it holds; dashed where all are loose. */
export function drawEdge(
  edge: MapEdge,
  ends: ReadonlyMap<string, PlacedNode>,
  palette: Palette,
  lit: Lit | null,
): Piece[] {
  const [older, newer] = [ends.get(edge.older), ends.get(edge.newer)]
  if (!older || !newer) return []
  const isLit = lit?.edges.has(edgeKey(edge)) === true
  const width = Math.min(6, 1 + Math.log2(edge.links)) + (isLit ? 1.5 : 0)
  const dashes = edge.loose === edge.links ? '6 5' : edge.loose > 0 ? '14 4' : null
  return [
    {
      tag: 'path',
      attributes: {
        ...{ d: curve(older, newer), fill: 'none', strokeWidth: width },
        stroke: palette(isLit ? 'ink' : lit ? 'rule' : 'rule-strong'),
        strokeOpacity: lit && !isLit ? 0.5 : isLit ? 1 : 0.75,
        ...(dashes ? { strokeDasharray: dashes } : {}),
      },
    },
  ]
}

function curve(older: PlacedNode, newer: PlacedNode): string {
  const [a, b] = [older.y + older.height / 2, newer.y + newer.height / 2]
  const at = (value: number): number => Math.round(value * 10) / 10
  const out = older.x + SIGN_WIDTH
  // In one band, and from right to left, a line leaves and arrives on the right-hand side.
  if (newer.x <= older.x) {
    const end = newer.x + SIGN_WIDTH
    const bend = Math.max(out, end) + Math.min(GAP - 20, 24 + Math.abs(b - a) / 8)
    return `M${out} ${at(a)}C${at(bend)} ${at(a)} ${at(bend)} ${at(b)} ${end} ${at(b)}`
  }
  const half = (newer.x - out) / 2
  return `M${out} ${at(a)}C${at(out + half)} ${at(a)} ${at(newer.x - half)} ${at(b)} ${newer.x} ${at(b)}`
}

/** What the signs mean that stand on this map. */
export function legendOf(
  map: PlacedMap,
): readonly { readonly kind: MapKind; readonly band: MapBand; readonly word: string }[] {
  const seen = new Map<string, { kind: MapKind; band: MapBand; word: string }>()
  for (const { kind, band } of map.nodes)
    if (!seen.has(kind)) seen.set(kind, { kind, band, word: kindWords[kind] })
  return [...seen.values()]
}

export const legendWords =
  'The larger a shape, the more links it has. Hollow: no link at all. Dashed: a loose link. Struck through: withdrawn.'

/** The legend as it stands under the picture in a file. @returns its pieces and how much higher the picture becomes */
export function drawLegend(
  map: PlacedMap,
  palette: Palette,
): { readonly pieces: Piece[]; readonly height: number } {
  const top = map.height
  const across = 8
  const cell = (map.width - 2 * MARGIN) / across
  const entries = legendOf(map)
  const pieces = entries.flatMap(({ kind, band, word }, i): Piece[] => {
    const [x, y] = [MARGIN + (i % across) * cell, top + 18 + Math.floor(i / across) * 24]
    const paint = palette(paintOf(kind, band))
    return [
      {
        tag: 'path',
        attributes: { d: shapePath(kind, x + 8, y, 14), fill: paint, stroke: paint, fillRule: 'evenodd' },
      },
      words(word, x + 22, y + 4, { fill: palette('ink') }),
    ]
  })
  const height = 24 * Math.ceil(entries.length / across) + 40
  return {
    pieces: [...pieces, words(legendWords, MARGIN, top + height - 12, { fill: palette('ink-soft') })],
    height,
  }
}

function rect(x: number, y: number, width: number, height: number, attributes: Piece['attributes']): Piece {
  return { tag: 'rect', attributes: { x, y, width, height, ...attributes } }
}

function words(text: string, x: number, y: number, attributes: Piece['attributes']): Piece {
  return { tag: 'text', attributes: { x, y, fontSize: FONT, ...attributes }, text }
}
