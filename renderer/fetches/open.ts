/** Opening the list of what to fetch beforehand: by a line of a menu and by a key. */
import { useEffect } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Workspace } from '../store/workspace.ts'
import { FetchIcon } from '../ui/icons.tsx'
import { isAltLetter } from '../ui/keys.ts'
import type { MenuItem } from '../ui/MenuList.tsx'

/** Opens the list of the procedure that is shown. B for beforehand. */
export const FETCHES_KEYS = 'Alt+B'

export function showFetches(workspace: Workspace, procedure: ProcedureId): void {
  workspace.set({ panel: { kind: 'fetches', procedure } })
}

export function lineOfFetches(workspace: Workspace, procedure: ProcedureId): MenuItem {
  return {
    id: 'fetches',
    word: 'To fetch beforehand…',
    icon: FetchIcon,
    hint: FETCHES_KEYS,
    onChoose: () => showFetches(workspace, procedure),
  }
}

/** Listens for the key while a procedure is shown. */
export function useFetchesKey(workspace: Workspace, procedure: ProcedureId): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'B') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      showFetches(workspace, procedure)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace, procedure])
}
