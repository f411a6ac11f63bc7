/**
 * The one bubble that all tooltips show their words in. It is made when it is first wanted and moves into the anchor that
 * it is shown for: a long list has a tooltip for each of its many buttons, and none of them is drawn before it is seen.
 */
import { placeNear, type Side } from './place.ts'

export interface Tip {
  readonly words: string
  readonly keys: string | undefined
  readonly side: Side
}

let bubble: HTMLElement | null = null

/** Whether an anchor's tip is shown now. */
export function isTipOf(anchor: HTMLElement): boolean {
  return bubble !== null && bubble.parentNode === anchor && bubble.matches(':popover-open')
}

/** Shows a tip beside an anchor, instead of any other. @throws DOMException while the browser shows another popover */
export function showTip(anchor: HTMLElement, { words, keys, side }: Tip): void {
  bubble ??= makeBubble()
  bubble.replaceChildren(
    ...(words === '' ? [] : [spanOf(words, null)]),
    ...(keys === undefined ? [] : [spanOf(keys, 'st-tip-keys')]),
  )
  if (bubble.parentNode !== anchor) {
    if (bubble.matches(':popover-open')) bubble.hidePopover()
    // Within the anchor, so that the pointer may move onto the words without leaving it.
    anchor.append(bubble)
  }
  if (!bubble.matches(':popover-open')) bubble.showPopover()
  // Measured where it has room to either side, not where it stood last.
  bubble.style.left = '0px'
  placeNear(bubble, anchor.getBoundingClientRect(), 'centre', side)
}

/** Takes an anchor's tip away, where it is the one that is shown. */
export function hideTip(anchor: HTMLElement): void {
  if (isTipOf(anchor)) bubble!.hidePopover()
}

function makeBubble(): HTMLElement {
  const made = document.createElement('span')
  made.popover = 'manual'
  made.className = 'st-tip'
  made.ariaHidden = 'true'
  return made
}

function spanOf(words: string, className: string | null): HTMLElement {
  const span = document.createElement('span')
  if (className !== null) span.className = className
  span.textContent = words
  return span
}
