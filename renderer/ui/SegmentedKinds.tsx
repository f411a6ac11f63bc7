import { useRef, type KeyboardEvent } from 'react'
import { entryKinds, type EntryKind } from '../../shared/lab/model.ts'
import { entryKindFaces } from './kinds.ts'
import { nextPlace } from './roving.ts'
import { Tooltip } from './Tooltip.tsx'

export interface SegmentedKindsProps {
  readonly value: EntryKind
  readonly onChange: (kind: EntryKind) => void
  /** Names the group for assistive technology. */
  readonly label?: string
}

/**
 * The entry kinds as one radio group (WAI-ARIA APG, radio group pattern: one stop for Tab, arrows move and choose).
 * It shows the keys Alt+1 to Alt+8; whoever owns the composer listens for them, see `kindOfKey`.
 */
export function SegmentedKinds({ value, onChange, label = 'Kind of entry' }: SegmentedKindsProps) {
  const group = useRef<HTMLDivElement>(null)
  const onKeyDown = (event: KeyboardEvent) => {
    const place = nextPlace(event.key, entryKinds.indexOf(value), entryKinds.length, 'both')
    const kind = place === null ? undefined : entryKinds[place]
    if (kind === undefined) return
    event.preventDefault()
    onChange(kind)
    group.current?.querySelector<HTMLElement>(`[data-kind="${kind}"]`)?.focus()
  }
  return (
    <div ref={group} className="st-kinds" role="radiogroup" aria-label={label} onKeyDown={onKeyDown}>
      {entryKinds.map((kind) => (
        <KindChoice key={kind} kind={kind} isChosen={kind === value} onChoose={() => onChange(kind)} />
      ))}
    </div>
  )
}

interface KindChoiceProps {
  readonly kind: EntryKind
  readonly isChosen: boolean
  readonly onChoose: () => void
}

function KindChoice({ kind, isChosen, onChoose }: KindChoiceProps) {
  const { word, icon: Picture, digit, hint } = entryKindFaces[kind]
  return (
    <Tooltip words={`${word}: ${hint}`} keys={`Alt+${digit}`} side="above">
      <button
        type="button"
        role="radio"
        aria-checked={isChosen}
        aria-label={word}
        aria-keyshortcuts={`Alt+${digit}`}
        tabIndex={isChosen ? 0 : -1}
        className={`st-kind-choice st-kind--${kind}`}
        data-kind={kind}
        onClick={onChoose}
      >
        <Picture weight={isChosen ? 'fill' : 'regular'} />
        <span className="st-kind-choice-word">{word}</span>
        <span className="st-kind-choice-digit" aria-hidden="true">
          {digit}
        </span>
      </button>
    </Tooltip>
  )
}

/** The kind that a key press asks for: Alt with the digit, wherever that digit stands on the keyboard; else null. */
export function kindOfKey(
  event: Pick<globalThis.KeyboardEvent, 'altKey' | 'ctrlKey' | 'metaKey' | 'code'>,
): EntryKind | null {
  if (!event.altKey || event.ctrlKey || event.metaKey) return null
  const digit = /^(?:Digit|Numpad)([1-8])$/.exec(event.code)?.[1]
  return entryKinds.find((kind) => entryKindFaces[kind].digit === digit) ?? null
}
