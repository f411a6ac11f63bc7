import { useState, type FormEvent, type KeyboardEvent } from 'react'
import { changeSource } from '../../../shared/lab/acts.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, TextInput } from '../../ui/index.ts'
import { typedAddress } from './matter.ts'
import { titleOf } from './rows.ts'

export interface SourceFieldsProps {
  readonly source: Source
  readonly onClose: () => void
}

/** Another title or address for a source. Its text and what came of it stay as they are. */
export function SourceFields({ source, onClose }: SourceFieldsProps) {
  const workspace = useWorkspace()
  const [title, setTitle] = useState(source.title)
  const [address, setAddress] = useState(source.address ?? '')
  const isWrong = address.trim() !== '' && address.trim() !== source.address && typedAddress(address) === null
  const isMissing = address.trim() === '' && source.kind === 'link'
  const [isShown, setShown] = useState(false)
  const save = async (event: FormEvent) => {
    event.preventDefault()
    setShown(true)
    if (isWrong || isMissing) return
    const fields = {
      title: title.trim(),
      address: address.trim() === source.address ? source.address : typedAddress(address),
    }
    const isChanged = fields.title !== source.title || fields.address !== source.address
    if (
      !isChanged ||
      (await workspace.commit(changeSource(workspace.requireLab().surroundings, source, fields)))
    )
      onClose()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return
    event.preventDefault()
    event.stopPropagation()
    onClose()
  }
  const error = isMissing
    ? 'A link without text needs its address.'
    : isWrong
      ? 'This is not a whole web address. Write it with http:// or https:// at its head.'
      : undefined
  return (
    <form
      className="st-source-form"
      aria-label={`Rename ${titleOf(source)}`}
      noValidate
      onSubmit={(event) => void save(event)}
      onKeyDown={onKeyDown}
    >
      <TextInput label="Title" autoFocus value={title} onChange={({ target }) => setTitle(target.value)} />
      <TextInput
        label="Address"
        isMono
        inputMode="url"
        spellCheck={false}
        value={address}
        error={isShown ? error : undefined}
        onChange={({ target }) => setAddress(target.value)}
      />
      <div className="st-button-row">
        <Button look="strong" type="submit">
          Save
        </Button>
        <Button look="quiet" onClick={onClose}>
          Leave it as it is
        </Button>
      </div>
    </form>
  )
}
