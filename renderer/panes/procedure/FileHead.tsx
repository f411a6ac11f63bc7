/** Which file a part sets down: its path, owner and mode, and the form that says them. */
import type { FileState, Part, Step } from '../../../shared/lab/model.ts'
import { setPartFile } from '../../store/gestures.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { FileForm } from '../journal/files/FileForm.tsx'
import { wordsOfFile } from '../journal/files/FileLine.tsx'
import { beginFilePart, unnamedFile } from './fileParts.ts'
import { setPane, usePane } from './paneStore.ts'

interface FileHeadProps {
  readonly part: Part
  readonly file: FileState
  readonly tabIndex: number
}

export function FileHead({ part, file, tabIndex }: FileHeadProps) {
  const workspace = useWorkspace()
  const isNaming = usePane((state) => state.naming === part.id)
  const close = () => setPane({ naming: null, wanted: { kind: 'part', id: part.id } })
  if (isNaming)
    return (
      <FileForm
        file={file}
        onKeep={(next) => void setPartFile(workspace, part, next).then(close)}
        onCancel={close}
      />
    )
  return (
    <div className="st-file-line">
      <Button
        look="quiet"
        className="st-entry-fact st-file-path"
        label={`${file.path}: which file it is`}
        tabIndex={tabIndex}
        onClick={() => setPane({ naming: part.id })}
      >
        {file.path}
      </Button>
      <span className="st-file-facts">{wordsOfFile(file)}</span>
    </div>
  )
}

/** Asks which file a step is to set down. */
export function NewFile({ step }: { readonly step: Step }) {
  const workspace = useWorkspace()
  const isNaming = usePane((state) => state.naming === step.id)
  if (!isNaming) return null
  return (
    <FileForm
      file={unnamedFile}
      onKeep={(file) => void beginFilePart(workspace, step, file)}
      onCancel={() => setPane({ naming: null, wanted: { kind: 'step', id: step.id } })}
    />
  )
}
