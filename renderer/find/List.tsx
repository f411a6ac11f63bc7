/** What was found, group by group. The keyboard stays in the field above, which names the active row (WAI-ARIA APG, combobox). */
import { useEffect, useLayoutEffect, useRef, useState, type ReactNode } from 'react'
import { Button } from '../ui/index.ts'
import { CarryIcon, CopyIcon } from '../ui/icons.tsx'
import { CARRY_KEYS, COPY_KEYS, canCarry, canCopy } from './Foot.tsx'
import type { FoundGroup, FoundRow } from './groups.ts'
import { RowContent } from './Rows.tsx'
import { groupWords } from './words.ts'

export interface ListProps {
  readonly id: string
  /** What was typed when this was found. */
  readonly of: string
  readonly groups: readonly FoundGroup[]
  /** All rows of the groups, one behind the other. */
  readonly rows: readonly FoundRow[]
  readonly active: FoundRow | undefined
  readonly onActive: (key: string) => void
  readonly onChoose: (row: FoundRow) => void
  readonly onCarry: (row: FoundRow) => void
  readonly onCopy: (row: FoundRow) => void
}

export const idOfRow = (list: string, place: number): string => `${list}-${place}`

export function List({
  id,
  of,
  groups,
  rows,
  active,
  onActive,
  onChoose,
  onCarry,
  onCopy,
}: ListProps): ReactNode {
  const list = useRef<HTMLDivElement>(null)
  const at = active ? rows.indexOf(active) : -1
  useEffect(() => {
    if (at === 0) list.current?.scrollTo({ top: 0 })
    else if (at > 0) document.getElementById(idOfRow(id, at))?.scrollIntoView({ block: 'nearest' })
  }, [id, at])
  let place = 0
  return (
    <div className="st-finder-found">
      <div
        ref={list}
        id={id}
        role="listbox"
        data-of={of}
        aria-label="What was found"
        className="st-finder-list st-scroll"
      >
        {groups.map(({ name, rows: own, count }) => (
          <div key={name} role="group" aria-labelledby={`${id}-of-${name}`} className="st-finder-group">
            <div id={`${id}-of-${name}`} role="presentation" className="st-finder-heading">
              {groupWords[name]}
              {count === null ? null : <span className="st-finder-count">{count.toLocaleString('en')}</span>}
            </div>
            {own.map((row) => (
              <div
                key={row.key}
                id={idOfRow(id, place++)}
                role="option"
                aria-selected={row === active}
                className={canCarry(row) ? 'st-finder-row st-finder-row--carried' : 'st-finder-row'}
                onPointerMove={() => row === active || onActive(row.key)}
                onPointerDown={(event) => event.preventDefault()}
                onClick={() => onChoose(row)}
              >
                <RowContent row={row} />
              </div>
            ))}
          </div>
        ))}
      </div>
      {active && canCarry(active) ? (
        <RowActs list={list} row={idOfRow(id, at)} active={active} onCarry={onCarry} onCopy={onCopy} />
      ) : null}
    </div>
  )
}

interface RowActsProps extends Pick<ListProps, 'onCarry' | 'onCopy'> {
  readonly list: { readonly current: HTMLDivElement | null }
  readonly row: string
  readonly active: FoundRow
}

/** What can be done with the active row beside going there. An option holds no buttons, so they lie over its end. */
function RowActs({ list, row, active, onCarry, onCopy }: RowActsProps) {
  const top = useTopOf(list, row)
  return (
    <div className="st-finder-acts" style={{ top }} onPointerDown={(event) => event.preventDefault()}>
      {canCopy(active) ? (
        <Button look="quiet" icon={CopyIcon} label="Copy" keys={COPY_KEYS} onClick={() => onCopy(active)} />
      ) : null}
      <Button
        look="quiet"
        icon={CarryIcon}
        label="Carry to where I was writing"
        keys={CARRY_KEYS}
        onClick={() => onCarry(active)}
      />
    </div>
  )
}

/** How far below the head of the list a row stands, in CSS pixels, while the list is scrolled. */
function useTopOf(list: RowActsProps['list'], row: string): number {
  const [top, setTop] = useState(0)
  useLayoutEffect(() => {
    const scroller = list.current
    const measure = (): void => {
      const element = document.getElementById(row)
      if (element && scroller)
        setTop(element.getBoundingClientRect().top - scroller.getBoundingClientRect().top)
    }
    measure()
    scroller?.addEventListener('scroll', measure)
    return () => scroller?.removeEventListener('scroll', measure)
  })
  return top
}
