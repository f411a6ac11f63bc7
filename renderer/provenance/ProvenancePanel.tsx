/** Provenance of the open project, of its shown procedure or of the whole lab, written out for other programs. */
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { ProvenanceForm } from './ProvenanceForm.tsx'
import type { ScopeKind } from './save.ts'

export function ProvenancePanel({ of }: { readonly of: ScopeKind }) {
  const workspace = useWorkspace()
  const procedure = useWorkspaceState((state) => state.procedure)
  const close = () => workspace.set({ panel: null })
  return (
    <Panel title="Provenance for others" band="procedure" onClose={close}>
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="Provenance for others">
        <ProvenanceForm procedure={procedure} scope={of} isScopeAsked onWritten={close} />
      </div>
    </Panel>
  )
}
