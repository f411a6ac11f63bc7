/** What arrives on the pane from outside: by a drop anywhere on it, by pasting while the keyboard is in it, or a button. */
import { useEffect, useState, type DragEvent, type RefObject } from 'react'
import { bookmarkletFor } from '../../../shared/intake/handed-over.ts'
import { bringsFragment, bringsMatter } from '../../editor/fragments.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { parseApart } from '../parseApart.ts'
import { matterOf, type Brought, type Matter } from './matter.ts'
import { takeFound, takeMatter, takingOf } from './taking.ts'
import { filesOf, maybeEntries } from './taking/walking.ts'

function wordsOfHtml(html: string): string {
  return parseApart(html).body.textContent ?? ''
}

/** A picture on the clipboard has no name; when it was taken tells it from others. */
function nameOfPicture(wayIn: 'dropped' | 'pasted'): string {
  const now = new Date()
  const two = (count: number): string => String(count).padStart(2, '0')
  const date = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
  const time = [now.getHours(), now.getMinutes(), now.getSeconds()].map(two).join(' ')
  return `Picture ${wayIn} ${date} ${time}`
}

function takeFrom(workspace: Workspace, brought: Brought, wayIn: 'dropped' | 'pasted'): void {
  // Our own link for a browser's bookmarks is no text to be read.
  if (brought.getData('text/plain').startsWith(bookmarkletFor().slice(0, 40))) return
  const matter = matterOf(brought, wordsOfHtml, () => nameOfPicture(wayIn))
  if (matter.length > 0) void takeWithAddress(workspace, matter, wayIn)
  else
    workspace.say(
      'notice',
      'Nothing that could be read came with that. Pages, texts, addresses, pictures, files and folders can be sources.',
    )
}

/** What was copied out of a page is from that page, where the clipboard says which. */
async function takeWithAddress(
  workspace: Workspace,
  matter: readonly Matter[],
  wayIn: 'dropped' | 'pasted',
): Promise<void> {
  const isCopied = wayIn === 'pasted' && matter.some(({ kind }) => kind === 'html')
  const found = isCopied ? await workspace.host.findClipboardAddress() : null
  const address = found?.ok ? found.value.address : null
  await takeMatter(
    workspace,
    matter.map((one) => (one.kind === 'html' ? { ...one, address } : one)),
    wayIn,
  )
}

function takeDrop(workspace: Workspace, transfer: DataTransfer): void {
  const entries = maybeEntries(transfer.items)
  if (!entries) return takeFrom(workspace, transfer, 'dropped')
  void filesOf(entries).then(({ files, notes }) => takeFound(workspace, files, notes))
}

/** Takes in what is on the clipboard, by a button. */
export async function pasteFromClipboard(workspace: Workspace): Promise<void> {
  const read = await workspace.host.readClipboard()
  if (!read.ok) return takingOf(workspace).queue.tell(read.sentence)
  const { html, text, picture } = read.value
  const forms: Readonly<Record<string, string>> = { 'text/html': html, 'text/plain': text }
  const type = 'image/png'
  const files = picture ? [new File([picture as Uint8Array<ArrayBuffer>], 'image.png', { type })] : []
  takeFrom(workspace, { getData: (form) => forms[form] ?? '', files }, 'pasted')
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
        takeDrop(workspace, event.dataTransfer)
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
