/** What can stand behind the names of filters in the lab that is open. */
import { useMemo } from 'react'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import type { FilterValues } from './completions.ts'

export function useFilterValues(): FilterValues {
  const projects = useWorkspaceState((state) => state.projects)
  const machines = useWorkspaceState((state) => state.machines)
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const entryTags = useWorkspaceState((state) => state.view?.entryTags)
  return useMemo(() => {
    const tags = [
      ...projects.flatMap((project) => project.tags),
      ...[...(sources?.values() ?? [])].flatMap((source) => source.tags),
      ...[...(entryTags?.values() ?? [])].flatMap((one) => one.tags),
    ]
    return {
      projects: projects.map(({ title }) => title),
      tags: [...new Set(tags)].sort((one, other) => one.localeCompare(other)),
      places: [...new Set(machines.flatMap(({ name, aliases }) => [name, ...aliases]))],
    }
  }, [projects, machines, sources, entryTags])
}
