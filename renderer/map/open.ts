/** Opening the map: by a line of the project's menu and by a key. */
import { useEffect } from 'react'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { TraceIcon } from '../ui/icons.tsx'
import { isAltLetter } from '../ui/keys.ts'
import type { MenuItem } from '../ui/MenuList.tsx'

/** V for the view over everything. */
export const MAP_KEYS = 'Alt+V'

function openMap(workspace: Workspace): void {
  if (workspace.state.panel?.kind !== 'map') workspace.set({ panel: { kind: 'map' } })
  // Asked for again while it is open, it takes the keyboard.
  else document.querySelector<SVGElement>('.st-map [data-sign][tabindex="0"]')?.focus()
}

export function lineOfMap(workspace: Workspace): MenuItem {
  return {
    id: 'map',
    word: 'Map of the project',
    icon: TraceIcon,
    hint: MAP_KEYS,
    onChoose: () => openMap(workspace),
  }
}

/** Listens for the key while a project is shown. */
export function useMapKey(): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'V') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      openMap(workspace)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [workspace])
}
