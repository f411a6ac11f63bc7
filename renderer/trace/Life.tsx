/** The life of a step as a dated list. */
import { useMemo } from 'react'
import { momentLabel } from '../../shared/export/labels.ts'
import type { StepId } from '../../shared/lab/ids.ts'
import type { LinkNode } from '../../shared/lab/model.ts'
import type { LifeEvent } from '../../shared/provenance/life.ts'
import { foldKept, type Difference } from '../../shared/sources/difference.ts'
import type { OpenLab } from '../db/lab.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { Badge, Button, ProgressLine } from '../ui/index.ts'
import { CarryIcon } from '../ui/icons.tsx'
import type { Labels } from './labels.ts'
import { loadLife } from './loadLife.ts'
import type { TraceActs } from './TraceHops.tsx'
import { WordsAt } from './WordsAt.tsx'
import { Unreadable } from './Way.tsx'
import { isCodeLink, wordsOfEnd, wordsOfEvent } from './words.ts'

export interface LifeProps extends Pick<TraceActs, 'onGo'> {
  readonly step: StepId
}

export function Life({ step, onGo }: LifeProps) {
  const read = useMemo(() => (lab: OpenLab) => loadLife(lab, step), [step])
  const life = useLabRead(read)
  if (life === 'failed') return <Unreadable />
  if (!life) return <ProgressLine words="Reading its life" share={null} />
  return (
    <ol className="st-hops st-life" aria-label="Its life, the oldest first">
      {life.events.map((event, i) => (
        <Event key={i} event={event} labels={life.labels} onGo={onGo} />
      ))}
    </ol>
  )
}

interface EventProps extends Pick<TraceActs, 'onGo'> {
  readonly event: LifeEvent
  readonly labels: Labels
}

function Event({ event, labels, onGo }: EventProps) {
  return (
    <li className="st-hop">
      <p className="st-trace-detail">
        {momentLabel(event.at)}
        {event.kind === 'words' && event.until !== event.at ? ` to ${event.until.slice(11, 19)}` : ''}
      </p>
      <p className="st-trace-name">{wordsOfEvent(event)}</p>
      <Details event={event} labels={labels} onGo={onGo} />
    </li>
  )
}

function Details({ event, labels, onGo }: EventProps) {
  switch (event.kind) {
    case 'entry':
      return (
        <>
          {event.entry.isWithdrawn ? <Badge line="dotted">withdrawn</Badge> : null}
          <WordsAt end="" text={labels.get(event.entry.entry.id)?.text ?? ''} />
          <GoTo node={{ kind: 'entry', id: event.entry.entry.id }} labels={labels} onGo={onGo} />
        </>
      )
    case 'carry': {
      const { node } = event.link.older
      const words = wordsOfEnd(event.link.older)
      const isCode = isCodeLink(event.link, (id) => labels.get(id)?.text)
      return (
        <>
          <p className="st-trace-detail">{`From ${labels.get(node.id)?.name ?? 'something that is gone'}`}</p>
          {words === '' ? null : <WordsAt end="" text={words} isCode={isCode} />}
          <GoTo node={node} labels={labels} onGo={onGo} />
        </>
      )
    }
    case 'words':
      return <Changed difference={event.difference} />
    case 'version':
      return event.version.line === '' ? null : <p className="st-trace-detail">{event.version.line}</p>
    case 'step':
    case 'run':
      return null
  }
}

function GoTo({ node, labels, onGo }: { readonly node: LinkNode } & Omit<EventProps, 'event'>) {
  const label = labels.get(node.id)
  if (!label || label.state === 'gone') return null
  return (
    <Button
      look="quiet"
      className="st-flush"
      icon={CarryIcon}
      label={`Go there: ${label.name}`}
      onClick={() => onGo(node, [], label)}
    >
      Go there
    </Button>
  )
}

/** What changed, word by word; long stretches that stayed are folded away. */
function Changed({ difference }: { readonly difference: Difference }) {
  return (
    <div className="st-life-words">
      {foldKept(difference.blocks).flatMap((block, i) => {
        if (block.kind === 'kept') return <span key={i}>{block.text}</span>
        if (block.kind === 'folded')
          return <span key={i} className="st-life-folded">{`… ${block.lines} lines as they were …\n`}</span>
        return block.runs.map(({ fate, text }, at) => {
          const key = `${i} ${at}`
          if (fate === 'gone') return <del key={key}>{text}</del>
          return fate === 'come' ? <ins key={key}>{text}</ins> : <span key={key}>{text}</span>
        })
      })}
    </div>
  )
}
