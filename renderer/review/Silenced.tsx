/** A folded list of what was passed over, each line with its reason and one act, by a key and by a button. */
import type { ReactNode } from 'react'
import { Button } from '../ui/index.ts'
import { useListKeyboard } from './useListKeyboard.ts'

export interface SilencedLine {
  readonly key: string
  /** The rule's name. */
  readonly rule: string
  readonly where: string
  readonly words: ReactNode
  readonly reason: string
  readonly onAct: () => void
}

interface SilencedProps {
  readonly name: string
  readonly lines: readonly SilencedLine[]
  /** The letter of the act, a capital, and its words. */
  readonly act: { readonly letter: string; readonly words: string }
  readonly children?: ReactNode
}

export function Silenced({ name, lines, act, children }: SilencedProps) {
  const { stop, attributes } = useListKeyboard(
    lines.map(({ key }) => key),
    null,
  )
  if (lines.length === 0) return null
  return (
    <details className="st-passed-over">
      <summary>
        {name}, {lines.length}
      </summary>
      {children}
      <div {...attributes} tabIndex={-1} role="group" aria-label={name}>
        <ul className="st-findings">
          {lines.map(({ key, rule, where, words, reason, onAct }) => (
            <li
              key={key}
              className="st-finding"
              data-key={key}
              tabIndex={key === stop ? 0 : -1}
              aria-label={rule}
              aria-keyshortcuts={act.letter}
              onKeyDown={(event) => {
                if (event.key.toUpperCase() !== act.letter) return
                if (event.altKey || event.ctrlKey || event.metaKey) return
                event.preventDefault()
                onAct()
              }}
            >
              <p className="st-finding-rule">{rule}</p>
              <p className="st-finding-part">{where}</p>
              {words}
              <p className="st-finding-sentence">
                <span className="st-finding-part">Reason: </span>
                {reason}
              </p>
              <span className="st-finding-acts">
                <Button look="quiet" keys={act.letter} tabIndex={key === stop ? 0 : -1} onClick={onAct}>
                  {act.words}
                </Button>
              </span>
            </li>
          ))}
        </ul>
      </div>
    </details>
  )
}
