/** Something read of the whole lab while it is shown, read again after every Change. */
import { useEffect, useState } from 'react'
import type { OpenLab } from '../db/lab.ts'
import { useWorkspace, useWorkspaceState } from './useWorkspace.ts'

/**
 * @param read must be the same function from one drawing to the next
 * @returns undefined until it is read; 'failed' where it could not be
 */
export function useLabRead<T>(read: (lab: OpenLab) => Promise<T>): T | 'failed' | undefined {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab)
  const sequence = useWorkspaceState((state) => state.labSources?.sequence)
  const [value, setValue] = useState<T | 'failed' | undefined>(undefined)
  useEffect(() => {
    let isOver = false
    void read(workspace.requireLab())
      .catch((error: unknown) => {
        console.error(error)
        return 'failed' as const
      })
      .then((next) => {
        if (!isOver) setValue(() => next)
      })
    return () => {
      isOver = true
    }
  }, [workspace, lab, sequence, read])
  return value
}
