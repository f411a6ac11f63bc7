/** All tags of the lab with how many things carry each, for the field to offer. */
import { useEffect, useMemo, useState } from 'react'
import type { EntryTags } from '../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import { countTags, type OwnTag } from './offers.ts'

const noTags: readonly EntryTags[] = []

export function useOwnTags(): readonly OwnTag[] {
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const projects = useWorkspaceState((state) => state.projects)
  const entries = useEntryTags()
  return useMemo(
    () =>
      countTags([
        ...[...(sources?.values() ?? [])]
          .filter(({ mergedInto }) => mergedInto === null)
          .map(({ tags }) => tags),
        ...projects.map(({ tags }) => tags),
        ...entries.map(({ tags }) => tags),
      ]),
    [sources, projects, entries],
  )
}

/** Those of entries of every project. */
function useEntryTags(): readonly EntryTags[] {
  const lab = useWorkspaceState((state) => state.lab)
  const sequence = useWorkspaceState((state) => state.labSources?.sequence)
  const [all, setAll] = useState(noTags)
  useEffect(() => {
    let isOver = false
    // A lab that is being closed answers nothing more.
    lab?.queries.allEntryTags().then(
      (read) => isOver || setAll(read),
      () => undefined,
    )
    return () => {
      isOver = true
    }
  }, [lab, sequence])
  return all
}
