/** Opening a draft: by lines of menus, by a key, and from the journal at an entry. */
import { useEffect } from 'react'
import type { EntryId } from '../../shared/lab/ids.ts'
import type { Workspace } from '../store/workspace.ts'
import { OutlineIcon } from '../ui/icons.tsx'
import { isAltLetter } from '../ui/keys.ts'
import type { MenuItem } from '../ui/MenuList.tsx'

/** Opens a draft for the procedure that is shown. D for draft. */
export const DRAFT_KEYS = 'Alt+D'

/** @param from the entry from which on all are chosen; null for the path that worked */
export function showDraft(workspace: Workspace, from: EntryId | null = null): void {
  workspace.set({ panel: { kind: 'draft', from } })
}

export function lineOfDraft(workspace: Workspace): MenuItem {
  return {
    id: 'draft',
    word: 'Draft steps from the journal…',
    icon: OutlineIcon,
    hint: DRAFT_KEYS,
    onChoose: () => showDraft(workspace),
  }
}

/** For the menu of an entry. */
export function lineOfDraftFrom(workspace: Workspace, entry: EntryId): MenuItem {
  return {
    id: 'draft',
    word: 'Draft steps from here on…',
    icon: OutlineIcon,
    onChoose: () => showDraft(workspace, entry),
  }
}

/** Listens for the key while the procedure's pane is shown. */
export function useDraftKey(workspace: Workspace): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'D') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      showDraft(workspace)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace])
}
