/** Opening the box by its key from anywhere, and leaving it. */
import { useEffect } from 'react'
import { flushSync } from 'react-dom'
import { isAltLetter } from '../ui/keys.ts'
import { useFind } from './state.ts'
import { nowhere, writingPlaceAt } from './writing.ts'

/** F for find. */
export const FIND_KEYS = 'Alt+F'

export function openFind(): void {
  if (useFind.getState().isOpen) {
    // Asked for again while it is open, it takes the keyboard.
    const field = document.querySelector<HTMLInputElement>('.st-finder-field')
    field?.focus()
    field?.select()
  } else {
    const from = writingPlaceAt(document.activeElement)
    // Now and not with the next drawing: the next key is meant for the box already.
    flushSync(() => useFind.setState({ isOpen: true, from }))
  }
}

export function closeFind(): void {
  useFind.setState({ isOpen: false, from: nowhere })
}

/** Closes the box; the keyboard goes back to where it was. */
export function returnFromFind(): void {
  const { element, editor } = useFind.getState().from
  closeFind()
  if (editor?.dom.isConnected) editor.focus()
  else if (element instanceof HTMLElement && element.isConnected) element.focus()
}

/** Closes the box for good: the person goes elsewhere, and what was being typed is left as by any other way out. */
export function leaveFind(): void {
  const { editor } = useFind.getState().from
  closeFind()
  // The keyboard left that text when the box was opened; it stayed open to come back to.
  requestAnimationFrame(() => {
    if (editor && !editor.hasFocus) editor.contentDOM.dispatchEvent(new FocusEvent('blur'))
  })
}

/** When what was set last is on the screen. */
export const drawn = (): Promise<void> =>
  new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)))

/** Listens for the key while a lab is open. */
export function useFindKey(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!isAltLetter(event, 'F') || document.querySelector('dialog:modal')) return
      event.preventDefault()
      event.stopPropagation()
      openFind()
    }
    // Before editors, which have uses of their own for keys.
    window.addEventListener('keydown', onKey, true)
    return () => window.removeEventListener('keydown', onKey, true)
  }, [])
}
