/** Where something that floats stands beside the thing it belongs to. All lengths in CSS pixels. */

export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}
export interface Size {
  readonly width: number
  readonly height: number
}
export type Alignment = 'start' | 'centre'
/** The side that is taken while there is room on it. */
export type Side = 'below' | 'above'

const gap = 5
const edge = 8

/**
 * The top left corner for a floating box: on the wanted side of its anchor, or on the other where only that one has
 * room, and always inside the window. `start` puts it flush with the anchor's left side, or with its right side when it
 * would otherwise leave the window.
 */
export function placeFor(
  floating: Size,
  anchor: Box,
  window: Size,
  alignment: Alignment,
  side: Side = 'below',
): { left: number; top: number } {
  const roomBelow = window.height - anchor.bottom - gap - edge
  const roomAbove = anchor.top - gap - edge
  const wanted = side === 'below' ? roomBelow : roomAbove
  const other = side === 'below' ? roomAbove : roomBelow
  const goesBelow = (floating.height <= wanted || wanted >= other) === (side === 'below')
  const top = goesBelow ? anchor.bottom + gap : anchor.top - gap - floating.height

  const centred = (anchor.left + anchor.right - floating.width) / 2
  const fitsFromLeft = anchor.left + floating.width <= window.width - edge
  const flush = fitsFromLeft ? anchor.left : anchor.right - floating.width
  const left = alignment === 'centre' ? centred : flush

  return {
    left: clamp(left, edge, window.width - floating.width - edge),
    top: clamp(top, edge, window.height - floating.height - edge),
  }
}

/** Puts a shown element beside its anchor. Must be called while the element has a size. */
export function placeNear(
  element: HTMLElement,
  anchor: Box,
  alignment: Alignment,
  side: Side = 'below',
): void {
  const { width, height } = element.getBoundingClientRect()
  const window = {
    width: document.documentElement.clientWidth,
    height: document.documentElement.clientHeight,
  }
  const { left, top } = placeFor({ width, height }, anchor, window, alignment, side)
  element.style.left = `${Math.round(left)}px`
  element.style.top = `${Math.round(top)}px`
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(value, high))
}
