/** The lists, as one run for the arrows. What is dealt with goes at once, and the keyboard goes on to the next. */
import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { CarryWay } from '../../shared/lab/model.ts'
import { rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { showPart } from '../panes/procedure/index.ts'
import { stepsOf } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { nextPlace } from '../ui/roving.ts'
import { carryOver, leaveOutNow, takeIn, type Fresh } from './acts.ts'
import { GapRow, type RowActs } from './GapRow.tsx'
import type { CoverageModel } from './model.ts'
import { coverageLists, rowBehind, rowsOf, type CoverageList, type CoverageRow, type Dealt } from './rows.ts'

interface CoverageListsProps {
  readonly model: CoverageModel
  /** The last Change that the model knows of. */
  readonly sequence: number
  readonly procedure: ProcedureId
  readonly fresh: Fresh
}

/** So many rows of a list are shown at first, and so many more each time. */
const STRIDE = 40

const headings: Readonly<Record<CoverageList, string>> = {
  missing: 'In the journal and not in the procedure',
  unsure: 'Perhaps missing',
  unproven: 'In the procedure and not shown to have worked',
  'left out': 'Left out',
}

export function CoverageLists({ model, sequence, procedure, fresh }: CoverageListsProps) {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const numbers = useMemo(
    () => (view ? rowNumbers(stepsOf(view, procedure)) : new Map<string, string>()),
    [view, procedure],
  )
  const [dealt, setDealt] = useState<Dealt>(() => new Map())
  const [most, setMost] = useState<Partial<Record<CoverageList, number>>>({})
  const [current, setCurrent] = useState<string | null>(null)
  const [leaving, setLeaving] = useState<string | null>(null)
  const lists = useMemo(() => rowsOf(model, dealt, sequence), [model, dealt, sequence])
  const shown = coverageLists.flatMap((list) => (lists.get(list) ?? []).slice(0, most[list] ?? STRIDE))
  const stop = shown.some(({ key }) => key === current) ? current : (shown[0]?.key ?? null)
  const { root, want } = useRowFocus(stop)
  const queue = useRef<Promise<unknown>>(Promise.resolve())

  /** One act after the other, each on what the one before it left. */
  const deal = ({ key }: CoverageRow, act: () => Promise<boolean>): void => {
    const next = rowBehind(shown, key)
    setLeaving(null)
    setDealt((before) => new Map(before).set(key, null))
    setCurrent(next)
    want()
    queue.current = queue.current.then(act).then((isDone) => {
      const known = workspace.state.view?.sequence ?? 0
      setDealt((before) => withDealt(before, key, isDone ? known : undefined))
      if (!isDone) setCurrent(key)
    })
  }
  const actsOf = (row: CoverageRow): RowActs => ({
    onShow: () => show(row),
    onCarry: (way: CarryWay) =>
      deal(row, async () => {
        const part = await carryOver(workspace, fresh, procedure, row.item.id, way)
        // The keyboard stays in the list.
        if (part) showPart(workspace, part)
        return part !== null
      }),
    onAsk: () => setLeaving(row.key),
    onCancel: () => {
      setLeaving(null)
      setCurrent(row.key)
      want()
    },
    onLeaveOut: (reason) => deal(row, () => leaveOutNow(workspace, fresh, procedure, row.item.id, reason)),
    onTakeIn: () => {
      if (row.is === 'left out') deal(row, () => takeIn(workspace, row.item))
    },
  })
  const show = (row: CoverageRow): void =>
    row.is === 'unproven'
      ? workspace.goTo({ kind: 'part', id: row.item.part.id }, [row.item.range])
      : workspace.goTo({ kind: 'entry', id: row.item.entry }, [row.item.range])

  return (
    <div
      ref={root}
      onKeyDown={(event) => {
        if (!(event.target instanceof HTMLElement) || !event.target.matches('[data-row]')) return
        const at = shown.findIndex(({ key }) => key === stop)
        const next = nextPlace(event.key, at, shown.length, 'vertical')
        if (next === null || event.altKey || event.ctrlKey) return
        event.preventDefault()
        setCurrent(shown[next]!.key)
        want()
      }}
    >
      {shown.length === 0 ? <p className="st-coverage-all">Nothing is missing.</p> : null}
      {coverageLists.map((list) => {
        const rows = lists.get(list) ?? []
        if (rows.length === 0) return null
        const count = most[list] ?? STRIDE
        return (
          <section key={list} aria-label={headings[list]}>
            <h3 className="st-trace-heading">
              {headings[list]}, {rows.length}
            </h3>
            <ol className="st-lackings">
              {rows.slice(0, count).map((row) => (
                <GapRow
                  key={row.key}
                  row={row}
                  number={row.is === 'unproven' && row.item.step ? (numbers.get(row.item.step) ?? '') : ''}
                  isCurrent={row.key === stop}
                  isLeaving={row.key === leaving}
                  onFocus={() => setCurrent(row.key)}
                  {...actsOf(row)}
                />
              ))}
            </ol>
            {rows.length > count ? (
              <Button
                look="quiet"
                className="st-flush"
                onClick={() => setMost({ ...most, [list]: count + STRIDE })}
              >
                {`Show ${Math.min(STRIDE, rows.length - count)} more`}
              </Button>
            ) : null}
          </section>
        )
      })}
    </div>
  )
}

function withDealt(before: Dealt, key: string, known: number | undefined): Dealt {
  const next = new Map(before)
  if (known === undefined) next.delete(key)
  else next.set(key, known)
  return next
}

/** Brings the keyboard to the row at the stop when it is wanted there, and keeps it in the list when its row goes. */
function useRowFocus(stop: string | null) {
  const root = useRef<HTMLDivElement>(null)
  const isWanted = useRef(true)
  useLayoutEffect(() => {
    const here = root.current
    if (!here) return
    const panel = here.closest('.st-panel')
    const active = document.activeElement
    // Beside the first time only where nobody is elsewhere: what is dealt with takes the focus away with its row.
    const isFree = active === document.body || active === panel || panel?.contains(active) === true
    if (!isWanted.current || !isFree) return
    isWanted.current = false
    const row = [...here.querySelectorAll<HTMLElement>('[data-row]')].find(
      (one) => one.dataset['row'] === stop,
    )
    const target = row ?? here.closest<HTMLElement>('[data-coverage]')
    target?.focus()
  })
  return {
    root,
    want: (): void => {
      isWanted.current = true
    },
  }
}
