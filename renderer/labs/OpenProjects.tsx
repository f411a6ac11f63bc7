/** The projects that are open in this window, so that one press leads from one to another and back. */
import { useEffect, useRef, type ReactNode } from 'react'
import type { ProjectId } from '../../shared/lab/ids.ts'
import { useOffered } from '../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { CloseIcon } from '../ui/icons.tsx'

/** The keys that lead to the open project before and after. */
export const PROJECT_KEYS = 'Alt+PageUp, Alt+PageDown'

export function OpenProjects(): ReactNode {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const open = useWorkspaceState((state) => state.openProjects)
  const shown = useWorkspaceState((state) => state.view?.project)
  useProjectKeys(open, shown, (id) => void workspace.openProject(id))
  const titleOf = (id: ProjectId): string => projects.find((one) => one.id === id)?.title ?? ''
  useOffered(() => ({
    about: 'Open projects',
    lines: (open.length < 2 ? [] : open).map((id) => ({
      id: `put away ${id}`,
      word: `Put ${titleOf(id)} away`,
      icon: CloseIcon,
      onChoose: () => void workspace.closeProject(id),
    })),
  }))
  if (open.length < 2) return null
  return (
    <nav className="st-open-projects" aria-label="Open projects">
      {open.map((id) => (
        <span key={id} className="st-open-project" data-shown={id === shown}>
          <Button
            look="quiet"
            className="st-open-project-name"
            aria-current={id === shown ? 'page' : undefined}
            onClick={() => void workspace.openProject(id)}
          >
            {titleOf(id)}
          </Button>
          <Button
            look="quiet"
            icon={CloseIcon}
            label={`Put ${titleOf(id)} away`}
            onClick={() => void workspace.closeProject(id)}
          />
        </span>
      ))}
    </nav>
  )
}

function useProjectKeys(
  open: readonly ProjectId[],
  shown: ProjectId | undefined,
  onGo: (id: ProjectId) => void,
): void {
  const latest = useRef({ open, shown, onGo })
  useEffect(() => {
    latest.current = { open, shown, onGo }
  })
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!event.altKey || event.ctrlKey || event.metaKey || !/^Page(Up|Down)$/.test(event.key)) return
      const { open: all, shown: now, onGo: go } = latest.current
      if (all.length < 2 || document.querySelector('dialog:modal')) return
      event.preventDefault()
      const at = all.findIndex((id) => id === now)
      go(all[(at + (event.key === 'PageUp' ? all.length - 1 : 1)) % all.length]!)
    }
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [])
}
