import { useEffect, useState, type RefObject } from 'react'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { CarryIcon } from '../../ui/icons.tsx'
import { CUT_SENTENCE, findSelection, offerToCarry } from './entryFragment.ts'

interface Place {
  readonly left: number
  readonly top: number
}

/** A button at the words that are selected in an entry. It scrolls along with them. */
export function SelectionButton({ scroller }: { readonly scroller: RefObject<HTMLDivElement | null> }) {
  const workspace = useWorkspace()
  const place = useSelectionPlace(scroller)
  if (!place) return null
  const carry = (): void => {
    const selection = scroller.current && findSelection(workspace, scroller.current)
    if (!selection) return
    if (selection.isCut) workspace.say('notice', CUT_SENTENCE)
    offerToCarry(workspace, selection.entry, selection.fragment)
  }
  return (
    <div className="st-at-selection" style={place}>
      <Button
        icon={CarryIcon}
        keys="Alt+C"
        // The selection must outlive the press.
        onPointerDown={(event) => event.preventDefault()}
        onMouseDown={(event) => event.preventDefault()}
        onClick={carry}
      >
        Carry…
      </Button>
    </div>
  )
}

/** Below the end of the selection, in the scroller's content; null while nothing is selected or a press still goes on. */
function useSelectionPlace(scroller: RefObject<HTMLDivElement | null>): Place | null {
  const workspace = useWorkspace()
  const [place, setPlace] = useState<Place | null>(null)
  useEffect(() => {
    let isPressed = false
    const look = (): void => {
      const element = scroller.current
      const isThere = !isPressed && element !== null && findSelection(workspace, element) !== null
      setPlace(isThere ? placeAtSelection(element) : null)
    }
    const onDown = (event: PointerEvent): void => {
      const isOnButton = event.target instanceof Element && event.target.closest('.st-at-selection') !== null
      isPressed = !isOnButton
    }
    const onUp = (): void => {
      isPressed = false
      look()
    }
    document.addEventListener('pointerdown', onDown, true)
    document.addEventListener('pointerup', onUp)
    document.addEventListener('pointercancel', onUp)
    document.addEventListener('dragend', onUp)
    document.addEventListener('selectionchange', look)
    return () => {
      document.removeEventListener('pointerdown', onDown, true)
      document.removeEventListener('pointerup', onUp)
      document.removeEventListener('pointercancel', onUp)
      document.removeEventListener('dragend', onUp)
      document.removeEventListener('selectionchange', look)
    }
  }, [scroller, workspace])
  return place
}

const ROOM = { width: 110, gap: 4, edge: 8 } as const

function placeAtSelection(scroller: HTMLElement): Place | null {
  const rects = document.getSelection()?.getRangeAt(0).getClientRects()
  const last = rects?.[rects.length - 1]
  if (!last) return null
  const around = scroller.getBoundingClientRect()
  const left = Math.max(ROOM.edge, Math.min(last.right - around.left, scroller.clientWidth - ROOM.width))
  return { left, top: last.bottom - around.top + scroller.scrollTop + ROOM.gap }
}
