/** What tidying would do to a text, to take whole, in parts or not at all. It stands where the text stands. */
import { useEffect, useMemo, useRef, useState, type KeyboardEvent, type ReactNode } from 'react'
import type { Replacement } from '../../../../shared/journal/tidy/tidy.ts'
import type { Doubt } from '../../../../shared/journal/tidy/doubts.ts'
import { Button } from '../../../ui/index.ts'
import { offerFor, replacementsFor, type DiffLine, type Proposal } from './proposals.ts'
import { SpellingList } from './SpellingList.tsx'
import { useSpelling } from './useSpelling.ts'
import './tidying.css'

export interface TidyPanelProps {
  readonly text: string
  /** What becomes of the text that stands now. */
  readonly promise: string
  /** Said where the text changed since the panel was opened. */
  readonly notice?: string | null
  readonly onTake: (replacements: readonly Replacement[]) => void
  readonly onLeave: () => void
}

export function TidyPanel({ text, promise, notice, onTake, onLeave }: TidyPanelProps): ReactNode {
  const offer = useMemo(() => offerFor(text), [text])
  const spelling = useSpelling(offer.words)
  const [left, setLeft] = useState<ReadonlySet<Proposal>>(new Set())
  const [spelt, setSpelt] = useState<ReadonlyMap<string, string>>(new Map())
  const root = useRef<HTMLElement>(null)
  useEffect(() => root.current?.focus(), [])
  const { proposals } = offer
  const chosen = proposals.filter((one) => !left.has(one))
  const take = (taken: readonly Proposal[]): void => {
    const replacements = replacementsFor(
      offer,
      taken.map(({ edit }) => edit),
      spelt,
    )
    if (replacements.length === 0) onLeave()
    else onTake(replacements)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    const isTake = event.key === 'Enter' && (event.ctrlKey || event.metaKey)
    if (event.key !== 'Escape' && !isTake) return
    event.preventDefault()
    event.stopPropagation()
    if (isTake) take(chosen)
    else onLeave()
  }
  const hasSome = proposals.length > 0 || spelt.size > 0
  return (
    <section ref={root} className="st-tidying" aria-label="Tidy" tabIndex={-1} onKeyDown={onKeyDown}>
      {notice ? (
        <p className="st-tidying-words" role="status">
          {notice}
        </p>
      ) : null}
      {proposals.length === 0 ? (
        <p className="st-tidying-words">Nothing to tidy: it reads clean already.</p>
      ) : null}
      <ol className="st-tidying-list">
        {proposals.map((proposal, at) => (
          <ProposalItem
            key={at}
            proposal={proposal}
            isChosen={!left.has(proposal)}
            onChoose={(isChosen) => setLeft((before) => without(before, proposal, isChosen))}
          />
        ))}
      </ol>
      <Doubts doubts={offer.doubts} />
      <SpellingList spelling={spelling} spelt={spelt} onSpell={setSpelt} />
      <div className="st-tidying-foot">
        <p className="st-tidying-words">{promise}</p>
        <span className="st-button-row">
          <Button keys="Escape" onClick={onLeave}>
            Leave it
          </Button>
          <Button keys="Ctrl+Enter" disabled={!hasSome} onClick={() => take(chosen)}>
            {`Take chosen (${chosen.length + spelt.size})`}
          </Button>
          <Button look="strong" disabled={!hasSome} onClick={() => take(proposals)}>
            Take all
          </Button>
        </span>
      </div>
    </section>
  )
}

function without(left: ReadonlySet<Proposal>, proposal: Proposal, isChosen: boolean): ReadonlySet<Proposal> {
  const next = new Set(left)
  if (isChosen) next.delete(proposal)
  else next.add(proposal)
  return next
}

/** So many are named; the rest is a number. */
const MOST_DOUBTS = 4

function Doubts({ doubts }: { readonly doubts: readonly Doubt[] }): ReactNode {
  if (doubts.length === 0) return null
  const more = doubts.length - MOST_DOUBTS
  return (
    <div className="st-tidying-doubts">
      <p className="st-tidying-words">
        Left as it stands, since it may be a command, an answer or your own words:
      </p>
      <ul aria-label="Left as it stands">
        {doubts.slice(0, MOST_DOUBTS).map(({ first, last, text }) => (
          <li key={first}>
            {`Line ${first + 1}${last > first ? ` to ${last + 1}` : ''}: `}
            <code>{text.trim().length > 80 ? `${text.trim().slice(0, 80)}…` : text.trim()}</code>
          </li>
        ))}
      </ul>
      {more > 0 ? (
        <p className="st-tidying-words">{`And ${more} ${more === 1 ? 'place' : 'places'} more.`}</p>
      ) : null}
    </div>
  )
}

interface ProposalItemProps {
  readonly proposal: Proposal
  readonly isChosen: boolean
  readonly onChoose: (isChosen: boolean) => void
}

function ProposalItem({ proposal: { edit, lines }, isChosen, onChoose }: ProposalItemProps) {
  return (
    <li className={isChosen ? 'st-tidying-edit' : 'st-tidying-edit st-tidying-edit--left'}>
      <label className="st-tidying-choice">
        <input type="checkbox" checked={isChosen} onChange={(event) => onChoose(event.target.checked)} />
        <span>{edit.says}</span>
      </label>
      <div className="st-tidying-lines">
        {lines.map((line, at) => (
          <DiffRow key={at} line={line} />
        ))}
      </div>
    </li>
  )
}

/** The sign before a line tells its fate to the eye, the element to those who do not see it. */
function DiffRow({ line }: { readonly line: DiffLine }) {
  if (line.fate === 'folded')
    return (
      <p className="st-tidying-folded">
        {line.count === 1 ? 'One line stays as it is' : `${line.count} lines stay as they are`}
      </p>
    )
  const Words = line.fate === 'gone' ? 'del' : line.fate === 'new' ? 'ins' : 'span'
  const sign = line.fate === 'gone' ? '−' : line.fate === 'new' ? '+' : ''
  return (
    <p className={`st-tidying-line st-tidying-line--${line.fate}`}>
      <span aria-hidden="true" className="st-tidying-sign">
        {sign}
      </span>
      <Words>{line.fate === 'gone' ? showBlanks(line.text) : line.text}</Words>
    </p>
  )
}

/** Blanks at the end of a line that goes are what cannot be seen otherwise. */
function showBlanks(text: string): string {
  return text.replace(/[ \t\u00a0]+$/u, (run) => '·'.repeat(run.length)).replace(/\u00a0/gu, '·')
}
