/** Hops of a trace as a list, each with those behind it. */
import { momentLabel } from '../../shared/export/labels.ts'
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { TraceDirection, TraceHop } from '../../shared/provenance/trace.ts'
import { Badge, Button, LinkBadge } from '../ui/index.ts'
import { CarryIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { pageOf } from './pageOf.ts'
import type { NodeLabel } from './loadTrace.ts'
import { keptWords, looseWords, placesLeft, wayWords, wordsAt, wordsOfEnd } from './words.ts'

export interface TraceHopsProps {
  readonly hops: readonly TraceHop[]
  readonly direction: TraceDirection
  /** The thing that the hops start at. */
  readonly near: NodeLabel
  readonly labels: ReadonlyMap<string, NodeLabel>
  readonly onGo: (target: LinkNode, ranges: readonly Range[], label: NodeLabel) => void
}

export function TraceHops({ hops, ...rest }: TraceHopsProps) {
  return (
    <ol className="st-hops">
      {hops.map((hop) => (
        <Hop key={hop.link.id} hop={hop} {...rest} />
      ))}
    </ol>
  )
}

type HopProps = Omit<TraceHopsProps, 'hops'> & { readonly hop: TraceHop }

function Hop({ hop, direction, near, labels, onGo }: HopProps) {
  const { link, state, node, hops, continues } = hop
  const label = labels.get(node.id)
  if (!label) return null
  const far = direction === 'back' ? state?.older : state?.newer
  const newerLabel = direction === 'back' ? near : label
  const page = pageOf(hop, direction === 'back' ? label : near)
  return (
    <li className="st-hop" data-hop={link.id}>
      <div className="st-hop-head">
        {state ? <LinkBadge type={state.type} isLoose={state.loose} /> : null}
        <span className="st-trace-name">{label.name}</span>
        {label.state === 'withdrawn' ? <Badge line="dotted">withdrawn</Badge> : null}
      </div>
      {label.detail === '' ? null : <p className="st-trace-detail">{label.detail}</p>}
      {page === null ? null : <p className="st-trace-detail">{page}</p>}
      <Words hop={hop} newerText={newerLabel.text ?? ''} />
      <p className="st-trace-detail">
        {[`Linked ${momentLabel(link.made)} ${wayWords[link.way]}`, keptWords(hop)]
          .filter(Boolean)
          .join('; ')}
      </p>
      {label.state === 'gone' ? null : (
        <Button
          look="quiet"
          className="st-flush"
          icon={CarryIcon}
          label={`Go there: ${label.name}`}
          onClick={() => onGo(node, placesLeft(far?.places ?? []), label)}
        >
          Go there
        </Button>
      )}
      {continues === 'elsewhere' ? (
        <p className="st-trace-detail">It goes on at its other place here.</p>
      ) : null}
      {continues === 'further' ? <p className="st-trace-detail">It goes on; trace from there.</p> : null}
      {hops.length > 0 ? (
        <TraceHops hops={hops} direction={direction} near={label} labels={labels} onGo={onGo} />
      ) : null}
    </li>
  )
}

/** The older words as they were carried; beside them the newer ones where those are no longer the same. */
function Words({ hop, newerText }: { readonly hop: TraceHop; readonly newerText: string }) {
  const { link, state } = hop
  const carried = wordsOfEnd(link.older)
  const now = state ? wordsAt(state.newer.places, newerText) : ''
  const loose = looseWords(hop)
  if (carried === '') return <p className="st-trace-detail">As a whole; no words were taken.</p>
  return (
    <>
      <WordsAt end="Carried" text={carried} />
      {state?.type === 'derives' && now !== '' ? <WordsAt end="Now" text={now} /> : null}
      {loose === null ? null : <p className="st-trace-detail">{loose}</p>}
    </>
  )
}

/** So much of a long text is shown; the rest is read where it stands. UTF-16 code units. */
const MOST_WORDS = 1500

/** The words at one end of a link, as they read. */
export function WordsAt({ end, text }: { readonly end: string; readonly text: string }) {
  return (
    <div className="st-trace-words">
      {end === '' ? null : <span className="st-trace-end">{end}</span>}
      <Markdown text={shortened(text)} />
    </div>
  )
}

function shortened(text: string): string {
  return text.length <= MOST_WORDS ? text : `${text.slice(0, MOST_WORDS).trimEnd()} …`
}
