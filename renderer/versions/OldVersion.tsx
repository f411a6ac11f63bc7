/** A version as it stood, to be read and not to be changed. */
import { useMemo } from 'react'
import type { Version } from '../../shared/lab/model.ts'
import { ProcedureToRead } from '../parameters/FilledProcedure.tsx'
import { toShownPlaceholders } from '../parameters/titles.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { TraceIcon } from '../ui/icons.tsx'
import { toShownVersion } from './stated.ts'
import { useStated } from './useStated.ts'

interface OldVersionProps {
  readonly view: ProjectView
  readonly version: Version
}

export function OldVersion({ view, version }: OldVersionProps) {
  const workspace = useWorkspace()
  const stated = useStated(version)
  const shown = useMemo(
    () => (stated && stated !== 'failed' ? toShownVersion(view, version.procedure, stated) : null),
    [view, version, stated],
  )
  const placeholders = useMemo(() => toShownPlaceholders(version.parameters), [version])
  if (stated === 'failed')
    return (
      <ErrorSentence
        happened="The version could not be read."
        safe="Nothing was changed."
        next="Close the list and open it again."
      />
    )
  if (!shown) return <ProgressLine words="Reading the version" share={null} />
  return (
    <>
      <p className="st-version-facts">
        {version.line}, marked {version.marked.slice(0, 10)} {version.marked.slice(11, 16)}. It is read here
        and cannot be changed.
      </p>
      <Button
        look="quiet"
        className="st-flush"
        icon={TraceIcon}
        onClick={() => workspace.set({ panel: null, traced: { kind: 'version', id: version.id } })}
      >
        Trace this version
      </Button>
      <ProcedureToRead
        shown={shown}
        placeholders={placeholders}
        label={`The procedure as it stood in version ${version.number}`}
      />
    </>
  )
}
