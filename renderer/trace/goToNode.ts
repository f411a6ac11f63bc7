import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { Workspace } from '../store/workspace.ts'
import type { NodeLabel } from './loadTrace.ts'

/** Goes to a thing with words marked in it; opens its project first where that is another one. The trace stays open. */
export async function goToNode(
  workspace: Workspace,
  node: LinkNode,
  ranges: readonly Range[],
  { projects }: Pick<NodeLabel, 'projects'>,
): Promise<void> {
  const { traced, view } = workspace.state
  const [project] = projects
  if (project && view && !projects.includes(view.project)) {
    await workspace.openProject(project)
    workspace.set({ traced })
  }
  workspace.goTo(node, ranges)
}
