/** A panel over one of the panes: never modal, closed by Escape, and the keyboard goes back to where it was. */
import { useEffect, useId, useRef, type KeyboardEvent, type ReactNode } from 'react'
import { Button } from '../ui/index.ts'
import { CloseIcon } from '../ui/icons.tsx'
import { useBandBox, type PanelBand } from './bandBox.ts'

export interface PanelProps {
  readonly title: string
  readonly band: PanelBand
  readonly onClose: () => void
  readonly children: ReactNode
  readonly className?: string
}

/** Focus goes to the element marked with `data-first`, else to the panel. */
export function Panel({ title, band, onClose, children, className = '' }: PanelProps) {
  const id = useId()
  const panel = useRef<HTMLElement>(null)
  const before = useRef<Element | null>(null)
  const box = useBandBox(band)
  const isPlaced = box !== null
  useEffect(() => {
    if (!isPlaced || !panel.current) return
    before.current ??= document.activeElement
    const first = panel.current.querySelector<HTMLElement>('[data-first]') ?? panel.current
    first.focus()
  }, [isPlaced])
  const close = () => {
    if (panel.current?.contains(document.activeElement)) giveBack(before.current)
    onClose()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    event.stopPropagation()
    close()
  }
  useEscapeElsewhere(close)
  if (!box) return null
  return (
    <section
      ref={panel}
      className={`st-panel ${className}`}
      role="dialog"
      aria-modal={false}
      aria-labelledby={id}
      tabIndex={-1}
      style={{ left: box.left, top: box.top, width: box.width, maxHeight: box.height }}
      onKeyDown={onKeyDown}
    >
      <header className="st-panel-head">
        <h2 id={id} className="st-panel-title">
          {title}
        </h2>
        <Button
          look="quiet"
          icon={CloseIcon}
          label={`Close ${title.charAt(0).toLowerCase()}${title.slice(1)}`}
          onClick={close}
        />
      </header>
      {children}
    </section>
  )
}

/** Escape closes the panel from anywhere but a text or a menu that has a use of its own for it. */
function useEscapeElsewhere(close: () => void): void {
  const latest = useRef(close)
  useEffect(() => {
    latest.current = close
  })
  useEffect(() => {
    const onKey = (event: globalThis.KeyboardEvent): void => {
      if (event.key !== 'Escape' || event.defaultPrevented) return
      const { target } = event
      if (target instanceof Element && target.closest('.cm-editor, input, textarea, dialog, [role="menu"]'))
        return
      latest.current()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [])
}

function giveBack(before: Element | null): void {
  if (before instanceof HTMLElement && before.isConnected) before.focus()
}
