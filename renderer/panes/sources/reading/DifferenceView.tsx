/** What changed between two captures of a source. */
import { useCallback, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import type { CaptureId } from '../../../../shared/lab/ids.ts'
import type { CaptureHead } from '../../../../shared/lab/model.ts'
import {
  compareTexts,
  foldKept,
  type Difference,
  type DifferenceRun,
  type ShownBlock,
} from '../../../../shared/sources/difference.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, ErrorSentence, Menu, ProgressLine } from '../../../ui/index.ts'
import { MoveDownIcon, MoveUpIcon } from '../../../ui/icons.tsx'
import { workApart, type ReadingWork } from '../../../workers/reading.ts'
import { dayAndTimeOf } from '../rows.ts'
import { useApart } from './useApart.ts'

export interface DifferenceViewProps {
  /** The newest first; at least two. */
  readonly captures: readonly CaptureHead[]
  /** The capture that was being read: it is compared with the one before it. */
  readonly shown: CaptureId
}

/** Texts that are longer together, in UTF-16 code units, are compared in a worker. */
const LARGE = 100_000

export function DifferenceView({ captures, shown }: DifferenceViewProps) {
  const [pair, setPair] = useState(() => pairOf(captures, shown))
  const older = captures.find(({ id }) => id === pair.older) ?? captures.at(-1)!
  const newer = captures.find(({ id }) => id === pair.newer) ?? captures[0]!
  const asked = useDifference(older.id, newer.id)
  return (
    <div className="st-difference">
      <div className="st-difference-pair">
        <CaptureChoice
          word="From"
          captures={captures}
          chosen={older}
          onChoose={(id) => setPair({ older: id, newer: newer.id })}
        />
        <CaptureChoice
          word="To"
          captures={captures}
          chosen={newer}
          onChoose={(id) => setPair({ older: older.id, newer: id })}
        />
      </div>
      {asked.kind === 'waiting' ? <ProgressLine words="Comparing the two captures" share={null} /> : null}
      {asked.kind === 'broken' ? (
        <ErrorSentence
          happened="The captures could not be compared."
          safe="Both are kept as they are."
          next="Choose two others, or read them one after the other."
        />
      ) : null}
      {asked.kind === 'here' ? (
        <Changes
          key={`${older.id} ${newer.id}`}
          difference={asked.value}
          isSame={older.sha256 === newer.sha256}
        />
      ) : null}
    </div>
  )
}

/** The capture that was read and the one before it; for the oldest, the one after it. */
function pairOf(captures: readonly CaptureHead[], shown: CaptureId) {
  const at = Math.max(
    0,
    captures.findIndex(({ id }) => id === shown),
  )
  const newer = at === captures.length - 1 ? at - 1 : at
  return { older: captures[newer + 1]!.id, newer: captures[newer]!.id }
}

function CaptureChoice({
  word,
  captures,
  chosen,
  onChoose,
}: {
  readonly word: 'From' | 'To'
  readonly captures: readonly CaptureHead[]
  readonly chosen: CaptureHead
  readonly onChoose: (id: CaptureId) => void
}) {
  return (
    <Menu
      label={`${word} which capture`}
      lines={captures.map((capture, at) => ({
        id: capture.id,
        word: dayAndTimeOf(capture.taken),
        hint: at === 0 ? 'newest' : undefined,
        isChosen: capture.id === chosen.id,
        onChoose: () => onChoose(capture.id),
      }))}
      trigger={(attributes) => (
        <Button {...attributes} label={`${word} ${dayAndTimeOf(chosen.taken)}`}>
          {`${word} ${dayAndTimeOf(chosen.taken)}`}
        </Button>
      )}
    />
  )
}

function useDifference(older: CaptureId, newer: CaptureId) {
  const workspace = useWorkspace()
  const begin = useCallback(async (): Promise<ReadingWork<Difference>> => {
    const { queries } = workspace.requireLab()
    const [a, b] = await Promise.all([queries.findCapture(older), queries.findCapture(newer)])
    const texts = { older: a?.text ?? '', newer: b?.text ?? '' }
    if (texts.older.length + texts.newer.length > LARGE) return workApart({ kind: 'difference', ...texts })
    return { answer: Promise.resolve(compareTexts(texts.older, texts.newer)), stop: () => undefined }
  }, [workspace, older, newer])
  return useApart(begin)
}

function Changes({ difference, isSame }: { readonly difference: Difference; readonly isSame: boolean }) {
  const { blocks, changes, isCoarse } = difference
  const shown = useMemo(() => foldKept(blocks), [blocks])
  const list = useRef<HTMLDivElement>(null)
  const [at, setAt] = useState(-1)
  const go = (step: 1 | -1): void => {
    const next = (at + step + (at < 0 && step < 0 ? 1 : 0) + changes) % changes
    const place = list.current?.querySelector<HTMLElement>(`[data-change="${next}"]`)
    setAt(next)
    place?.scrollIntoView({ block: 'center' })
    place?.focus({ preventScroll: true })
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (!event.altKey || event.ctrlKey || event.metaKey || changes === 0) return
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return
    event.preventDefault()
    event.stopPropagation()
    go(event.key === 'ArrowDown' ? 1 : -1)
  }
  if (changes === 0)
    return (
      <p role="status" className="st-difference-note">
        {isSame ? 'Nothing changed: both captures hold the same bytes.' : 'No word of the text changed.'}
      </p>
    )
  return (
    <div className="st-difference-inside" onKeyDown={onKeyDown}>
      <div className="st-difference-bar">
        <p role="status">{wordsOfCount(changes, at)}</p>
        <Button
          look="quiet"
          icon={MoveUpIcon}
          label="Previous change"
          keys="Alt+ArrowUp"
          onClick={() => go(-1)}
        />
        <Button
          look="quiet"
          icon={MoveDownIcon}
          label="Next change"
          keys="Alt+ArrowDown"
          onClick={() => go(1)}
        />
      </div>
      {isCoarse ? (
        <p className="st-difference-note">
          So much changed that the lines could not be compared one by one: what stands between the first and
          the last change is shown as a whole.
        </p>
      ) : null}
      <div
        ref={list}
        className="st-difference-text st-scroll"
        role="region"
        aria-label="What changed"
        tabIndex={0}
        data-first
      >
        <Blocks shown={shown} now={at} />
      </div>
    </div>
  )
}

function wordsOfCount(changes: number, at: number): string {
  const all = `${changes} ${changes === 1 ? 'place' : 'places'} changed`
  return at < 0 ? all : `Change ${at + 1} of ${changes}`
}

/** So many blocks are drawn at first, so that a text that changed everywhere shows at once. */
const FIRST_BLOCKS = 400

function Blocks({ shown, now }: { readonly shown: readonly ShownBlock[]; readonly now: number }) {
  const [most, setMost] = useState(FIRST_BLOCKS)
  let number = -1
  const drawn = shown.map((block) => {
    if (block.kind === 'changed') number += 1
    return { block, number }
  })
  // A change that was gone to must be there.
  const needed = drawn.findIndex((one) => one.block.kind === 'changed' && one.number === now + 1) + 2
  const limit = Math.max(most, needed)
  return (
    <>
      {drawn.slice(0, limit).map(({ block, number: place }, at) => (
        <Block key={at} block={block} number={place} isNow={block.kind === 'changed' && place === now} />
      ))}
      {drawn.length > limit ? (
        <Button
          onClick={() => setMost(limit + FIRST_BLOCKS * 4)}
        >{`Show more (${drawn.length - limit})`}</Button>
      ) : null}
    </>
  )
}

interface BlockProps {
  readonly block: ShownBlock
  readonly number: number
  readonly isNow: boolean
}

function Block({ block, number, isNow }: BlockProps) {
  const [isOpen, setOpen] = useState(false)
  if (block.kind === 'kept' || (block.kind === 'folded' && isOpen))
    return <p className="st-difference-kept">{shorten(block.text)}</p>
  if (block.kind === 'folded')
    return (
      <Button look="quiet" className="st-difference-fold" aria-expanded={false} onClick={() => setOpen(true)}>
        {`… ${block.lines} lines unchanged`}
      </Button>
    )
  return (
    <div
      className={isNow ? 'st-difference-change st-difference-change--now' : 'st-difference-change'}
      role="group"
      aria-label={`Change ${number + 1}`}
      data-change={number}
      tabIndex={-1}
    >
      {block.isByLines ? (
        <p className="st-difference-note">Too much changed here to compare word by word.</p>
      ) : null}
      <ChangedWords runs={block.runs} />
    </div>
  )
}

/** Whole lines stand below each other with their sign; changed words stand in their line. */
function ChangedWords({ runs }: { readonly runs: readonly DifferenceRun[] }) {
  const isWhole = runs.every(({ fate }) => fate !== 'kept')
  return (
    <div className={isWhole ? 'st-difference-lines' : 'st-difference-words'}>
      {runs.map(({ fate, text }, at) => {
        const words = shorten(isWhole ? text.replace(/\n$/u, '') : text)
        if (fate === 'kept') return <span key={at}>{words}</span>
        const Tag = fate === 'gone' ? 'del' : 'ins'
        return (
          <Tag key={at} className={`st-difference-${fate}`}>
            <span className="st-difference-sign" aria-hidden="true">
              {fate === 'gone' ? '−' : '+'}
            </span>
            <span className="st-unseen">{fate === 'gone' ? ' taken away: ' : ' come in: '}</span>
            {words}
            <span className="st-unseen"> end of the change </span>
          </Tag>
        )
      })}
    </div>
  )
}

/** A picture's letters say nothing to a reader. */
function shorten(text: string): string {
  return text.replace(/data:image\/[a-z]+;base64,[A-Za-z0-9+/=]{40,}/gu, '(picture)')
}
