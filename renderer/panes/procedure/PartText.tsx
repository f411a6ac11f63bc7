/** A part's text as it is read. It is edited once it is activated. */
import { memo, type KeyboardEvent, type MouseEvent } from 'react'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { Part, Range } from '../../../shared/lab/model.ts'
import { writeFragment } from '../../editor/fragments.ts'
import { makeParameterOfSelection } from '../../parameters/index.ts'
import type { Traced } from '../../store/traced.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Markdown, selectionToSourceRange } from '../../ui/Markdown.tsx'
import { activate } from './acts.ts'
import { cutPart, putCut } from './cutting.ts'
import { usePane } from './paneStore.ts'
import { pickFromPart } from './pick.ts'
import { keysOfPart } from './rowKeys.ts'
import { hintOfPart } from './words.ts'

export interface PartTextProps {
  readonly part: Part
  readonly text: string
  readonly name: string
  readonly title: string
  readonly marks: readonly Range[] | undefined
  readonly className: string
  readonly tabIndex: number
}

export const PartText = memo(function PartText({
  part,
  text,
  name,
  title,
  marks,
  className,
  tabIndex,
}: PartTextProps) {
  const workspace = useWorkspace()
  const pick = (root: HTMLElement, isWholeToo: boolean): Fragment | null => {
    const selected = selectedRange(root)
    if (!selected && !isWholeToo) return null
    const ranges = selected ? [selected] : undefined
    return pickFromPart(workspace.requireLab().id, part, text, title, ranges)
  }
  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    if (event.target !== event.currentTarget) return
    const act = actOfKey(event, part)
    if (!act) return
    event.preventDefault()
    if (act === 'parameter') makeParameterOfSelection(workspace)
    else if (act === 'cut') cutPart(workspace, part)
    else if (act === 'put') putAtPart(workspace, part)
    else if (act === 'edit') void activate(workspace, part.id)
    else if (act === 'trace') workspace.set({ traced: tracedOf(part, event.currentTarget) })
    else workspace.set({ carrying: pick(event.currentTarget, true) })
  }
  return (
    <div
      role="group"
      aria-label={name}
      aria-keyshortcuts={keysOfPart}
      data-node={part.id}
      tabIndex={tabIndex}
      className={`st-part-read ${className}`}
      onKeyDown={onKeyDown}
      onClick={(event) => {
        if (isPlainClick(event)) void activate(workspace, part.id)
      }}
      onDragStart={(event) => {
        const dragging = pick(event.currentTarget, false)
        if (!dragging) return
        writeFragment(event.dataTransfer, dragging)
        event.dataTransfer.effectAllowed = 'copy'
        // The places that appear move what is dragged; a drag that has not quite begun would end at once.
        setTimeout(() => workspace.set({ dragging }))
      }}
      onDragEnd={() => workspace.set({ dragging: null })}
      onCopy={(event) => {
        const fragment = pick(event.currentTarget, false)
        if (!fragment) return
        event.preventDefault()
        writeFragment(event.clipboardData, fragment)
      }}
    >
      {text.trim() === '' ? (
        <p className="st-part-hint">{hintOfPart[part.kind]}</p>
      ) : (
        <Markdown text={text} {...(marks ? { marks } : {})} />
      )}
    </div>
  )
})

/** The words that are selected, or all of the part. */
function tracedOf({ id }: Part, root: HTMLElement): Traced {
  const selected = selectedRange(root)
  return { kind: 'part', id, ...(selected ? { ranges: [selected] } : {}) }
}

function selectedRange(root: HTMLElement): Range | null {
  const selection = window.getSelection()
  return selection && !selection.isCollapsed ? selectionToSourceRange(root, selection) : null
}

const altActs = { KeyT: 'trace', KeyC: 'carry', KeyM: 'parameter' } as const

type PartAct = 'edit' | 'trace' | 'carry' | 'parameter' | 'cut' | 'put'

function actOfKey(event: KeyboardEvent, part: Part): PartAct | null {
  if (event.shiftKey) return null
  if (event.ctrlKey || event.metaKey) return event.altKey ? null : clipboardAct(event.key.toLowerCase(), part)
  if (event.altKey) return altActs[event.code as keyof typeof altActs] ?? null
  return event.key === 'Enter' || event.key === 'F2' ? 'edit' : null
}

/** A part is cut as a whole while no words of it are selected. */
function clipboardAct(key: string, part: Part): 'cut' | 'put' | null {
  if (part.step === null || part.kind === 'heading') return null
  if (key === 'x') return window.getSelection()?.isCollapsed === false ? null : 'cut'
  return key === 'v' && usePane.getState().cut ? 'put' : null
}

function putAtPart(workspace: Workspace, part: Part): void {
  const step = part.step && workspace.requireView().steps.get(part.step)
  if (step) void putCut(workspace, step)
}

/** A click that selects words or follows a link is none that begins to edit. */
function isPlainClick(event: MouseEvent<HTMLElement>): boolean {
  if (event.defaultPrevented || event.button !== 0) return false
  if (event.target instanceof Element && event.target.closest('a, button, input')) return false
  return window.getSelection()?.isCollapsed ?? true
}
