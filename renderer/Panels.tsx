/** The panel that is open beside the panes. Each kind has its component here. */
import type { ReactNode } from 'react'
import type { OpenPanel } from './store/panels.ts'
import { useWorkspaceState } from './store/useWorkspace.ts'

export function OpenedPanel(): ReactNode {
  const panel = useWorkspaceState((state) => state.panel)
  return panel ? panelOf(panel) : null
}

function panelOf(panel: OpenPanel): ReactNode {
  switch (panel.kind) {
    case 'machines':
    case 'problems':
    case 'logs':
    case 'seal':
    case 'file':
    case 'help':
      return null
  }
}
