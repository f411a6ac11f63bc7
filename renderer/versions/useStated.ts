/** Versions with their texts, read once each: a version never changes. */
import { useEffect, useState } from 'react'
import type { Version } from '../../shared/lab/model.ts'
import type { Stated } from '../../shared/procedure/versions/compare.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { readStated } from './stated.ts'

/** @returns undefined until it is read; 'failed' where it could not be; null for no version */
export function useStated(version: Version | null): Stated | 'failed' | null | undefined {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab)
  const [read, setRead] = useState<{ of: Version; stated: Stated | 'failed' } | null>(null)
  useEffect(() => {
    if (!version) return undefined
    let isOver = false
    void readStated(workspace.requireLab().queries, version)
      .catch((error: unknown) => {
        console.error(error)
        return 'failed' as const
      })
      .then((stated) => {
        if (!isOver) setRead({ of: version, stated })
      })
    return () => {
      isOver = true
    }
  }, [workspace, lab, version])
  if (!version) return null
  return read?.of === version ? read.stated : undefined
}
