/** The keys of a row of the procedure. */
import type { KeyboardEvent } from 'react'
import { beginRemark } from '../../remarks/index.ts'
import { stepsOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { callOffCut, cutRow, putCut } from './cutting.ts'
import { joinWith } from './dividing.ts'
import { moveBy, openPartOf, shiftLevel } from './acts.ts'
import { setPane, usePane } from './paneStore.ts'
import { movePicked, pickAll, pickedIn, pickNext, pickNone, removePicked } from './picked.ts'
import type { ShownStep } from './shown.ts'

/** With several rows. */
type OfSeveral = 'choose up' | 'choose down' | 'choose all' | 'choose none' | 'remove'
type Moving = 'join before' | 'join behind' | 'cut' | 'put' | 'call off'
type Keys = KeyboardEvent<HTMLLIElement>
type RowAct =
  OfSeveral | Moving | 'up' | 'down' | 'in' | 'out of' | 'write' | 'leave' | 'trace' | 'place' | 'remark'

const several = 'Shift+ArrowUp Shift+ArrowDown Control+A Control+X Control+V'
export const keysOfStep = `${several} Enter F2 Alt+ArrowUp Alt+ArrowDown Alt+ArrowRight Alt+ArrowLeft Alt+Shift+ArrowUp Alt+Shift+ArrowDown Alt+P Alt+R Alt+T`
export const keysOfSection = `${several} Enter F2 Alt+ArrowUp Alt+ArrowDown`

export const keysOfPart = 'Enter F2 Alt+T Alt+C Alt+M Control+X Control+V'

export function onRowKey(event: Keys, workspace: Workspace, shown: ShownStep): void {
  if (event.defaultPrevented || isWithinText(event.target)) return
  const act = actOfKey(event)
  if (!act) return
  const { step } = shown
  const isPicked = pickedIn(stepsOf(workspace.requireView(), step.procedure)).some(({ id }) => id === step.id)
  if ((act === 'put' || act === 'call off') && usePane.getState().cut === null) return
  if (act === 'cut' && isWordsSelected()) return
  if ((act === 'remove' && !isPicked) || (act === 'choose none' && usePane.getState().picked === null)) return
  event.preventDefault()
  switch (act) {
    case 'choose up':
      return pickNext(workspace, step, -1)
    case 'choose down':
      return pickNext(workspace, step, 1)
    case 'choose all':
      return pickAll(workspace, step.procedure)
    case 'choose none':
      return pickNone()
    case 'join before':
      return void joinWith(workspace, step, -1)
    case 'join behind':
      return void joinWith(workspace, step, 1)
    case 'cut':
      return cutRow(workspace, step)
    case 'put':
      return void putCut(workspace, step)
    case 'call off':
      return callOffCut()
    case 'remove':
      return void removePicked(workspace, step.procedure)
    case 'up':
      return void (isPicked ? movePicked(workspace, step.procedure, -1) : moveBy(workspace, step, -1))
    case 'down':
      return void (isPicked ? movePicked(workspace, step.procedure, 1) : moveBy(workspace, step, 1))
    case 'in':
      return void shiftLevel(workspace, step, 1)
    case 'out of':
      return void shiftLevel(workspace, step, -1)
    case 'write':
      return void openPartOf(workspace, step, step.level === 'section' ? 'heading' : 'do')
    case 'leave':
      return event.currentTarget.focus()
    case 'place':
      return step.level === 'section' ? undefined : setPane({ placing: step.id })
    case 'remark':
      return step.level === 'section' ? undefined : beginRemark(step.id)
    case 'trace':
      return workspace.set({ traced: { kind: 'step', id: step.id } })
  }
}

const altActs: Readonly<Record<string, RowAct>> = {
  ArrowUp: 'up',
  ArrowDown: 'down',
  ArrowRight: 'in',
  ArrowLeft: 'out of',
  KeyT: 'trace',
  KeyP: 'place',
  KeyR: 'remark',
}

const joinActs: Readonly<Record<string, RowAct>> = { ArrowUp: 'join before', ArrowDown: 'join behind' }
const controlActs: Readonly<Record<string, RowAct>> = { a: 'choose all', x: 'cut', v: 'put' }

function actOfKey(event: Keys): RowAct | null {
  const isOnRow = event.target === event.currentTarget
  const isOnHandle = event.target instanceof Element && event.target.matches('.st-handle')
  if (isOnRow || isOnHandle) {
    const act = actOfSeveral(event)
    if (act) return act
  }
  if (event.ctrlKey || event.metaKey) return null
  if (event.shiftKey) return event.altKey ? (joinActs[event.code] ?? null) : null
  if (event.altKey) return altActs[event.code] ?? null
  if (isOnRow && (event.key === 'Enter' || event.key === 'F2')) return 'write'
  return !isOnRow && event.key === 'Escape' ? 'leave' : null
}

/** From a text these keys are its own, so they count on a row and on its handle alone. */
function actOfSeveral({ key, altKey, ctrlKey, metaKey, shiftKey }: Keys): RowAct | null {
  if (altKey) return null
  if (ctrlKey || metaKey) return shiftKey ? null : (controlActs[key.toLowerCase()] ?? null)
  if (shiftKey) return key === 'ArrowUp' ? 'choose up' : key === 'ArrowDown' ? 'choose down' : null
  if (key === 'Delete') return 'remove'
  if (key !== 'Escape') return null
  const { picked, cut } = usePane.getState()
  return picked ? 'choose none' : cut ? 'call off' : null
}

/** Words that are selected are what is cut, or copied, where the browser can. */
const isWordsSelected = (): boolean => !(window.getSelection()?.isCollapsed ?? true)

/** Keys belong to the text that is being typed, and to an open menu. */
function isWithinText(target: EventTarget): boolean {
  return target instanceof Element && target.closest('.cm-editor, input, textarea, [role="menu"]') !== null
}
