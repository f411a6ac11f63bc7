/** Where something happened: machine, user and directory, as far as they are known. */
import { useId, useState, type FormEvent, type ReactNode } from 'react'
import { nameOfWhere, nowhere, tidyPlace } from '../../../shared/journal/places.ts'
import { maybeMachineOf } from '../../../shared/lab/acts.ts'
import type { Machine, Place } from '../../../shared/lab/model.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, TextInput } from '../../ui/index.ts'

export interface PlaceFormProps {
  readonly place: Place | null
  readonly onKeep: (place: Place | null) => void
  readonly onCancel: () => void
  /** A sentence about how far the place reaches. */
  readonly hint: string
  /** What the form is called. */
  readonly label?: string
}

export function PlaceForm({
  place,
  onKeep,
  onCancel,
  hint,
  label = 'Where it happened',
}: PlaceFormProps): ReactNode {
  const machines = useWorkspaceState((state) => state.machines)
  const listed = useId()
  const [where, setWhere] = useState(nameOfWhere(place, machines) ?? '')
  const [user, setUser] = useState(place?.user ?? '')
  const [directory, setDirectory] = useState(place?.directory ?? '')
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    onKeep(tidyPlace({ ...placeCalled(where, machines, place), user, directory }))
  }
  return (
    <form
      className="st-facts-form"
      aria-label={label}
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        onCancel()
      }}
    >
      <div className="st-facts-fields">
        <TextInput
          label="Machine"
          list={listed}
          autoFocus
          value={where}
          onChange={(event) => setWhere(event.target.value)}
        />
        <TextInput label="User" isMono value={user} onChange={(event) => setUser(event.target.value)} />
        <TextInput
          label="Directory"
          isMono
          value={directory}
          onChange={(event) => setDirectory(event.target.value)}
        />
      </div>
      <datalist id={listed}>
        {machines
          .filter(({ setAside }) => !setAside)
          .map(({ id, name }) => (
            <option key={id} value={name} />
          ))}
      </datalist>
      <div className="st-facts-foot">
        <p className="st-field-hint">{hint}</p>
        <span className="st-button-row">
          <Button look="quiet" keys="Escape" onClick={onCancel}>
            Cancel
          </Button>
          <Button type="submit">Keep the place</Button>
        </span>
      </div>
    </form>
  )
}

/** The machine that is called so, else the name alone. A host's name that was there stays while its machine does. */
function placeCalled(where: string, machines: readonly Machine[], before: Place | null): Place {
  const name = where.trim()
  if (name === '') return nowhere
  const machine = machines.find((one) => one.name === name) ?? maybeMachineOf(name, machines)
  if (!machine) return { ...nowhere, host: name }
  return { ...nowhere, machine: machine.id, host: before?.machine === machine.id ? before.host : null }
}
