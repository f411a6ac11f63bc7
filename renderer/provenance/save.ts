/** Writes provenance into a file that the person names. */
import { toFileName, type HostResult } from '../../shared/host.ts'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { provForms, type ProvForm } from '../../shared/provenance/prov/forms.ts'
import type { Scope } from '../../shared/provenance/prov/scope.ts'
import { letFileOut } from '../leaving/index.ts'
import type { Workspace } from '../store/workspace.ts'
import { askProvenanceWorker } from '../workers/provenance.ts'

export type ScopeKind = Scope['kind']

/** @param procedure the one that is meant where the scope is a procedure */
export async function saveProvenance(
  workspace: Workspace,
  kind: ScopeKind,
  form: ProvForm,
  procedure: ProcedureId | null,
): Promise<HostResult<{ kind: 'saved'; name: string } | { kind: 'cancelled' }>> {
  await workspace.flushTexts()
  const scope = scopeOf(workspace, kind, procedure)
  const written = await askProvenanceWorker({ lab: workspace.requireLab().id, scope, form })
  if (!written.ok)
    return { ok: false, code: 'not written', sentence: `The lab could not be read (${written.reason}).` }
  const { ending, mediaType } = provForms[form]
  return letFileOut(
    workspace,
    { found: written.found, what: 'The provenance' },
    {
      suggestedName: `${toFileName(`Provenance of ${titleOf(workspace, scope)}`, 'Provenance')}.${ending}`,
      mediaType,
      bytes: written.bytes,
    },
  )
}

function scopeOf(workspace: Workspace, kind: ScopeKind, procedure: ProcedureId | null): Scope {
  if (kind === 'procedure' && procedure) return { kind, id: procedure }
  return kind === 'lab' ? { kind } : { kind: 'project', id: workspace.requireView().project }
}

function titleOf({ state }: Workspace, scope: Scope): string {
  switch (scope.kind) {
    case 'lab':
      return state.labs.find(({ id }) => id === state.lab?.id)?.name ?? 'a lab'
    case 'project':
      return state.projects.find(({ id }) => id === scope.id)?.title ?? 'a project'
    case 'procedure':
      return titleOfProcedure(state.view, scope.id)
  }
}

function titleOfProcedure(view: Workspace['state']['view'], id: ProcedureId): string {
  if (!view) return 'a procedure'
  for (const part of view.parts.values())
    if (part.procedure === id && part.kind === 'title')
      return plainWords(view.texts.get(part.id) ?? '', 80) || 'a procedure'
  return 'a procedure'
}
