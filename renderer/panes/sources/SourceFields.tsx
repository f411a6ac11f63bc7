import { useState, type FormEvent, type KeyboardEvent } from 'react'
import { changeSource } from '../../../shared/lab/acts.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { isStatedDate } from '../../../shared/sources/stated-date.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, TextArea, TextInput } from '../../ui/index.ts'
import { inTurn } from './list/acts.ts'
import { dropTyped, keepTyped, typedFor, type TypedFields } from './list/typedFields.ts'
import { typedAddress } from './matter.ts'
import { titleOf } from './rows.ts'

export interface SourceFieldsProps {
  readonly source: Source
  readonly onClose: () => void
}

/** What is known of a source beside its text, to be put right. Its text and what came of it stay as they are. */
export function SourceFields({ source, onClose }: SourceFieldsProps) {
  const workspace = useWorkspace()
  const [typed, setTyped] = useState<TypedFields>(() => typedFor(workspace, source))
  const [isShown, setShown] = useState(false)
  const troubles = troublesOf(source, typed)
  const change = (fields: Partial<TypedFields>): void => {
    const next = { ...typed, ...fields }
    setTyped(next)
    keepTyped(workspace, source, next)
  }
  const leave = (): void => {
    dropTyped(workspace, source)
    onClose()
  }
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    setShown(true)
    if (troubles.address || troubles.dated) return
    const fields = toFields(source, typed)
    const isChanged = (Object.keys(fields) as (keyof typeof fields)[]).some(
      (key) => fields[key] !== source[key],
    )
    const commit = () => workspace.commit(changeSource(workspace.requireLab().surroundings, source, fields))
    if (!isChanged || (await inTurn(workspace, commit))) leave()
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return
    event.preventDefault()
    event.stopPropagation()
    // What was typed is there again when the fields are opened the next time.
    onClose()
  }
  return (
    <form
      className="st-source-form"
      aria-label={`Rename ${titleOf(source)}`}
      noValidate
      onSubmit={(event) => void save(event)}
      onKeyDown={onKeyDown}
    >
      <TextInput
        label="Title"
        autoFocus
        value={typed.title}
        onChange={({ target }) => change({ title: target.value })}
      />
      <TextInput
        label="Address"
        isMono
        inputMode="url"
        spellCheck={false}
        value={typed.address}
        error={isShown ? troubles.address : undefined}
        onChange={({ target }) => change({ address: target.value })}
      />
      <TextInput
        label="Author"
        value={typed.author}
        onChange={({ target }) => change({ author: target.value })}
      />
      <TextInput
        label="Date of the document"
        hint="A year, a month or a day: 2024, 2024-05 or 2024-05-17."
        value={typed.dated}
        error={isShown ? troubles.dated : undefined}
        onChange={({ target }) => change({ dated: target.value })}
      />
      <TextArea
        label="Remark"
        rows={2}
        value={typed.remark}
        onChange={({ target }) => change({ remark: target.value })}
      />
      <div className="st-button-row">
        <Button look="strong" type="submit">
          Save
        </Button>
        <Button look="quiet" onClick={leave}>
          Leave it as it is
        </Button>
      </div>
    </form>
  )
}

function troublesOf(
  source: Source,
  typed: TypedFields,
): { readonly address: string | undefined; readonly dated: string | undefined } {
  const [address, dated] = [typed.address.trim(), typed.dated.trim()]
  const isWrong = address !== '' && address !== source.address && typedAddress(address) === null
  return {
    address:
      address === '' && source.kind === 'link'
        ? 'A link without text needs its address.'
        : isWrong
          ? 'This is not a whole web address. Write it with http:// or https:// at its head.'
          : undefined,
    dated:
      dated === '' || dated === source.dated || isStatedDate(dated)
        ? undefined
        : 'This is no date. Write a year, a month or a day like 2024, 2024-05 or 2024-05-17.',
  }
}

function toFields(source: Source, typed: TypedFields) {
  const address = typed.address.trim()
  return {
    title: typed.title.trim(),
    address: address === source.address ? source.address : typedAddress(address),
    author: typed.author.trim() || null,
    dated: typed.dated.trim() || null,
    remark: typed.remark.trim(),
  }
}
