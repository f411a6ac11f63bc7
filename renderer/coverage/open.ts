/** Opening what is missing: by a line of a menu and by a key. */
import { useEffect } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Workspace } from '../store/workspace.ts'
import { SearchIcon } from '../ui/icons.tsx'
import { isAltLetter } from '../ui/keys.ts'
import type { MenuItem } from '../ui/MenuList.tsx'

/** Opens what is missing in the procedure that is shown. G for gaps. */
export const COVERAGE_KEYS = 'Alt+G'

export function showCoverage(workspace: Workspace, procedure: ProcedureId): void {
  const { panel } = workspace.state
  const isOpen = panel?.kind === 'coverage' && panel.procedure === procedure
  if (!isOpen) workspace.set({ panel: { kind: 'coverage', procedure } })
  // Asked for again while it is open, it takes the keyboard.
  else document.querySelector<HTMLElement>('.st-coverage [data-row][tabindex="0"]')?.focus()
}

export function lineOfCoverage(workspace: Workspace, procedure: ProcedureId): MenuItem {
  return {
    id: 'coverage',
    word: 'What is missing…',
    icon: SearchIcon,
    hint: COVERAGE_KEYS,
    onChoose: () => showCoverage(workspace, procedure),
  }
}

/** Listens for the key while a procedure is shown. */
export function useCoverageKey(workspace: Workspace, procedure: ProcedureId): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'G') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      showCoverage(workspace, procedure)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace, procedure])
}
