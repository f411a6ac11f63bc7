/** Hops of a trace as a list, each with those behind it. */
import { createContext, use, useState } from 'react'
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import { nearEndOf, type TraceHop } from '../../shared/provenance/trace.ts'
import { Badge, Button, LinkBadge } from '../ui/index.ts'
import { CarryIcon, CopyIcon } from '../ui/icons.tsx'
import { pageOf } from './pageOf.ts'
import type { NodeLabel } from './labels.ts'
import { EarlierLink } from './EarlierLink.tsx'
import { looseSides } from '../../shared/provenance/setAgain.ts'
import { beginSettingAgain } from './settingAgain.ts'
import type { LoadedTrace } from './loadTrace.ts'
import {
  countOf,
  isCodeAt,
  isStruckEnd,
  keptWords,
  looseWords,
  madeWords,
  placesLeft,
  wordsAt,
  wordsOfEnd,
} from './words.ts'
import { WordsAt } from './WordsAt.tsx'

/** What can be done from a trace. */
export interface TraceActs {
  readonly onGo: (target: LinkNode, ranges: readonly Range[], label: NodeLabel) => void
  /** Carries words of a part on, into the procedure that is shown. */
  readonly onCarry: (target: LinkNode, ranges: readonly Range[]) => void
}

/** What every hop of a trace needs. */
export interface TraceAround extends TraceActs {
  readonly trace: LoadedTrace
}

export const AroundContext = createContext<TraceAround | null>(null)

function useAround(): TraceAround {
  const around = use(AroundContext)
  if (!around) throw new Error('a hop stands in a trace')
  return around
}

export interface TraceHopsProps {
  readonly hops: readonly TraceHop[]
  /** Says of each hop which of several things it starts at. */
  readonly namesStart?: boolean
}

export function TraceHops({ hops, namesStart = false }: TraceHopsProps) {
  return (
    <ol className="st-hops">
      {hops.map((hop) => (
        <Hop key={hop.link.id} hop={hop} namesStart={namesStart} />
      ))}
    </ol>
  )
}

function Hop({ hop, namesStart }: { readonly hop: TraceHop; readonly namesStart: boolean }) {
  const { trace } = useAround()
  const { link, state, node, hops, continues } = hop
  const label = trace.labels.get(node.id)
  if (!label) return null
  const page = pageOf(hop, trace.labels.get(link.older.node.id) ?? {})
  const { id } = nearEndOf(link, trace.direction).node
  const start = namesStart ? (trace.start.names?.get(id) ?? trace.labels.get(id)?.name) : undefined
  return (
    <li className="st-hop" data-hop={link.id}>
      {start === undefined ? null : <p className="st-hop-start">{start}</p>}
      <div className="st-hop-head">
        {state ? <LinkBadge type={state.type} isLoose={state.loose} /> : null}
        <span className="st-trace-name">{label.name}</span>
        {label.state === 'withdrawn' ? <Badge line="dotted">withdrawn</Badge> : null}
      </div>
      {label.detail === '' ? null : <p className="st-trace-detail">{label.detail}</p>}
      {page === null ? null : <p className="st-trace-detail">{page}</p>}
      <Words hop={hop} newerText={trace.labels.get(link.newer.node.id)?.text ?? ''} />
      <p className="st-trace-detail">{[madeWords(link), keptWords(hop)].filter(Boolean).join('; ')}</p>
      {link.revises ? <EarlierLink id={link.revises} /> : null}
      <HopActs hop={hop} label={label} />
      {continues === 'elsewhere' ? (
        <p className="st-trace-detail">It goes on at its other place here.</p>
      ) : (
        <Behind node={node} hops={hops} />
      )}
    </li>
  )
}

function HopActs({ hop, label }: { readonly hop: TraceHop; readonly label: NodeLabel }) {
  const { trace, onGo, onCarry } = useAround()
  if (label.state === 'gone') return null
  const lost = hop.state ? looseSides(hop.state) : []
  const far = trace.direction === 'back' ? hop.state?.older : hop.state?.newer
  const ranges = placesLeft(far?.places ?? [])
  return (
    <div className="st-hop-acts">
      <Button
        look="quiet"
        className="st-flush"
        icon={CarryIcon}
        label={`Go there: ${label.name}`}
        onClick={() => onGo(hop.node, ranges, label)}
      >
        Go there
      </Button>
      {hop.node.kind === 'part' ? (
        <Button
          look="quiet"
          className="st-flush"
          icon={CopyIcon}
          label={`Carry these words: ${label.name}`}
          onClick={() => onCarry(hop.node, ranges)}
        >
          Carry these words
        </Button>
      ) : null}
      {lost.map((side) => (
        <Button
          key={side}
          look="quiet"
          className="st-flush"
          label={`Set again: ${trace.labels.get(hop.link[side].node.id)?.name ?? label.name}`}
          onClick={() => beginSettingAgain({ link: hop.link, side })}
        >
          {lost.length > 1 ? `Set the ${side} end again…` : 'Set again…'}
        </Button>
      ))}
    </div>
  )
}

/** What stands behind a thing: the hops, what does not go on with these words, and how many more there are. */
function Behind({ node, hops }: { readonly node: LinkNode; readonly hops: readonly TraceHop[] }) {
  return (
    <>
      {hops.length > 0 ? <TraceHops hops={hops} /> : null}
      <Beside node={node} />
      <Left node={node} />
    </>
  )
}

/** How many links at a thing are not shown, since there are so many. */
export function Left({ node }: { readonly node: LinkNode }) {
  const left = useAround().trace.left.get(node.id) ?? 0
  return left === 0 ? null : (
    <p className="st-trace-detail">{`${countOf(left, 'more link')} from here ${left === 1 ? 'is' : 'are'} not shown.`}</p>
  )
}

/** Links of a thing that have to do with other words of it. */
export function Beside({ node }: { readonly node: LinkNode }) {
  const { trace } = useAround()
  const [isOpen, setOpen] = useState(false)
  const beside = trace.beside.get(node.id) ?? []
  if (beside.length === 0) return null
  return (
    <div className="st-hop-beside">
      <Button look="quiet" className="st-flush" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        {`${countOf(beside.length, 'link')} of other words of it`}
      </Button>
      {isOpen ? <TraceHops hops={beside} /> : null}
    </div>
  )
}

/** The older words as they were carried; beside them the newer ones where those are no longer the same. */
function Words({ hop, newerText }: { readonly hop: TraceHop; readonly newerText: string }) {
  const { link, state } = hop
  const carried = wordsOfEnd(link.older)
  const now = state ? wordsAt(state.newer.places, newerText) : ''
  const loose = looseWords(hop)
  const isCode = isCodeAt(newerText, placesLeft(state?.newer.places ?? []))
  if (carried === '') return <Whole hop={hop} />
  return (
    <>
      <WordsAt end="Carried" text={carried} isCode={isCode} />
      {state?.type === 'derives' && now !== '' ? <WordsAt end="Now" text={now} isCode={isCode} /> : null}
      {loose === null ? null : <p className="st-trace-detail">{loose}</p>}
      {isStruckEnd(link.older) ? (
        <p className="st-trace-detail">Some of these words were struck out.</p>
      ) : null}
    </>
  )
}

/** The thing as a whole, as it reads now: no words were taken. */
function Whole({ hop: { node, state } }: { readonly hop: TraceHop }) {
  const text = useAround().trace.labels.get(node.id)?.text ?? ''
  return (
    <>
      {text === '' ? null : <WordsAt end="" text={text} />}
      {state?.type === 'answers' ? null : <p className="st-trace-detail">As a whole; no words were taken.</p>}
    </>
  )
}
