/** What arrives on the pane from outside: by a drop anywhere on it, or by pasting while the keyboard is in it. */
import { useEffect, useState, type DragEvent, type RefObject } from 'react'
import { bringsFragment, bringsMatter } from '../../editor/fragments.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { parseApart } from '../parseApart.ts'
import { matterOf } from './matter.ts'
import { takeMatter } from './taking.ts'

function wordsOfHtml(html: string): string {
  return parseApart(html).body.textContent ?? ''
}

function takeFrom(workspace: Workspace, transfer: DataTransfer, wayIn: 'dropped' | 'pasted'): void {
  const matter = matterOf(transfer, wordsOfHtml)
  if (matter.length > 0) void takeMatter(workspace, matter, wayIn)
  else
    workspace.say(
      'notice',
      'Nothing that could be read came with that. Pages, text, addresses and text files can be sources.',
    )
}

/** Listeners for the pane's element, and whether something that it would take is over it right now. */
export function useDrops() {
  const workspace = useWorkspace()
  const [isOver, setOver] = useState(false)
  return {
    isOver,
    listeners: {
      onDragOver: (event: DragEvent) => {
        if (!bringsMatter(event.dataTransfer)) return
        event.preventDefault()
        event.dataTransfer.dropEffect = 'copy'
        setOver(true)
      },
      onDragLeave: (event: DragEvent) => {
        if (!(event.relatedTarget instanceof Node) || !event.currentTarget.contains(event.relatedTarget))
          setOver(false)
      },
      onDrop: (event: DragEvent) => {
        setOver(false)
        if (!bringsMatter(event.dataTransfer)) return
        event.preventDefault()
        takeFrom(workspace, event.dataTransfer, 'dropped')
      },
    },
  }
}

/**
 * Pasting while the keyboard's focus is in the pane, but not in a field. The browser sends the event to wherever the
 * caret is, which need not be the focus, so the document is listened to.
 */
export function usePasting(root: RefObject<HTMLElement | null>): void {
  const workspace = useWorkspace()
  useEffect(() => {
    const onPaste = (event: ClipboardEvent): void => {
      const pane = root.current?.closest('.st-pane') ?? root.current
      const { activeElement } = document
      if (!event.clipboardData || !pane?.contains(activeElement) || isField(activeElement)) return
      event.preventDefault()
      if (bringsFragment(event.clipboardData))
        workspace.say(
          'notice',
          'These words stand in this lab already. Sources take what comes from outside.',
        )
      else takeFrom(workspace, event.clipboardData, 'pasted')
    }
    document.addEventListener('paste', onPaste)
    return () => document.removeEventListener('paste', onPaste)
  }, [workspace, root])
}

function isField(element: Element | null): boolean {
  return element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement
}
