/** The keys of the box, at its foot. */
import type { ReactNode } from 'react'
import { Kbd } from '../ui/index.ts'
import type { FoundRow } from './groups.ts'

export const CARRY_KEYS = 'Ctrl+Enter'
export const COPY_KEYS = 'Ctrl+C'

export const canCarry = ({ is }: FoundRow): boolean => is === 'hit' || is === 'command' || is === 'answer'
export const canCopy = ({ is }: FoundRow): boolean => is === 'command'

export function Foot({ active }: { readonly active: FoundRow | undefined }): ReactNode {
  return (
    <p className="st-finder-foot">
      <span>
        <Kbd keys="↑" /> <Kbd keys="↓" /> rows, <Kbd keys="PageDown" /> next group
      </span>
      <span>
        <Kbd keys="Enter" /> {wordOfEnter(active)}
      </span>
      {active && canCarry(active) ? (
        <span>
          <Kbd keys={CARRY_KEYS} /> carries it to where you were writing
        </span>
      ) : null}
      {active && canCopy(active) ? (
        <span>
          <Kbd keys={COPY_KEYS} /> copies
        </span>
      ) : null}
      <span>
        <Kbd keys="Escape" /> goes back
      </span>
    </p>
  )
}

function wordOfEnter(active: FoundRow | undefined): string {
  switch (active?.is) {
    case 'completion':
      return 'takes the filter'
    case 'more':
      return 'shows more'
    case 'act':
      return 'does it'
    case 'hit':
    case 'command':
    case 'answer':
    case 'answer step':
    case undefined:
      return 'goes there'
  }
}
