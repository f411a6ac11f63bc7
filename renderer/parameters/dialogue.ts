/** Which form about parameters is open, in this window only. Created without React. */
import { create } from 'zustand'
import type { ParameterId, PartId, ProcedureId } from '../../shared/lab/ids.ts'
import type { Workspace } from '../store/workspace.ts'
import type { MenuItem } from '../ui/MenuList.tsx'
import { ParameterIcon } from '../ui/icons.tsx'
import { findSelectedValue, selectedIn, type SelectedValue } from './selected.ts'

export type ParameterForm =
  | { readonly kind: 'make'; readonly procedure: ProcedureId; readonly selected: SelectedValue | null }
  | { readonly kind: 'change'; readonly parameter: ParameterId }

export const useParameterForm = create<{ readonly form: ParameterForm | null }>(() => ({ form: null }))

export function openParameterForm(form: ParameterForm | null): void {
  useParameterForm.setState({ form })
}

const textOf =
  (workspace: Workspace) =>
  (part: PartId): string | undefined =>
    workspace.state.view?.texts.get(part)

/** Makes a parameter of what is selected. @returns whether something is selected that can be one */
export function makeParameterOfSelection(workspace: Workspace): boolean {
  const selected = findSelectedValue(textOf(workspace))
  const procedure = selected && workspace.state.view?.parts.get(selected.part)?.procedure
  if (!procedure) return false
  openParameterForm({ kind: 'make', procedure, selected })
  return true
}

/** The key that makes a parameter of what is selected. */
export const KEY_OF_MAKING = 'Alt+M'

const MOST_SHOWN = 28

/** The line of a part's menu that makes a parameter of what is selected in it. */
export function lineOfMaking(workspace: Workspace, part: PartId, procedure: ProcedureId): MenuItem {
  const selected = selectedIn(part, textOf(workspace))
  const word = selected ? `Make a parameter of ${shortened(selected.value)}…` : 'Make a parameter…'
  return {
    id: 'parameter',
    word,
    icon: ParameterIcon,
    hint: KEY_OF_MAKING,
    disabledBecause: selected ? undefined : 'Select a value in the text first.',
    onChoose: () => openParameterForm({ kind: 'make', procedure, selected }),
  }
}

const shortened = (value: string): string =>
  value.length > MOST_SHOWN ? `${value.slice(0, MOST_SHOWN).replace(/[\ud800-\udbff]$/, '')} …` : value
