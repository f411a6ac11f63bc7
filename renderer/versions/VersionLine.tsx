/** At a procedure's head: which version was marked last, and how the working copy differs from it. */
import { useDeferredValue, useMemo, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { compareVersions } from '../../shared/procedure/versions/compare.ts'
import { wordsOfDifference } from '../../shared/procedure/versions/words.ts'
import { versionsOf, type ProjectView } from '../store/view.ts'
import type { FoundVersion } from '../store/panels.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Button } from '../ui/index.ts'
import { VersionIcon } from '../ui/icons.tsx'
import { standingStated } from './stated.ts'
import { useStated } from './useStated.ts'
import './versions.css'

interface VersionLineProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
}

/** Nothing is shown while no version is marked. */
export function VersionLine({ view, procedure }: VersionLineProps): ReactNode {
  const workspace = useWorkspace()
  // What is being typed goes first; the line follows.
  const later = useDeferredValue(view)
  const last = versionsOf(later, procedure).at(-1) ?? null
  const stated = useStated(last)
  const words = useMemo(() => {
    if (!stated || stated === 'failed' || !last) return null
    const difference = compareVersions(stated, standingStated(later, procedure))
    return difference.isSame
      ? `As marked in version ${last.number}`
      : `Differs from version ${last.number}: ${wordsOfDifference(difference)}`
  }, [stated, last, later, procedure])
  if (!last) return null
  return (
    <Button
      look="quiet"
      icon={VersionIcon}
      className="st-version-line"
      onClick={() => showVersions(workspace, procedure)}
    >
      {words ?? `Version ${last.number}`}
    </Button>
  )
}

/** @param found one of them that was looked for */
export function showVersions(
  workspace: Workspace,
  procedure: ProcedureId,
  found: FoundVersion | null = null,
): void {
  workspace.set({ panel: { kind: 'versions', procedure, found } })
}
