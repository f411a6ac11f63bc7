/** Drags that come from another window or program: the pane learns of them only while they are over it. */
import { useEffect, type DragEvent } from 'react'
import { broughtBy } from './landing.ts'
import { setPane, usePane } from './paneStore.ts'

/**
 * Lets a drag land where it is, and has every place show itself, also for a drag that comes from elsewhere.
 * @returns whether it brings something that can land here
 */
export function takesDragOver(event: DragEvent): boolean {
  const brought = broughtBy(event.dataTransfer)
  if (!brought) return false
  event.preventDefault()
  event.dataTransfer.dropEffect = 'copy'
  if (usePane.getState().visiting !== brought) setPane({ visiting: brought })
  return true
}

/** A visiting drag that leaves the pane or ends is over; no element tells both. */
export function useEndOfVisit(): void {
  const isVisited = usePane((state) => state.visiting !== null)
  useEffect(() => {
    if (!isVisited) return
    const end = () => setPane({ visiting: null })
    const onDragOver = (event: globalThis.DragEvent) => {
      if (!(event.target instanceof Element) || !event.target.closest('.st-procedure, .st-no-procedure'))
        end()
    }
    const onDragLeave = (event: globalThis.DragEvent) => {
      if (event.relatedTarget === null) end()
    }
    document.addEventListener('dragover', onDragOver)
    document.addEventListener('dragleave', onDragLeave)
    document.addEventListener('dragend', end)
    document.addEventListener('drop', end)
    return () => {
      document.removeEventListener('dragover', onDragOver)
      document.removeEventListener('dragleave', onDragLeave)
      document.removeEventListener('dragend', end)
      document.removeEventListener('drop', end)
    }
  }, [isVisited])
}
