/** The form that makes a parameter, or changes what is said of one. It never stands in the way of the journal. */
import { useId, useMemo, useState, type FormEvent, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { LinkNode, Parameter } from '../../shared/lab/model.ts'
import { guessTypes } from '../../shared/procedure/values/guess.ts'
import { StrikeOut } from '../panes/StrikeOut.tsx'
import { parametersOf, type ProjectView } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, Dialog } from '../ui/index.ts'
import { StrikeOutIcon } from '../ui/icons.tsx'
import { changeParameterTo, entriesWith, makeParameterAt, namedTexts } from './acts.ts'
import { openParameterForm, useParameterForm } from './dialogue.ts'
import { faultsOf, toSaid, toTyped, type TypedFields } from './fields.ts'
import { FieldsOfParameter } from './FieldsOfParameter.tsx'
import { PlacesOfValue } from './PlacesOfValue.tsx'
import { freeName, placesOf } from './places.ts'
import type { SelectedValue } from './selected.ts'

const close = (): void => openParameterForm(null)

/** The form that is open, if one is. */
export function OpenParameterForm({ view }: { readonly view: ProjectView }): ReactNode {
  const form = useParameterForm((state) => state.form)
  if (!form) return null
  if (form.kind === 'make')
    return (
      <MakeForm
        key={`make ${form.selected?.part} ${form.selected?.start}`}
        view={view}
        procedure={form.procedure}
        selected={form.selected}
      />
    )
  const parameter = view.parameters.get(form.parameter)
  return parameter ? <ChangeForm key={parameter.id} view={view} parameter={parameter} /> : null
}

interface MakeFormProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly selected: SelectedValue | null
}

function MakeForm({ view, procedure, selected }: MakeFormProps) {
  const workspace = useWorkspace()
  const others = parametersOf(view, procedure)
  const value = selected?.value ?? ''
  const guessed = useMemo(() => (selected ? guessTypes(selected.value, selected) : []), [selected])
  const [typed, setTyped] = useState<TypedFields>(() => {
    const type = guessed[0] ?? 'host name'
    const name = freeName(type, others)
    return toTyped({ name, type, example: value, preset: '', help: '', rule: null })
  })
  const texts = useMemo(() => namedTexts(view, procedure), [view, procedure])
  const places = useMemo(
    () => (value === '' ? [] : placesOf(texts, value, typed.type, selected)),
    [texts, value, typed.type, selected],
  )
  const [ticks, setTicks] = useState<ReadonlyMap<string, boolean>>(new Map())
  const isTicked = (place: (typeof places)[number]): boolean =>
    ticks.get(place.key) ?? place.standing === 'alone'
  const [leftOver, setLeftOver] = useState<LinkNode | null>(null)
  const chosen = places.filter(isTicked)
  const make = async (): Promise<void> => {
    const said = toSaid(typed)
    const isSecret = said.type === 'secret'
    const carried = isSecret || value === '' ? null : value
    if (!(await makeParameterAt(workspace, procedure, said, carried, chosen))) return
    // What stood in a text stays in its earlier wordings, and may stand in the journal.
    if (isSecret && selected)
      setLeftOver(entriesWith(workspace.requireView(), value).node ?? { kind: 'part', id: selected.part })
    else close()
  }
  if (leftOver) return <SecretLeftOver node={leftOver} value={value} />
  return (
    <Form
      title={selected ? 'Make a parameter' : 'Add a parameter'}
      act={selected ? 'Make it a parameter' : 'Add it'}
      typed={typed}
      setTyped={(next) => {
        // A name that was only proposed goes with the type.
        const isProposed = next.type !== typed.type && typed.name === freeName(typed.type, others)
        setTyped(isProposed ? { ...next, name: freeName(next.type, others) } : next)
      }}
      guessed={guessed}
      others={others}
      onKeep={make}
    >
      {selected ? (
        <PlacesOfValue
          places={places}
          isTicked={isTicked}
          onTick={(key, isOn) => setTicks(new Map(ticks).set(key, isOn))}
        />
      ) : null}
    </Form>
  )
}

function ChangeForm({ view, parameter }: { readonly view: ProjectView; readonly parameter: Parameter }) {
  const workspace = useWorkspace()
  const [typed, setTyped] = useState(() => toTyped(parameter))
  const others = parametersOf(view, parameter.procedure).filter(({ id }) => id !== parameter.id)
  return (
    <Form
      title={`Change “${parameter.name}”`}
      act="Keep"
      typed={typed}
      setTyped={setTyped}
      guessed={[]}
      others={others}
      onKeep={async () => {
        if (await changeParameterTo(workspace, parameter, toSaid(typed))) close()
      }}
    />
  )
}

interface FormProps {
  readonly title: string
  readonly act: string
  readonly typed: TypedFields
  readonly setTyped: (typed: TypedFields) => void
  readonly guessed: readonly TypedFields['type'][]
  readonly others: readonly Parameter[]
  readonly onKeep: () => Promise<void>
  readonly children?: ReactNode
}

function Form({ title, act, typed, setTyped, guessed, others, onKeep, children }: FormProps) {
  const id = useId()
  const [isAsked, setAsked] = useState(false)
  const [isBusy, setBusy] = useState(false)
  const faults = faultsOf(typed, others)
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    if (isBusy) return
    if (Object.keys(faults).length > 0) return setAsked(true)
    setBusy(true)
    void onKeep().finally(() => setBusy(false))
  }
  return (
    <Dialog
      title={title}
      width="wide"
      onClose={close}
      actions={
        <>
          <Button onClick={close}>Cancel</Button>
          <Button look="strong" type="submit" form={id} disabled={isBusy}>
            {act}
          </Button>
        </>
      }
    >
      <form id={id} className="st-parameter-form" noValidate onSubmit={keep}>
        <FieldsOfParameter
          typed={typed}
          onType={setTyped}
          guessed={guessed}
          faults={faults}
          isAsked={isAsked}
        />
        {children}
      </form>
    </Dialog>
  )
}

/** A secret was taken out of the texts; its bytes stand elsewhere until they are struck out. */
function SecretLeftOver({ node, value }: { readonly node: LinkNode; readonly value: string }) {
  const count = useWorkspaceState((state) => (state.view ? entriesWith(state.view, value).count : 0))
  const [isStriking, setStriking] = useState(false)
  if (isStriking) return <StrikeOut node={node} text={value} onClose={close} />
  const where =
    count === 0
      ? 'It stands in no entry of this project’s journal.'
      : `It stands in ${count === 1 ? '1 entry' : `${count} entries`} of this project’s journal, too.`
  return (
    <Dialog
      title="The secret still stands elsewhere"
      onClose={close}
      actions={
        <>
          <Button onClick={close}>Leave it there</Button>
          <Button icon={StrikeOutIcon} onClick={() => setStriking(true)} data-first>
            Strike it out…
          </Button>
        </>
      }
    >
      <p>
        It is a parameter now, and nothing of its value is kept with it. But the words that were selected
        stand in earlier wordings of this procedure, and undo brings them back. {where}
      </p>
      <p>Striking it out takes it away everywhere in this lab, and has no undo.</p>
    </Dialog>
  )
}
