/** What the signs of the map mean, and what can be done with the one that has the keyboard. */
import { legendOf, legendWords } from '../../shared/map/drawing.ts'
import type { PlacedMap, PlacedNode } from '../../shared/map/layout.ts'
import { describeNode } from '../../shared/map/names.ts'
import { paintOf, shapePath } from '../../shared/map/shapes.ts'
import { Button, Kbd } from '../ui/index.ts'

export function MapLegend({ map }: { readonly map: PlacedMap }) {
  return (
    <div className="st-map-legend">
      <ul aria-label="Shapes">
        {legendOf(map).map(({ kind, band, word }) => (
          <li key={kind}>
            <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
              <path d={shapePath(kind, 8, 8, 14)} fill={`var(--${paintOf(kind, band)})`} fillRule="evenodd" />
            </svg>
            {word}
          </li>
        ))}
      </ul>
      <p>{legendWords}</p>
      <p>
        <Kbd keys="↑" /> <Kbd keys="↓" /> in a band, <Kbd keys="←" /> <Kbd keys="→" /> along links,{' '}
        <Kbd keys="PageUp" /> <Kbd keys="PageDown" /> to another band, <Kbd keys="Space" /> lights up a chain,{' '}
        <Kbd keys="Enter" /> goes there or opens a group, <Kbd keys="Backspace" /> folds it again.
      </p>
    </div>
  )
}

export interface MapHereProps {
  readonly node: PlacedNode
  readonly onEnter: (node: PlacedNode) => void
  readonly onFoldBack: (node: PlacedNode) => void
}

/** The sign that has the keyboard, in full, with its acts as buttons. */
export function MapHere({ node, onEnter, onFoldBack }: MapHereProps) {
  return (
    <div className="st-map-here">
      <p>
        <strong>{node.name}</strong> <span className="st-map-detail">{describeNode(node)}</span>
      </p>
      {node.kind === 'group' || node.node !== null ? (
        <Button onClick={() => onEnter(node)}>{node.kind === 'group' ? 'Open the group' : 'Go there'}</Button>
      ) : null}
      {node.parent !== null ? <Button onClick={() => onFoldBack(node)}>Fold again</Button> : null}
    </div>
  )
}
