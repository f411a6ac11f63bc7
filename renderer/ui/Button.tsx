import type { ButtonHTMLAttributes, ReactNode, Ref } from 'react'
import { OpenIcon, type Icon } from './icons.tsx'
import { Tooltip } from './Tooltip.tsx'

export type ButtonLook = 'plain' | 'quiet' | 'strong' | 'danger'

interface Common extends Omit<
  ButtonHTMLAttributes<HTMLButtonElement>,
  'children' | 'type' | 'aria-label' | 'aria-pressed'
> {
  /** plain: framed. quiet: no frame until pointed at. strong: filled, at most one in view. danger: takes away for good. */
  readonly look?: ButtonLook
  /** For a button that stays pressed; leave out for one that does not. */
  readonly pressed?: boolean | undefined
  /** Keys that do the same, for instance 'Ctrl+Z': shown in the tooltip and told to assistive technology. */
  readonly keys?: string | undefined
  readonly type?: 'button' | 'submit'
  readonly ref?: Ref<HTMLButtonElement>
}
interface WithWord extends Common {
  readonly children: ReactNode
  readonly icon?: Icon
  /** Replaces the word for assistive technology; must begin with or hold the word that is seen (WCAG 2.5.3). */
  readonly label?: string
}
interface IconOnly extends Common {
  readonly icon: Icon
  /** What the button does; becomes its name and its tooltip. */
  readonly label: string
  readonly children?: undefined
}
export type ButtonProps = WithWord | IconOnly

/** A button of at least 28 px in both directions. With an icon alone it has a tooltip, also on focus.
 * One that opens a menu ends in a small arrow. */
export function Button({
  look = 'plain',
  pressed,
  keys,
  icon: Picture,
  label,
  children,
  className,
  ...rest
}: ButtonProps) {
  const isIconOnly = children === undefined
  const classes = ['st-button', `st-button--${look}`, isIconOnly ? 'st-button--icon' : '', className ?? '']
  const button = (
    <button
      type="button"
      {...rest}
      className={classes.filter((name) => name !== '').join(' ')}
      aria-label={label}
      aria-pressed={pressed}
      aria-keyshortcuts={keys === undefined ? undefined : toAriaKeys(keys)}
    >
      {Picture === undefined ? null : <Picture />}
      {isIconOnly ? null : <span className="st-button-word">{children}</span>}
      {!isIconOnly && rest['aria-haspopup'] === 'menu' ? <OpenIcon size="0.75rem" /> : null}
    </button>
  )
  if (!isIconOnly && keys === undefined) return button
  const words = isIconOnly ? (label ?? '') : ''
  return (
    <Tooltip words={words} keys={keys}>
      {button}
    </Tooltip>
  )
}

/** WAI-ARIA 1.2, aria-keyshortcuts: modifier names in full. */
function toAriaKeys(keys: string): string {
  return keys.replaceAll('Ctrl', 'Control')
}
