/** Going to the far end of a link. */
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { Workspace } from '../store/workspace.ts'
import { goToNode } from '../trace/goToNode.ts'
import { loadLabel } from '../trace/loadTrace.ts'

/** Goes to a thing with words marked in it; opens its project first where that is another one. @returns whether it is there */
export async function goToEnd(
  workspace: Workspace,
  node: LinkNode,
  ranges: readonly Range[],
): Promise<boolean> {
  if (isInProject(workspace, node)) {
    workspace.goTo(node, ranges)
    return true
  }
  const label = await loadLabel(workspace.requireLab(), node)
  if (label.state === 'gone') return false
  await goToNode(workspace, node, ranges, label)
  return true
}

function isInProject(workspace: Workspace, { kind, id }: LinkNode): boolean {
  const view = workspace.requireView()
  switch (kind) {
    case 'entry':
      return view.entries.has(id)
    case 'part':
      return view.parts.has(id)
    case 'capture':
      return view.captures.has(id)
    case 'source':
      return view.sources.has(id)
  }
}
