/** Where the pane is asked to go: a source, one of its captures, words to mark. */
import { useEffect, useState } from 'react'
import type { CaptureId, SourceId } from '../../../shared/lab/ids.ts'
import type { Range } from '../../../shared/lab/model.ts'
import { standingSource } from '../../store/labSources.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { Focus, Workspace } from '../../store/workspace.ts'

export interface Goal {
  readonly source: SourceId
  /** null for the newest. */
  readonly capture: CaptureId | null
  readonly ranges: readonly Range[]
  readonly serial: number
}

/** The last place in this pane that somebody asked for. Also opens its source for reading. */
export function useGoal(): Goal | null {
  const workspace = useWorkspace()
  const focus = useWorkspaceState((state) => state.focus)
  const [goal, setGoal] = useState<Goal | null>(null)
  useEffect(() => {
    let isOver = false
    if (focus)
      void findGoal(workspace, focus).then((found) => {
        if (isOver || !found) return
        setGoal(found)
        workspace.set({ source: found.source })
      })
    return () => {
      isOver = true
    }
  }, [workspace, focus])
  return goal
}

async function findGoal(workspace: Workspace, { node, ranges, serial }: Focus): Promise<Goal | null> {
  if (node.kind === 'source')
    return { source: standing(workspace, node.id), capture: null, ranges: [], serial }
  if (node.kind !== 'capture') return null
  const known = workspace.state.labSources?.heads.get(node.id)
  const capture = known ?? (await workspace.requireLab().queries.captureHead(node.id))
  return capture ? { source: standing(workspace, capture.source), capture: capture.id, ranges, serial } : null
}

/** A source that was merged into another is read as that one; the capture that was asked for is opened all the same. */
function standing(workspace: Workspace, id: SourceId): SourceId {
  const { labSources } = workspace.state
  const source = labSources?.sources.get(id)
  return labSources && source ? standingSource(labSources, source).id : id
}
