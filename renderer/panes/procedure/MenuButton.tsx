import { useRef, useState } from 'react'
import { Button, MenuAt, type Box, type MenuLine } from '../../ui/index.ts'
import { MoreIcon } from '../../ui/icons.tsx'

export interface MenuButtonProps {
  readonly label: string
  /** Asked when the menu opens: a procedure has hundreds of menus, and hardly one is ever opened. */
  readonly lines: () => readonly MenuLine[]
  readonly tabIndex?: number
}

/** Opens a menu whose lines are made only then. */
export function MenuButton({ label, lines, tabIndex }: MenuButtonProps) {
  const [at, setAt] = useState<Box | null>(null)
  // A press on the button closes the open menu before the click arrives, which must not open it again.
  const wasOpen = useRef(false)
  return (
    <>
      <Button
        look="quiet"
        icon={MoreIcon}
        label={label}
        aria-haspopup="menu"
        aria-expanded={at !== null}
        {...(tabIndex === undefined ? {} : { tabIndex })}
        onPointerDown={() => {
          wasOpen.current = at !== null
        }}
        onClick={(event) => {
          if (!wasOpen.current) setAt(event.currentTarget.getBoundingClientRect())
          wasOpen.current = false
        }}
      />
      {at ? <MenuAt label={label} lines={lines()} at={at} onClose={() => setAt(null)} /> : null}
    </>
  )
}
