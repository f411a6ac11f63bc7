/** One way of a trace: back to what something came from, or forward to what came of it. */
import { useMemo, useState } from 'react'
import { momentLabel } from '../../shared/export/labels.ts'
import type { CaptureHead } from '../../shared/lab/model.ts'
import { flattenTrace, type TraceDirection } from '../../shared/provenance/trace.ts'
import { wayInWords } from '../../shared/sources/waysIn.ts'
import type { OpenLab } from '../db/lab.ts'
import type { Traced } from '../store/traced.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { Button, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { loadTrace, MOST_SHOWN, type LoadedTrace } from './loadTrace.ts'
import { AroundContext, Beside, Left, TraceHops, type TraceActs } from './TraceHops.tsx'
import { countOf } from './words.ts'

export interface WayProps {
  readonly traced: Traced
  readonly direction: TraceDirection
  readonly acts: TraceActs
}

export function Way({ traced, direction, acts }: WayProps) {
  const [most, setMost] = useState(MOST_SHOWN)
  const read = useMemo(
    () => (lab: OpenLab) => loadTrace(lab, traced, direction, most),
    [traced, direction, most],
  )
  const trace = useLabRead(read)
  if (trace === 'failed') return <Unreadable />
  if (!trace) return <ProgressLine words="Reading the links" share={null} />
  return (
    <AroundContext value={{ trace, ...acts }}>
      {direction === 'back' && isSource(traced) ? <CameIn traced={traced} /> : <Chain trace={trace} />}
      {trace.left.size > 0 ? (
        <Button onClick={() => setMost(most * 2)}>{`Show more than the nearest ${most} links`}</Button>
      ) : null}
    </AroundContext>
  )
}

export function Unreadable() {
  return (
    <ErrorSentence
      happened="The links could not be read."
      safe="Nothing was changed."
      next="Close the trace and open it again."
    />
  )
}

function Chain({ trace }: { readonly trace: LoadedTrace }) {
  const { hops, start, direction } = trace
  const count = flattenTrace(hops).length
  return (
    <>
      <p className="st-trace-none" role="status">
        {count === 0
          ? nothingThere(trace)
          : `${countOf(count, 'link')} ${direction === 'back' ? 'back' : 'forward'}${start.words === null ? '' : ', of the selected words alone'}.`}
      </p>
      {count > 0 ? (
        <TraceHops hops={hops} namesStart={start.nodes.length > 1 && !isSource(start.traced)} />
      ) : null}
      {start.nodes.map((node) => (
        <div key={node.id}>
          <Beside node={node} />
          <Left node={node} />
        </div>
      ))}
    </>
  )
}

function nothingThere({ direction, start: { traced, words } }: LoadedTrace): string {
  const what = words === null ? 'it' : 'these words'
  if (direction === 'forward') return `Nothing was carried from ${what} yet.`
  if (words !== null) return 'No link leads back from these words: they were written here.'
  switch (traced.kind) {
    case 'entry':
      return 'It was written here; no link leads further back.'
    case 'procedure':
    case 'version':
      return 'It rests on nothing: no part of it came from anywhere.'
    default:
      return 'It rests on nothing: it was written here, and no link leads back from it.'
  }
}

function isSource(traced: Traced): traced is Extract<Traced, { kind: 'source' | 'capture' }> {
  return traced.kind === 'source' || traced.kind === 'capture'
}

/** How a source came into the lab: every capture of it, with its way in. */
function CameIn({ traced }: { readonly traced: Extract<Traced, { kind: 'source' | 'capture' }> }) {
  const read = useMemo(
    () =>
      async ({ queries }: OpenLab): Promise<readonly CaptureHead[]> => {
        const source = traced.kind === 'source' ? traced.id : (await queries.captureHead(traced.id))?.source
        return source ? queries.capturesOf(source) : []
      },
    [traced],
  )
  const captures = useLabRead(read)
  if (captures === 'failed') return <Unreadable />
  return (
    <>
      <p className="st-trace-none">Sources come from outside; nothing in this lab stands behind them.</p>
      {captures?.length === 0 ? (
        <p className="st-trace-none">Only its address is kept, not its text.</p>
      ) : (
        <ol className="st-hops">
          {captures?.map((capture) => (
            <li key={capture.id} className="st-hop">
              <span className="st-trace-name">{momentLabel(capture.taken)}</span>
              <p className="st-trace-detail">{cameWords(capture)}</p>
            </li>
          ))}
        </ol>
      )}
    </>
  )
}

function cameWords({ wayIn, saved, sha256 }: CaptureHead): string {
  const way = wayInWords[wayIn]
  const came = way.charAt(0).toUpperCase() + way.slice(1)
  return `${came}${saved ? `, saved by the browser ${momentLabel(saved)}` : ''}. SHA-256 ${sha256.slice(0, 12)}…`
}
