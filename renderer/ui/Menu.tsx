import { useId, useRef, useState, type ReactNode } from 'react'
import { flushSync } from 'react-dom'
import { MenuList, type MenuLine } from './MenuList.tsx'
import { placeNear, type Box } from './place.ts'

/** What the thing that opens a menu must carry. Spread it on a Button. */
export interface MenuTrigger {
  readonly id: string
  readonly popoverTarget: string
  readonly 'aria-haspopup': 'menu'
  readonly 'aria-expanded': boolean
  readonly onClick: () => void
}

export interface MenuProps {
  /** Names the menu for assistive technology. */
  readonly label: string
  /** The lines, or what makes them once they are to be seen. */
  readonly lines: readonly MenuLine[] | (() => readonly MenuLine[])
  readonly trigger: (attributes: MenuTrigger) => ReactNode
}

/**
 * A button that opens a menu. The browser opens and closes it (popover), so a press outside or Escape closes it too.
 * Nothing of the menu is in the page before its button is first pressed: a long list has a menu for each of its rows.
 */
export function Menu({ label, lines, trigger }: MenuProps) {
  const id = useId()
  const popover = useRef<HTMLDivElement>(null)
  const [state, setState] = useState<'never opened' | 'closed' | 'open'>('never opened')
  const isOpen = state === 'open'
  const opener = () => document.getElementById(`${id}-opener`)
  const onToggle = (opens: boolean) => {
    setState(opens ? 'open' : 'closed')
    if (opens && popover.current !== null) settle(popover.current, opener()?.getBoundingClientRect())
  }
  const close = () => {
    popover.current?.hidePopover()
    opener()?.focus()
  }
  // The browser looks for the popover behind the press, when it must stand in the page (HTML, popovertarget).
  const make = () => flushSync(() => setState((before) => (before === 'never opened' ? 'closed' : before)))
  const attributes = { id: `${id}-opener`, popoverTarget: id, 'aria-haspopup': 'menu' } as const
  return (
    <>
      {trigger({ ...attributes, 'aria-expanded': isOpen, onClick: make })}
      {state === 'never opened' ? null : (
        <div
          ref={popover}
          id={id}
          popover="auto"
          className="st-menu"
          onBeforeToggle={(event) => event.newState === 'open' && flushSync(() => setState('open'))}
          onToggle={(event) => onToggle(event.newState === 'open')}
        >
          {isOpen ? (
            <MenuList label={label} lines={typeof lines === 'function' ? lines() : lines} onDone={close} />
          ) : null}
        </div>
      )}
    </>
  )
}

export interface MenuAtProps {
  readonly label: string
  readonly lines: readonly MenuLine[]
  /** The box to stand beside, in window coordinates: a selection, a pointer. */
  readonly at: Box
  /** Called when it closes for whatever reason; the owner then stops rendering it. */
  readonly onClose: () => void
}

/** A menu that stands beside any place, open as long as it is rendered; focus goes back to where it was. */
export function MenuAt({ label, lines, at, onClose }: MenuAtProps) {
  const before = useRef<Element | null>(null)
  const open = (element: HTMLDivElement | null) => {
    if (element === null || element.matches(':popover-open')) return
    before.current = document.activeElement
    element.showPopover()
    settle(element, at)
  }
  const giveBack = () => {
    if (before.current instanceof HTMLElement) before.current.focus()
  }
  return (
    <div
      ref={open}
      popover="auto"
      className="st-menu"
      onToggle={(event) => {
        if (event.newState === 'closed') onClose()
      }}
    >
      <MenuList
        label={label}
        lines={lines}
        onDone={() => {
          giveBack()
          onClose()
        }}
      />
    </div>
  )
}

function settle(menu: HTMLElement, anchor: Box | undefined): void {
  if (anchor !== undefined) placeNear(menu, anchor, 'start')
  // The browser tells of an opened menu a moment later; who has gone to a line by then stays there.
  if (menu.contains(document.activeElement)) return
  menu.querySelector<HTMLElement>('[aria-checked="true"], [role^="menuitem"]')?.focus()
}
