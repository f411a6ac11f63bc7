/** Chooses a kind other than the usual one. */
import { useId, useRef, type KeyboardEvent } from 'react'
import type { KindFace } from '../../ui/kinds.ts'
import { nextPlace } from '../../ui/roving.ts'

export interface KindRowProps<K extends string> {
  readonly label: string
  readonly kinds: readonly K[]
  readonly faces: Readonly<Record<K, KindFace>>
  /** What it becomes unless the person chooses another. */
  readonly usual: K
  /** null while nothing else was chosen. */
  readonly value: K | null
  readonly onChange: (kind: K | null) => void
}

/** A radio group (WAI-ARIA APG): one stop for Tab, arrows move and choose. */
export function KindRow<K extends string>({ label, kinds, faces, usual, value, onChange }: KindRowProps<K>) {
  const id = useId()
  const row = useRef<HTMLDivElement>(null)
  const chosen = value ?? usual
  const choose = (kind: K) => onChange(kind === usual ? null : kind)
  const onKeyDown = (event: KeyboardEvent) => {
    const place = nextPlace(event.key, kinds.indexOf(chosen), kinds.length, 'both')
    const kind = place === null ? undefined : kinds[place]
    if (kind === undefined) return
    event.preventDefault()
    choose(kind)
    row.current?.querySelectorAll<HTMLElement>('[role="radio"]')[place!]?.focus()
  }
  return (
    <div className="st-kind-row">
      <span id={id} className="st-kind-row-label">
        {label}
      </span>
      <div
        ref={row}
        role="radiogroup"
        aria-labelledby={id}
        className="st-kind-row-kinds"
        onKeyDown={onKeyDown}
      >
        {kinds.map((kind) => (
          <KindOption
            key={kind}
            face={faces[kind]}
            isChosen={kind === chosen}
            isUsual={kind === usual}
            onChoose={() => choose(kind)}
          />
        ))}
      </div>
    </div>
  )
}

interface KindOptionProps {
  readonly face: KindFace
  readonly isChosen: boolean
  readonly isUsual: boolean
  readonly onChoose: () => void
}

function KindOption({ face: { word, icon: Picture }, isChosen, isUsual, onChoose }: KindOptionProps) {
  return (
    <button
      type="button"
      role="radio"
      aria-checked={isChosen}
      tabIndex={isChosen ? 0 : -1}
      className="st-kind-row-kind"
      onClick={onChoose}
    >
      <Picture weight={isChosen ? 'fill' : 'regular'} />
      {word}
      {isUsual ? <span className="st-kind-row-usual">usual</span> : null}
    </button>
  )
}
