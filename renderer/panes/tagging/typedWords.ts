/** Words that were typed into a field for tags and are no tag yet: kept while the window lives, so that they are not lost. */
import type { Workspace } from '../../store/workspace.ts'

const typed = new WeakMap<Workspace, Map<string, string>>()

export function typedFor(workspace: Workspace, node: string): string {
  return typed.get(workspace)?.get(node) ?? ''
}

export function keepTyped(workspace: Workspace, node: string, words: string): void {
  const all = typed.get(workspace) ?? new Map<string, string>()
  typed.set(workspace, all)
  if (words.trim() === '') all.delete(node)
  else all.set(node, words)
}
