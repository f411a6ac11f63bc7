/** Where a part came from: one button for each link. */
import type { Range } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { LinkBadge } from '../../ui/index.ts'
import { TraceIcon } from '../../ui/icons.tsx'
import type { ShownLink, ShownPart } from './shown.ts'

/** More links than this stand in the trace. */
const MOST_SHOWN = 3

export interface FromButtonsProps {
  readonly shown: ShownPart
  readonly tabIndex: number
}

export function FromButtons({ shown: { part, links }, tabIndex }: FromButtonsProps) {
  const workspace = useWorkspace()
  const trace = () => workspace.set({ traced: { kind: 'part', id: part.id } })
  const rest = links.length - MOST_SHOWN
  return (
    <>
      {links.slice(0, MOST_SHOWN).map((one) => (
        <From
          key={one.link.id}
          shown={one}
          tabIndex={tabIndex}
          onGo={() => (isHere(workspace, one) ? workspace.goTo(one.link.older.node, placesOf(one)) : trace())}
          onTrace={trace}
        />
      ))}
      {rest > 0 ? (
        <button type="button" className="st-from" tabIndex={tabIndex} onClick={trace}>
          and {rest} more
        </button>
      ) : null}
    </>
  )
}

interface FromProps {
  readonly shown: ShownLink
  readonly tabIndex: number
  readonly onGo: () => void
  readonly onTrace: () => void
}

function From({ shown: { link, state, name }, tabIndex, onGo, onTrace }: FromProps) {
  const words = link.older.ranges.map(({ quote }) => quote.exact).join(' … ')
  return (
    <button
      type="button"
      className="st-from"
      data-link={link.id}
      tabIndex={tabIndex}
      title={words === '' ? undefined : words.slice(0, 300)}
      onClick={(event) => (event.shiftKey ? onTrace() : onGo())}
    >
      <TraceIcon />
      <span className="st-unseen">From</span>
      {state ? <LinkBadge type={state.type} isLoose={state.loose} /> : null}
      <span className="st-from-words">{name}</span>
    </button>
  )
}

/** A part of another project is reached by the trace, which opens that. */
function isHere(workspace: Workspace, { link: { older } }: ShownLink): boolean {
  return older.node.kind !== 'part' || workspace.requireView().parts.has(older.node.id)
}

/** Where the words at the older end stand now; none where they cannot be found. */
function placesOf({ state }: ShownLink): Range[] {
  return state?.older.places.filter((place) => place !== null) ?? []
}
