/** Tells all texts of a procedure within it what their placeholders stand for, and listens to what is selected. */
import { useEffect, useMemo, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { parametersOf, type ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { PlaceholderContext } from '../ui/placeholders.tsx'
import { OpenParameterForm } from './ParameterForm.tsx'
import { noteSelections } from './selected.ts'
import { toShownPlaceholders } from './titles.ts'

interface WithParametersProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly children: ReactNode
}

export function WithParameters({ view, procedure, children }: WithParametersProps): ReactNode {
  const workspace = useWorkspace()
  const parameters = parametersOf(view, procedure)
  const shown = useMemo(() => toShownPlaceholders(parameters), [parameters])
  useEffect(() => noteSelections((part) => workspace.state.view?.texts.get(part)), [workspace])
  return (
    <PlaceholderContext value={shown}>
      {children}
      <OpenParameterForm view={view} />
    </PlaceholderContext>
  )
}
