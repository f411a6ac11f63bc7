/** Asks in which form provenance is to be written, and writes it. */
import { useId, useState } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { provForms, type ProvForm } from '../../shared/provenance/prov/forms.ts'
import { useWriting, WriteRow } from '../leaving/index.ts'
import { who } from '../store/person.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { saveProvenance, type ScopeKind } from './save.ts'
import './provenance.css'

const scopes: Readonly<Record<ScopeKind, string>> = {
  procedure: 'This procedure, and what it came from',
  project: 'This project, and what it came from',
  lab: 'The whole lab',
}

const notes: Readonly<Record<ProvForm, string>> = {
  'PROV-JSON': 'for programs that read PROV',
  'PROV-N': 'for people to read',
  'JSON-LD': 'linked data in JSON',
  Turtle: 'linked data to query',
}

interface ProvenanceFormProps {
  /** Null where no procedure is shown. */
  readonly procedure: ProcedureId | null
  /** What is written at first. */
  readonly scope: ScopeKind
  /** Whether another scope can be chosen. */
  readonly isScopeAsked: boolean
  readonly onWritten: () => void
}

export function ProvenanceForm({ procedure, scope: first, isScopeAsked, onWritten }: ProvenanceFormProps) {
  const workspace = useWorkspace()
  const [scope, setScope] = useState(first)
  const [form, setForm] = useState<ProvForm>('PROV-JSON')
  const writing = useWriting(
    () => saveProvenance(workspace, scope, form, procedure),
    ({ name }) => {
      workspace.say('done', `The provenance was written to “${name}”.`)
      onWritten()
    },
  )
  const kinds = (Object.keys(scopes) as ScopeKind[]).filter((one) => procedure || one !== 'procedure')
  return (
    <div className="st-provenance">
      <p className="st-export-note">
        What came from what, in the terms of the W3C (PROV) and with the words that were carried, for other
        programs. Every name in the file is explained in it.
      </p>
      {isScopeAsked ? (
        <Choices
          label="Of what"
          choices={kinds.map((one) => [one, scopes[one]])}
          chosen={scope}
          onChoose={setScope}
        />
      ) : null}
      <Choices
        label="Written as"
        choices={(Object.keys(provForms) as ProvForm[]).map((one) => [one, `${one}, ${notes[one]}`])}
        chosen={form}
        onChoose={setForm}
      />
      <NameNote />
      <WriteRow writing={writing} word="Write provenance" notDone="The provenance was not exported." />
    </div>
  )
}

/** Whether the person will be named. */
function NameNote() {
  // Read anew with each Change; giving a name is none, but opens over this.
  useWorkspaceState((state) => state.view?.sequence)
  const name = who()
  return (
    <p className="st-export-note">
      {name === null
        ? 'What you do is not signed with a name. You can give one in the lab menu.'
        : `What you do is signed “${name}”. You can change that in the lab menu.`}
    </p>
  )
}

interface ChoicesProps<T extends string> {
  readonly label: string
  readonly choices: readonly (readonly [T, string])[]
  readonly chosen: T
  readonly onChoose: (choice: T) => void
}

function Choices<T extends string>({ label, choices, chosen, onChoose }: ChoicesProps<T>) {
  const id = useId()
  return (
    <div className="st-provenance-choices" role="radiogroup" aria-labelledby={`${id}-label`}>
      <span id={`${id}-label`} className="st-field-label">
        {label}
      </span>
      {choices.map(([choice, words]) => (
        <label key={choice} className="st-check">
          <input type="radio" name={id} checked={choice === chosen} onChange={() => onChoose(choice)} />
          <span>{words}</span>
        </label>
      ))}
    </div>
  )
}
