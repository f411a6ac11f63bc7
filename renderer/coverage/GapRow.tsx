/** One thing that is missing, left out, or not shown to have worked. */
import type { KeyboardEvent } from 'react'
import { wordsOfPlace } from '../../shared/journal/places.ts'
import type { CarryWay } from '../../shared/lab/model.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { AddIcon, CarryIcon, JournalIcon, KindFileIcon, ProcedureIcon, SetAsideIcon } from '../ui/icons.tsx'
import { LeaveOutForm } from './LeaveOutForm.tsx'
import type { MissingItem } from './model.ts'
import type { CoverageRow } from './rows.ts'
import { unprovenWords, whyListed, whyUnsure } from './words.ts'

export interface RowActs {
  readonly onShow: () => void
  readonly onCarry: (way: CarryWay) => void
  /** Asks for the reason of leaving it out. */
  readonly onAsk: () => void
  readonly onCancel: () => void
  readonly onLeaveOut: (reason: string) => void
  readonly onTakeIn: () => void
}

interface GapRowProps extends RowActs {
  readonly row: CoverageRow
  /** Of the step that an unproven command stands in. */
  readonly number: string
  readonly isCurrent: boolean
  readonly isLeaving: boolean
  readonly onFocus: () => void
}

const keysOf: Readonly<Record<CoverageRow['is'], string>> = {
  missing: 'Enter C L',
  unsure: 'Enter C L',
  unproven: 'Enter',
  'left out': 'Enter T',
}

export function GapRow({ row, number, isCurrent, isLeaving, onFocus, ...acts }: GapRowProps) {
  return (
    <li
      className={`st-lacking st-lacking--${row.is.replace(' ', '-')}`}
      data-row={row.key}
      tabIndex={isCurrent ? 0 : -1}
      aria-keyshortcuts={keysOf[row.is]}
      onFocus={onFocus}
      onKeyDown={(event) => onRowKey(event, row, acts)}
    >
      <div className="st-lacking-head">
        <Facts row={row} number={number} />
        <Button
          look="quiet"
          icon={row.is === 'unproven' ? ProcedureIcon : JournalIcon}
          label={row.is === 'unproven' ? 'Show it in the procedure' : 'Show it in the journal'}
          keys="Enter"
          tabIndex={isCurrent ? 0 : -1}
          onClick={acts.onShow}
        />
      </div>
      <p className="st-lacking-text">
        {row.is !== 'unproven' && row.item.kind === 'file' ? <KindFileIcon /> : null}
        <code>{row.item.text}</code>
      </p>
      <Why row={row} />
      {isLeaving ? (
        <LeaveOutForm onReason={acts.onLeaveOut} onCancel={acts.onCancel} />
      ) : (
        <Acts row={row} tabIndex={isCurrent ? 0 : -1} {...acts} />
      )}
    </li>
  )
}

function onRowKey(event: KeyboardEvent<HTMLElement>, { is }: CoverageRow, acts: RowActs): void {
  if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey || event.shiftKey) return
  const act = actOfKey(event.key === 'Enter' ? 'Enter' : event.code, is, acts)
  // Alt+C carries everywhere.
  if (!act || (event.altKey && event.code !== 'KeyC')) return
  event.preventDefault()
  act()
}

function actOfKey(key: string, is: CoverageRow['is'], acts: RowActs): (() => void) | null {
  if (key === 'Enter') return acts.onShow
  if (is === 'left out') return key === 'KeyT' ? acts.onTakeIn : null
  if (is === 'unproven') return null
  if (key === 'KeyC') return () => acts.onCarry('keyboard')
  return key === 'KeyL' ? acts.onAsk : null
}

function Facts({ row, number }: { readonly row: CoverageRow; readonly number: string }) {
  const words = useFacts(row.is === 'unproven' ? null : row.item)
  if (row.is === 'unproven')
    return <p className="st-lacking-facts">{number === '' ? 'The procedure itself' : `Step ${number}`}</p>
  return <p className="st-lacking-facts">{words}</p>
}

function useFacts(item: MissingItem | null): string {
  const machines = useWorkspaceState((state) => state.machines)
  if (!item) return ''
  const { moment, place, times } = item
  const where = place ? wordsOfPlace(place, machines) : ''
  return [
    `${moment.slice(0, 10)} ${moment.slice(11, 16)}`,
    ...(where === '' ? [] : [where]),
    ...(times > 1 ? [`${times} times`] : []),
  ].join(', ')
}

function Why({ row }: { readonly row: CoverageRow }) {
  const words = wordsOfRow(row)
  return words === '' ? null : <p className="st-lacking-why">{words}</p>
}

function wordsOfRow(row: CoverageRow): string {
  switch (row.is) {
    case 'missing':
      return whyListed(row.item)
    case 'unsure':
      return [whyUnsure(row.item), whyListed(row.item)].join(' ').trim()
    case 'unproven':
      return unprovenWords[row.item.why]
    case 'left out':
      return row.item.says.reason
  }
}

interface ActsProps extends RowActs {
  readonly row: CoverageRow
  readonly tabIndex: number
}

function Acts({ row: { is }, tabIndex, onCarry, onAsk, onTakeIn }: ActsProps) {
  if (is === 'unproven') return null
  return (
    <div className="st-lacking-acts">
      {is === 'left out' ? (
        <Button look="quiet" icon={AddIcon} keys="T" tabIndex={tabIndex} onClick={onTakeIn}>
          Take in again
        </Button>
      ) : (
        <>
          <Button
            look="quiet"
            icon={CarryIcon}
            keys="C"
            tabIndex={tabIndex}
            onClick={() => onCarry('button')}
          >
            Carry over
          </Button>
          <Button look="quiet" icon={SetAsideIcon} keys="L" tabIndex={tabIndex} onClick={onAsk}>
            Leave out…
          </Button>
        </>
      )}
    </div>
  )
}
