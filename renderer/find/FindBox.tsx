/** The box while it is open, its key, and its button in the top bar. */
import { useEffect, useRef, type ReactNode } from 'react'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { SearchIcon } from '../ui/icons.tsx'
import { FindPanel } from './FindPanel.tsx'
import { FIND_KEYS, leaveFind, openFind, useFindKey } from './open.ts'
import { forgetTyped, useFind } from './state.ts'

export function FindBox(): ReactNode {
  const isOpen = useFind((state) => state.isOpen)
  useFindKey()
  useForgetting()
  useClosedElsewhere(isOpen)
  return isOpen ? <FindPanel /> : null
}

export function FindButton(): ReactNode {
  const isOpen = useFind((state) => state.isOpen)
  return (
    <Button
      look="quiet"
      icon={SearchIcon}
      keys={FIND_KEYS}
      aria-expanded={isOpen}
      // The keyboard stays where it is: that is where what is found may be carried to.
      onPointerDown={(event) => event.preventDefault()}
      onClick={openFind}
    >
      Find
    </Button>
  )
}

/** What was looked for in one lab is nobody's business in another; and it may be what was struck out. */
function useForgetting(): void {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab)
  useEffect(() => () => forgetTyped(), [lab])
  useEffect(() => workspace.textsStruck.on(forgetTyped), [workspace])
}

/** Who goes on elsewhere, to the composer for instance, has no more use for the box, and a text that waited is left. */
function useClosedElsewhere(isOpen: boolean): void {
  const wasInside = useRef(false)
  useEffect(() => {
    if (!isOpen) return undefined
    wasInside.current = false
    const onFocus = ({ target }: FocusEvent): void => {
      const isInside =
        target instanceof Element && target.closest('.st-finder, .st-notices, .st-topbar') !== null
      if (wasInside.current && !isInside) leaveFind()
      wasInside.current ||= isInside
    }
    document.addEventListener('focusin', onFocus)
    return () => document.removeEventListener('focusin', onFocus)
  }, [isOpen])
}
