/** The proposed steps with their ticks, and what takes them. */
import { useLayoutEffect, useRef, useState, type KeyboardEvent, type ReactNode } from 'react'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, Kbd } from '../ui/index.ts'
import { nextPlace } from '../ui/roving.ts'
import { takeSteps, type DraftPlace } from './acts.ts'
import { DraftStep } from './DraftStep.tsx'
import type { DraftItem, DraftModel } from './model.ts'
import { isTicked, rowsLeft, withTaken, withTick, type Taken, type Ticks } from './ticks.ts'

interface DraftRowsProps {
  readonly rows: readonly DraftItem[]
  /** The last Change that the rows know of. */
  readonly sequence: number
  readonly place: DraftPlace
  readonly fresh: () => Promise<DraftModel>
  /** Says where they go. */
  readonly where: ReactNode
  /** Said where there is no step. */
  readonly nothing: string
}

/** So many steps are shown at first, and so many more each time. Only what is shown is taken. */
const STRIDE = 30

const stepsInWords = (count: number): string => (count === 1 ? '1 step' : `${count} steps`)

export function DraftRows({ rows, sequence, place, fresh, where, nothing }: DraftRowsProps) {
  const workspace = useWorkspace()
  const [ticks, setTicks] = useState<Ticks>(() => new Map())
  const [taken, setTaken] = useState<Taken>(() => new Map())
  const [most, setMost] = useState(STRIDE)
  const [current, setCurrent] = useState<string | null>(null)
  const left = rowsLeft(rows, taken, sequence)
  const shown = left.slice(0, most)
  const ticked = shown.filter((row) => isTicked(row, ticks))
  const stop = shown.some(({ id }) => id === current) ? current : (shown[0]?.id ?? null)
  const { list, want } = useStepFocus(stop)
  const queue = useRef<Promise<unknown>>(Promise.resolve())

  const take = (chosen: readonly DraftItem[]): void => {
    if (chosen.length === 0) {
      workspace.say('notice', 'No step is ticked. Space ticks one.')
      return
    }
    setTaken((before) => withTaken(before, chosen, null))
    want()
    queue.current = queue.current
      .then(() => takeSteps(workspace, fresh, place, chosen))
      .then((isDone) => {
        const known = isDone ? (workspace.state.view?.sequence ?? 0) : undefined
        setTaken((before) => withTaken(before, chosen, known))
      })
  }
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    if (!(event.target instanceof HTMLElement) || !event.target.matches('[data-draft-row]')) return
    if (event.altKey || event.ctrlKey || event.metaKey) return
    const at = shown.findIndex(({ id }) => id === stop)
    const next = nextPlace(event.key, at, shown.length, 'vertical')
    if (next !== null) {
      setCurrent(shown[next]!.id)
      want()
    } else if (event.key === ' ') setTicks(withTick(shown[at]!, ticks))
    else if (event.key === 'Enter') take(event.shiftKey ? shown : ticked)
    else return
    event.preventDefault()
  }
  if (left.length === 0)
    return <p className="st-draft-none">{rows.length > 0 ? 'They are being added.' : nothing}</p>
  return (
    <section aria-label="Proposed steps">
      <div className="st-draft-head">
        {where}
        <div className="st-button-row">
          <Button look="strong" disabled={ticked.length === 0} keys="Enter" onClick={() => take(ticked)}>
            {`Add ${stepsInWords(ticked.length)}`}
          </Button>
          <Button keys="Shift+Enter" onClick={() => take(shown)}>
            {`Add all ${shown.length}`}
          </Button>
        </div>
        <p className="st-draft-note">
          <Kbd keys="Space" /> ticks, <Kbd keys="Enter" /> adds the ticked ones, <Kbd keys="Shift+Enter" />{' '}
          all that are shown.
        </p>
      </div>
      <ol ref={list} className="st-draft-rows" onKeyDown={onKeyDown}>
        {shown.map((row, n) => (
          <DraftStep
            key={row.id}
            row={row}
            number={n + 1}
            isTicked={isTicked(row, ticks)}
            isCurrent={row.id === stop}
            onFocus={() => setCurrent(row.id)}
            onTick={() => setTicks(withTick(row, ticks))}
          />
        ))}
      </ol>
      {left.length > most ? (
        <Button look="quiet" className="st-flush" onClick={() => setMost(most + STRIDE)}>
          {`Show ${Math.min(STRIDE, left.length - most)} more of ${left.length}`}
        </Button>
      ) : null}
    </section>
  )
}

/** Brings the keyboard to the step at the stop when it is wanted there; at first too, unless somebody is elsewhere. */
function useStepFocus(stop: string | null) {
  const list = useRef<HTMLOListElement>(null)
  const isWanted = useRef(true)
  const isFirst = useRef(true)
  useLayoutEffect(() => {
    const panel = document.querySelector('.st-draft')
    const active = document.activeElement
    const isFree = active === document.body || active === panel
    if (!isWanted.current || !panel) return
    if (!isFree && !list.current?.contains(active) && !active?.matches('.st-draft-head .st-button')) return
    isWanted.current = false
    const row = [...(list.current?.querySelectorAll<HTMLElement>('[data-draft-row]') ?? [])].find(
      (one) => one.dataset['draftRow'] === stop,
    )
    const target = row ?? panel.querySelector<HTMLElement>('[data-draft]')
    // At first the head stays in view, that says where the steps go.
    target?.focus({ preventScroll: isFirst.current })
    isFirst.current = false
  })
  return {
    list,
    want: (): void => {
      isWanted.current = true
    },
  }
}
