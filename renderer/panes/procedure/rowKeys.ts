/** The keys of a row of the procedure. */
import type { KeyboardEvent } from 'react'
import { beginRemark } from '../../remarks/index.ts'
import type { Workspace } from '../../store/workspace.ts'
import { moveBy, openPartOf, shiftLevel } from './acts.ts'
import { setPane } from './paneStore.ts'
import { tracedPartOf, type ShownStep } from './shown.ts'

type Keys = KeyboardEvent<HTMLLIElement>
type RowAct = 'up' | 'down' | 'in' | 'out of' | 'write' | 'leave' | 'trace' | 'place' | 'remark'

export const keysOfStep = 'Enter F2 Alt+ArrowUp Alt+ArrowDown Alt+ArrowRight Alt+ArrowLeft Alt+P Alt+R Alt+T'
export const keysOfSection = 'Enter F2 Alt+ArrowUp Alt+ArrowDown'

export function onRowKey(event: Keys, workspace: Workspace, shown: ShownStep): void {
  if (event.defaultPrevented || isWithinText(event.target)) return
  const act = actOfKey(event)
  if (!act) return
  event.preventDefault()
  const { step } = shown
  switch (act) {
    case 'up':
      return void moveBy(workspace, step, -1)
    case 'down':
      return void moveBy(workspace, step, 1)
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
    case 'trace': {
      const part = tracedPartOf(shown)?.part
      if (part) workspace.set({ traced: { kind: 'part', id: part.id } })
    }
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

function actOfKey(event: Keys): RowAct | null {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return null
  if (event.altKey) return altActs[event.code] ?? null
  const isOnRow = event.target === event.currentTarget
  if (isOnRow && (event.key === 'Enter' || event.key === 'F2')) return 'write'
  return !isOnRow && event.key === 'Escape' ? 'leave' : null
}

/** Keys belong to the text that is being typed, and to an open menu. */
function isWithinText(target: EventTarget): boolean {
  return target instanceof Element && target.closest('.cm-editor, input, textarea, [role="menu"]') !== null
}
