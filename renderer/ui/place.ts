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

const gap = 5
const edge = 8

/**
 * The top left corner for a floating box: below its anchor, or above where there is no room below and more above,
 * and always inside the window. `start` puts it flush with the anchor's left side, or with its right side when it
 * would otherwise leave the window.
 */
export function placeFor(
  floating: Size,
  anchor: Box,
  window: Size,
  alignment: Alignment,
): { left: number; top: number } {
  const roomBelow = window.height - anchor.bottom - gap - edge
  const roomAbove = anchor.top - gap - edge
  const goesBelow = floating.height <= roomBelow || roomBelow >= roomAbove
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
export function placeNear(element: HTMLElement, anchor: Box, alignment: Alignment): void {
  const { width, height } = element.getBoundingClientRect()
  const window = {
    width: document.documentElement.clientWidth,
    height: document.documentElement.clientHeight,
  }
  const { left, top } = placeFor({ width, height }, anchor, window, alignment)
  element.style.left = `${Math.round(left)}px`
  element.style.top = `${Math.round(top)}px`
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(value, high))
}
