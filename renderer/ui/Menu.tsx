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
}

export interface MenuProps {
  /** Names the menu for assistive technology. */
  readonly label: string
  readonly lines: readonly MenuLine[]
  readonly trigger: (attributes: MenuTrigger) => ReactNode
}

/** A button that opens a menu. The browser opens and closes it (popover), so a press outside or Escape closes it too. */
export function Menu({ label, lines, trigger }: MenuProps) {
  const id = useId()
  const popover = useRef<HTMLDivElement>(null)
  const [isOpen, setOpen] = useState(false)
  const opener = () => document.getElementById(`${id}-opener`)
  const onToggle = (opens: boolean) => {
    setOpen(opens)
    if (opens && popover.current !== null) settle(popover.current, opener()?.getBoundingClientRect())
  }
  const close = () => {
    popover.current?.hidePopover()
    opener()?.focus()
  }
  return (
    <>
      {trigger({ id: `${id}-opener`, popoverTarget: id, 'aria-haspopup': 'menu', 'aria-expanded': isOpen })}
      <div
        ref={popover}
        id={id}
        popover="auto"
        className="st-menu"
        // The lines are drawn when they are to be seen: a long list of things has a menu for each of them.
        onBeforeToggle={(event) => event.newState === 'open' && flushSync(() => setOpen(true))}
        onToggle={(event) => onToggle(event.newState === 'open')}
      >
        {isOpen ? <MenuList label={label} lines={lines} onDone={close} /> : null}
      </div>
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
  menu.querySelector<HTMLElement>('[aria-checked="true"], [role^="menuitem"]')?.focus()
}
