/** The map as a picture. One sign has the keyboard; arrows lead to the others. */
import { createElement, Fragment, memo, useMemo, type KeyboardEvent, type ReactNode } from 'react'
import {
  drawBands,
  drawEdge,
  drawNode,
  edgeKey,
  type Lit,
  type Palette,
  type Piece,
} from '../../shared/map/drawing.ts'
import type { PlacedMap, PlacedNode } from '../../shared/map/layout.ts'
import { describeNode } from '../../shared/map/names.ts'
import { signAfter } from './walking.ts'

export interface PictureProps {
  readonly map: PlacedMap
  readonly lit: Lit | null
  readonly chosen: string | null
  /** The sign that has the keyboard. */
  readonly at: string | null
  readonly onAt: (key: string) => void
  readonly onChoose: (key: string) => void
  readonly onEnter: (node: PlacedNode) => void
  readonly onFoldBack: (node: PlacedNode) => void
}

/** The program's own font is narrower than what a file may meet. */
const MOST_CHARACTERS = 36

const themed: Palette = (paint) => `var(--${paint})`

const drawn = (pieces: readonly Piece[]): ReactNode =>
  pieces.map(({ tag, attributes, text }, i) => createElement(tag, { key: i, ...attributes }, text))

export function MapPicture(props: PictureProps) {
  const { map, lit, chosen, at, onAt, onChoose, onEnter, onFoldBack } = props
  const byKey = useMemo(() => new Map(map.nodes.map((node) => [node.key, node])), [map])
  const onKeyDown = (event: KeyboardEvent): void => {
    const key = (event.target as Element).closest('[data-sign]')?.getAttribute('data-sign')
    const node = byKey.get(key ?? '')
    if (!node || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
    const next = signAfter(map, node.key, event.key)
    if (next !== null) goTo(next, onAt)
    else if (event.key === 'Enter') onEnter(node)
    else if (event.key === ' ') onChoose(node.key)
    else if (event.key === 'Backspace') onFoldBack(node)
    else if (!event.key.startsWith('Arrow') && !event.key.startsWith('Page')) return
    event.preventDefault()
  }
  return (
    <svg
      className="st-map-picture"
      viewBox={`0 0 ${map.width} ${map.height}`}
      role="group"
      aria-label="Map"
      onKeyDown={onKeyDown}
    >
      {drawn(drawBands(map, themed))}
      <Lines map={map} byKey={byKey} lit={lit} />
      {map.nodes.map((node) => {
        const pieces = drawNode(node, themed, lit, MOST_CHARACTERS)
        return (
          <Fragment key={node.key}>
            <g
              className="st-map-sign"
              role="button"
              data-sign={node.key}
              tabIndex={node.key === at ? 0 : -1}
              aria-label={`${node.name}: ${describeNode(node)}`}
              aria-pressed={node.key === chosen}
              onFocus={() => onAt(node.key)}
              onClick={() => onChoose(node.key)}
              onDoubleClick={() => onEnter(node)}
            >
              {drawn(pieces.slice(0, -1))}
            </g>
            {/* The name as far as there is room; the sign itself says it whole. */}
            <g className="st-map-words" aria-hidden="true">
              {drawn(pieces.slice(-1))}
            </g>
          </Fragment>
        )
      })}
    </svg>
  )
}

function goTo(key: string, onAt: (key: string) => void): void {
  onAt(key)
  const sign = document.querySelector<SVGElement>(`.st-map [data-sign="${CSS.escape(key)}"]`)
  sign?.focus()
  sign?.scrollIntoView({ block: 'nearest', inline: 'nearest' })
}

interface LinesProps {
  readonly map: PlacedMap
  readonly byKey: ReadonlyMap<string, PlacedNode>
  readonly lit: Lit | null
}

/** Those of the chain lie over the others. */
const Lines = memo(function Lines({ map, byKey, lit }: LinesProps) {
  const order = lit
    ? [...map.edges].sort((a, b) => Number(lit.edges.has(edgeKey(a))) - Number(lit.edges.has(edgeKey(b))))
    : map.edges
  return order.map((edge) => (
    <g key={edgeKey(edge)} className="st-map-line" data-lit={lit?.edges.has(edgeKey(edge)) || undefined}>
      {drawn(drawEdge(edge, byKey, themed, lit))}
    </g>
  ))
})
