/** The parameters of a procedure, listed at its head. */
import { useRef, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Parameter } from '../../shared/lab/model.ts'
import { toPlaceholder } from '../../shared/procedure/values/placeholders.ts'
import { parametersOf } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Button, Menu, type MenuLine } from '../ui/index.ts'
import { AddIcon, AmendIcon, FillInIcon, MoreIcon, ParameterIcon, RemoveIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { Marked, placesOf } from '../ui/Marked.tsx'
import { Placeholder } from '../ui/placeholders.tsx'
import { takeParameterAway } from './acts.ts'
import { openParameterForm } from './dialogue.ts'
import { useFoundWords } from './found.ts'
import './parameters.css'

const none: readonly Parameter[] = []

/** Nothing is shown where a procedure has none; the first one is made of a value, or by the menu. */
export function ParametersBlock({ procedure }: { readonly procedure: ProcedureId }): ReactNode {
  const workspace = useWorkspace()
  const parameters = useWorkspaceState((state) => (state.view ? parametersOf(state.view, procedure) : none))
  if (parameters.length === 0) return null
  return (
    <section className="st-parameters" aria-label="Parameters">
      <div className="st-parameters-head">
        <h3 className="st-own-label">
          <ParameterIcon />
          Parameters
        </h3>
        <span className="st-button-row">
          <Button
            look="quiet"
            icon={AddIcon}
            label="Add a parameter"
            onClick={() => openParameterForm({ kind: 'make', procedure, selected: null })}
          />
          <Button look="quiet" icon={FillInIcon} onClick={() => showMadeFor(workspace, procedure)}>
            Made for another host…
          </Button>
        </span>
      </div>
      <ul className="st-parameter-list">
        {parameters.map((parameter) => (
          <ParameterLine key={parameter.id} parameter={parameter} />
        ))}
      </ul>
    </section>
  )
}

export function showMadeFor(workspace: Workspace, procedure: ProcedureId): void {
  workspace.set({ panel: { kind: 'made for', procedure } })
}

function ParameterLine({ parameter }: { readonly parameter: Parameter }) {
  const workspace = useWorkspace()
  const line = useRef<HTMLLIElement>(null)
  const { id, name, help } = parameter
  const words = useFoundWords(id, line)
  const facts = factsOf(parameter, words).join(', ')
  const lines = (): MenuLine[] => [
    {
      id: 'change',
      word: 'Change or rename…',
      icon: AmendIcon,
      onChoose: () => openParameterForm({ kind: 'change', parameter: id }),
    },
    {
      id: 'remove',
      word: 'Remove, with its value put back',
      icon: RemoveIcon,
      onChoose: () => void takeParameterAway(workspace, parameter),
    },
  ]
  return (
    <li ref={line} className="st-parameter-line">
      <span className="st-parameter-name st-mono">
        <Placeholder value={name}>{spelled(name, words)}</Placeholder>
      </span>
      <span className="st-parameter-facts">
        <Marked text={facts} marks={placesOf(words, facts)} />
      </span>
      <Menu
        label={`Parameter ${name}`}
        lines={lines}
        trigger={(attributes) => (
          <Button {...attributes} look="quiet" icon={MoreIcon} label={`More for the parameter ${name}`} />
        )}
      />
      {help === '' ? null : (
        <div className="st-parameter-help st-prose">
          <Markdown text={help} marks={placesOf(words, help)} />
        </div>
      )}
    </li>
  )
}

/** What stood in the texts before and the only values that will do are said where they were found. */
function factsOf({ type, example, preset, carried, rule }: Parameter, found: readonly string[]): string[] {
  const others = [...new Set([carried ?? '', ...(rule?.allowed ?? []), rule?.within ?? ''])].filter(
    (value) => value !== '' && value !== example && value !== preset && placesOf(found, value).length > 0,
  )
  return [
    type,
    ...(example === '' ? [] : [`for instance ${example}`]),
    ...(preset === '' ? [] : [`else ${preset}`]),
    ...others.map((value) => (value === carried ? `before ${value}` : `by its rule ${value}`)),
  ]
}

/** In the same three pieces in which a text shows it. */
const spelled = (name: string, found: readonly string[]): ReactNode => {
  const whole = toPlaceholder(name)
  return (
    <>
      <span>{whole.slice(0, 1)}</span>
      <span>
        <Marked text={name} marks={placesOf(found, name)} />
      </span>
      <span>{whole.slice(-1)}</span>
    </>
  )
}
