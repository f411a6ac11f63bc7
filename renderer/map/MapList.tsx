/** The map in words: every sign with what it came from and what came of it. */
import { bands } from '../../shared/map/model.ts'
import type { PlacedMap, PlacedNode } from '../../shared/map/layout.ts'
import { bandWords, describeNode } from '../../shared/map/names.ts'
import { linkedTo } from './walking.ts'

export interface MapListProps {
  readonly map: PlacedMap
  readonly onEnter: (node: PlacedNode) => void
}

export function MapList({ map, onEnter }: MapListProps) {
  return (
    <div className="st-map-list">
      {bands.map((band) => (
        <section key={band} aria-label={bandWords[band]}>
          <h3>{bandWords[band]}</h3>
          <ul>
            {map.nodes
              .filter((node) => node.band === band)
              .map((node) => (
                <li key={node.key}>
                  <button type="button" className="st-map-name" onClick={() => onEnter(node)}>
                    {node.name}
                  </button>
                  <span className="st-map-detail"> {describeNode(node)}</span>
                  <Ends word="Came from" nodes={linkedTo(map, node.key, 'older')} />
                  <Ends word="Became" nodes={linkedTo(map, node.key, 'newer')} />
                </li>
              ))}
          </ul>
        </section>
      ))}
    </div>
  )
}

function Ends({ word, nodes }: { readonly word: string; readonly nodes: readonly PlacedNode[] }) {
  if (nodes.length === 0) return null
  return (
    <p className="st-map-detail">
      {word}: {nodes.map(({ name }) => name).join('; ')}
    </p>
  )
}
