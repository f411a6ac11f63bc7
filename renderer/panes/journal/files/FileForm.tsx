/** Which file an entry speaks of: its path, owner, group and mode. */
import { useState, type FormEvent, type ReactNode } from 'react'
import { maybeMode } from '../../../../shared/journal/files/mode.ts'
import type { FileState } from '../../../../shared/lab/model.ts'
import { Button, TextInput } from '../../../ui/index.ts'

export interface FileFormProps {
  readonly file: FileState
  readonly onKeep: (file: FileState) => void
  readonly onCancel: () => void
}

export function FileForm({ file, onKeep, onCancel }: FileFormProps): ReactNode {
  const [path, setPath] = useState(file.path)
  const [owner, setOwner] = useState(file.owner ?? '')
  const [group, setGroup] = useState(file.group ?? '')
  const [mode, setMode] = useState(file.mode ?? '')
  const known = mode.trim() === '' ? null : maybeMode(mode.trim())
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    if (known === undefined || path.trim() === '') return
    onKeep({
      ...file,
      path: path.trim(),
      owner: owner.trim() || null,
      group: group.trim() || null,
      mode: known,
    })
  }
  return (
    <form
      className="st-facts-form"
      aria-label="Which file it is"
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        onCancel()
      }}
    >
      <TextInput
        label="Path"
        isMono
        autoFocus
        value={path}
        onChange={(event) => setPath(event.target.value)}
      />
      <div className="st-facts-fields">
        <TextInput label="Owner" isMono value={owner} onChange={(event) => setOwner(event.target.value)} />
        <TextInput label="Group" isMono value={group} onChange={(event) => setGroup(event.target.value)} />
        <TextInput
          label="Mode"
          isMono
          value={mode}
          error={known === undefined ? 'Write it as 0644 or as rw-r--r--.' : undefined}
          onChange={(event) => setMode(event.target.value)}
        />
      </div>
      <div className="st-facts-foot">
        <p className="st-field-hint">A pasted unified diff is kept as a difference.</p>
        <span className="st-button-row">
          <Button look="quiet" keys="Escape" onClick={onCancel}>
            Cancel
          </Button>
          <Button type="submit" disabled={path.trim() === ''}>
            Keep
          </Button>
        </span>
      </div>
    </form>
  )
}
