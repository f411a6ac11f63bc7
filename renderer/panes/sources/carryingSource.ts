/** A source as a whole on its way: by its handle, by button or by key. */
import type { DragEvent, KeyboardEvent } from 'react'
import { pickSource, type Fragment } from '../../../shared/distil/fragment.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { writeFragment } from '../../editor/fragments.ts'
import type { Workspace } from '../../store/workspace.ts'
import { titleOf } from './rows.ts'

/** The citation that a whole source becomes. */
export function fragmentOf(workspace: Workspace, source: Source): Fragment {
  return pickSource({
    lab: workspace.requireLab().id,
    node: { kind: 'source', id: source.id },
    title: titleOf(source),
    address: source.address,
  })
}

export function carrySource(workspace: Workspace, source: Source): void {
  workspace.set({ carrying: fragmentOf(workspace, source) })
}

export function traceSource(workspace: Workspace, { id }: Source): void {
  workspace.set({ traced: { kind: 'source', id } })
}

/** What an element needs so that the source can be dragged by it. */
export function draggingOf(workspace: Workspace, source: Source) {
  return {
    draggable: true,
    onDragStart: (event: DragEvent) => {
      const dragging = fragmentOf(workspace, source)
      writeFragment(event.dataTransfer, dragging)
      event.dataTransfer.effectAllowed = 'copy'
      workspace.set({ dragging })
    },
    onDragEnd: () => workspace.set({ dragging: null }),
  }
}

/** Alt+C, wherever C stands on the keyboard. */
export function isCarryKey(event: Pick<KeyboardEvent, 'altKey' | 'ctrlKey' | 'metaKey' | 'code'>): boolean {
  return event.altKey && !event.ctrlKey && !event.metaKey && event.code === 'KeyC'
}
