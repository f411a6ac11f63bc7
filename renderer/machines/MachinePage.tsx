/** One machine: what is known of it, and all that happened on it in order. */
import { useMemo, useState, type ReactNode } from 'react'
import { eventsOn, type MachineEvent, type PlacedEntries } from '../../shared/journal/machine-events.ts'
import { changeMachine, removeMachine, type MachineFields } from '../../shared/lab/acts.ts'
import { isSame } from '../../shared/lab/fields.ts'
import type { Machine } from '../../shared/lab/model.ts'
import { offerUndo } from '../store/gestures.ts'
import { goToEntry } from '../store/goToEntry.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, entryKindFaces, TextArea, TextInput } from '../ui/index.ts'

export interface MachinePageProps {
  readonly machine: Machine
  readonly placed: PlacedEntries
}

export function MachinePage({ machine, placed }: MachinePageProps): ReactNode {
  const machines = useWorkspaceState((state) => state.machines)
  const events = useMemo(() => eventsOn(machine, placed, machines), [machine, placed, machines])
  return (
    <>
      <Facts machine={machine} isUsed={events.length > 0} />
      <h3 className="st-trace-heading">What happened on it, {events.length}</h3>
      {events.length === 0 ? (
        <p className="st-field-hint">
          Entries whose place is this machine stand here, of every project. Set the place above the composer.
        </p>
      ) : (
        <ol className="st-machine-events">
          {events.map((event) => (
            <EventRow key={event.entry.id} event={event} />
          ))}
        </ol>
      )}
    </>
  )
}

function EventRow({ event: { entry, at } }: { readonly event: MachineEvent }) {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const here = useWorkspaceState((state) => state.view?.project === entry.project)
  const text = useWorkspaceState((state) => state.view?.texts.get(entry.id))
  const { word, icon } = entryKindFaces[entry.kind]
  const title = projects.find(({ id }) => id === entry.project)?.title
  return (
    <li>
      <Button
        look="quiet"
        icon={icon}
        className={`st-problem-words st-kind--${entry.kind}`}
        onClick={() => void goToEntry(workspace, entry)}
      >
        {`${at.slice(0, 10)} ${at.slice(11, 16)} ${word}${here ? '' : `, ${title ?? ''}`}${text ? `: ${firstWords(text)}` : ''}`}
      </Button>
    </li>
  )
}

const firstWords = (text: string): string =>
  text
    .replace(/^```.*$/gmu, '')
    .replace(/\s+/gu, ' ')
    .trim()
    .slice(0, 70)

type Lists = 'aliases' | 'addresses' | 'serials' | 'disks'
const listFields: readonly { readonly field: Lists; readonly label: string; readonly hint: string }[] = [
  { field: 'aliases', label: 'Other names', hint: 'As prompts and logs call it, one a line.' },
  { field: 'addresses', label: 'Addresses', hint: 'One a line.' },
  { field: 'serials', label: 'Serial numbers', hint: 'One a line.' },
  { field: 'disks', label: 'Disks', hint: 'One a line: model, size, serial number.' },
]

/** Every field is kept when it is left, so that nothing typed waits for a button. */
function Facts({ machine, isUsed }: { readonly machine: Machine; readonly isUsed: boolean }) {
  const workspace = useWorkspace()
  const keep = (fields: Partial<MachineFields>): void => {
    if (isSame({ ...machine, ...fields }, machine)) return
    void workspace.commit(changeMachine(workspace.requireLab().surroundings, machine, fields))
  }
  const remove = async (): Promise<void> => {
    const change = removeMachine(workspace.requireLab().surroundings, machine)
    if (!(await workspace.commit(change))) return
    workspace.set({ panel: { kind: 'machines', machine: null } })
    offerUndo(workspace, 'Machine removed.', change.id)
  }
  return (
    <div className="st-machine-fields">
      <KeptInput label="Name" value={machine.name} onKeep={(name) => keep({ name: name.trim() })} />
      {listFields.map(({ field, label, hint }) => (
        <KeptArea
          key={field}
          label={label}
          hint={hint}
          value={machine[field].join('\n')}
          onKeep={(text) => keep({ [field]: toList(text) })}
        />
      ))}
      <KeptArea
        label="Notes"
        hint="Markdown. Keep no password here."
        value={machine.notes}
        onKeep={(notes) => keep({ notes })}
      />
      <span className="st-button-row">
        <Button onClick={() => keep({ setAside: !machine.setAside })}>
          {machine.setAside ? 'Take back into use' : 'Set aside'}
        </Button>
        {isUsed ? null : (
          <Button look="quiet" onClick={() => void remove()}>
            Remove
          </Button>
        )}
      </span>
    </div>
  )
}

const toList = (text: string): string[] => [
  ...new Set(
    text
      .split('\n')
      .map((line) => line.trim())
      .filter(Boolean),
  ),
]

interface KeptProps {
  readonly label: string
  readonly hint?: string
  readonly value: string
  readonly onKeep: (text: string) => void
}

/** What is typed, until it is left; then what stands. */
function useKept({ value, onKeep }: KeptProps) {
  const [typed, setTyped] = useState<string | null>(null)
  return {
    value: typed ?? value,
    onChange: (event: { target: { value: string } }) => setTyped(event.target.value),
    onBlur: () => {
      if (typed !== null) onKeep(typed)
      setTyped(null)
    },
  }
}

function KeptInput(props: KeptProps) {
  return <TextInput label={props.label} {...useKept(props)} />
}

function KeptArea(props: KeptProps) {
  return <TextArea label={props.label} hint={props.hint} rows={2} {...useKept(props)} />
}
