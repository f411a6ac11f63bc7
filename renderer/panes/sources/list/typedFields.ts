/** What was typed about a source and is not saved yet: kept while the window lives, so that it is not lost. */
import type { Source } from '../../../../shared/lab/model.ts'
import type { Workspace } from '../../../store/workspace.ts'

export interface TypedFields {
  readonly title: string
  readonly address: string
  readonly author: string
  readonly dated: string
  readonly remark: string
}

const typed = new WeakMap<Workspace, Map<string, TypedFields>>()

/** What was typed for a source before; as it stands where nothing was. */
export function typedFor(
  workspace: Workspace,
  { id, title, address, author, dated, remark }: Source,
): TypedFields {
  const stands = { title, address: address ?? '', author: author ?? '', dated: dated ?? '', remark }
  return typed.get(workspace)?.get(id) ?? stands
}

export function keepTyped(workspace: Workspace, { id }: Source, fields: TypedFields): void {
  const all = typed.get(workspace) ?? new Map<string, TypedFields>()
  typed.set(workspace, all)
  all.set(id, fields)
}

export function dropTyped(workspace: Workspace, { id }: Source): void {
  typed.get(workspace)?.delete(id)
}
