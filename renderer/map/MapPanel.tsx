/** The map of the project that is shown. */
import { useEffect, useMemo, useState, type ReactNode } from 'react'
import type { Lit } from '../../shared/map/drawing.ts'
import type { PlacedNode } from '../../shared/map/layout.ts'
import type { LitKeys, MapWish, ShownMap } from '../../shared/map/map.ts'
import { noFilter } from '../../shared/map/model.ts'
import { useProjectAnswer } from '../store/useProjectAnswer.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { MapFilters } from './MapFilters.tsx'
import { MapHere, MapLegend } from './MapLegend.tsx'
import { MapList } from './MapList.tsx'
import { MapPicture } from './MapPicture.tsx'
import { saveMap } from './save.ts'
import './map.css'

const nothingAsked: MapWish = { filter: noFilter, open: [], chosen: null }

export function MapPanel(): ReactNode {
  const workspace = useWorkspace()
  const [wish, setWish] = useState(nothingAsked)
  const { answered, hasFailed } = useProjectAnswer('map', wish)
  return (
    <Panel title="Map" band="all" className="st-map" onClose={() => workspace.set({ panel: null })}>
      {hasFailed ? (
        <ErrorSentence
          happened="The map could not be drawn."
          safe="Nothing was changed."
          next="Close it and open it again."
        />
      ) : answered ? (
        <OpenMap shown={answered.answer} wish={wish} onWish={setWish} />
      ) : (
        <ProgressLine words="Drawing the map" share={null} />
      )}
    </Panel>
  )
}

interface OpenMapProps {
  readonly shown: ShownMap
  readonly wish: MapWish
  readonly onWish: (wish: MapWish) => void
}

function OpenMap({ shown, wish, onWish }: OpenMapProps) {
  const workspace = useWorkspace()
  const [at, setAt] = useState<string | null>(null)
  const [isList, setIsList] = useState(false)
  const { map, about } = shown
  const lit = useMemo(() => toLit(shown.lit), [shown.lit])
  // Of a group that was opened, what came out of it.
  const here =
    map.nodes.find(({ key }) => key === at) ??
    map.nodes.find(({ parent }) => parent !== null && parent === at) ??
    map.nodes[0]
  useFirstFocus(here)
  const onEnter = (node: PlacedNode): void => {
    if (node.kind === 'group') onWish({ ...wish, open: [...wish.open, node.key] })
    else if (node.node !== null) {
      workspace.set({ panel: null })
      workspace.goTo(node.node)
    }
  }
  const onFoldBack = ({ parent }: PlacedNode): void => {
    if (parent === null) return
    setAt(parent)
    onWish({ ...wish, open: wish.open.filter((key) => key !== parent) })
  }
  const onChoose = (key: string): void => onWish({ ...wish, chosen: key === wish.chosen ? null : key })
  return (
    <>
      <div className="st-map-head">
        <MapFilters filter={wish.filter} shown={shown} onFilter={(filter) => onWish({ ...wish, filter })} />
        <div className="st-map-acts">
          <Button pressed={isList} onClick={() => setIsList(!isList)}>
            As a list
          </Button>
          <Button onClick={() => void saveMap(workspace, shown, lit, 'svg')}>Save as SVG</Button>
          <Button onClick={() => void saveMap(workspace, shown, lit, 'png')}>Save as PNG</Button>
        </div>
      </div>
      <p className="st-map-about" role="status">
        {about}
        {lit ? ` A chain of ${lit.nodes.size} is lit up.` : ''}
      </p>
      {here && !isList ? <MapHere node={here} onEnter={onEnter} onFoldBack={onFoldBack} /> : null}
      <div className="st-map-body st-scroll" tabIndex={0} role="group" aria-label="Map of the project">
        {isList ? (
          <MapList map={map} onEnter={onEnter} />
        ) : here ? (
          <MapPicture
            {...{ map, lit, onChoose, onEnter, onFoldBack }}
            chosen={wish.chosen}
            at={here.key}
            onAt={setAt}
          />
        ) : null}
        <MapLegend map={map} />
      </div>
    </>
  )
}

const toLit = (keys: LitKeys | null): Lit | null =>
  keys && { nodes: new Set(keys.nodes), edges: new Set(keys.edges) }

/**
 * The keyboard goes to the first sign once there is one, and to the sign in its stead when the one that had it is gone:
 * opened, folded or filtered away.
 */
function useFirstFocus(here: PlacedNode | undefined): void {
  const key = here?.key
  useEffect(() => {
    const { activeElement } = document
    const isOurs = activeElement?.matches('.st-map, body') === true
    if (key !== undefined && isOurs)
      document.querySelector<SVGElement>(`.st-map [data-sign="${CSS.escape(key)}"]`)?.focus()
  }, [key])
}
