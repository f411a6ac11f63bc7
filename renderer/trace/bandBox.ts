/** Where a panel stands that lies over one of the three panes and leaves the composer free. */
import { useLayoutEffect, useState } from 'react'
import type { Band } from '../frame/layout.ts'

/** In CSS pixels from the window's top left corner. */
export interface PanelBox {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

export interface PanelSurroundings {
  /** The pane that the panel lies over. */
  readonly pane: Box
  readonly journal: Box
  /** What must stay free: the composer at the journal's foot. null where the journal is folded. */
  readonly foot: Box | null
  readonly window: { readonly width: number; readonly height: number }
}

/** A panel is at least this wide, and no wider than its pane or this, in root font sizes. */
const LEAST = 17
const MOST = 38
const EDGE = 6

/**
 * The box of a panel over a pane: as wide as the pane where that is enough, else reaching over its neighbour; over the
 * journal it ends above the composer.
 * @param rootFont the root's font size in pixels
 */
export function panelBox({ pane, journal, foot, window }: PanelSurroundings, rootFont: number): PanelBox {
  const wanted = Math.min(Math.max(pane.right - pane.left - 2 * EDGE, LEAST * rootFont), MOST * rootFont)
  const width = Math.min(wanted, window.width - 2 * EDGE)
  const isOnTheRight = pane.left + pane.right > window.width
  const flush = isOnTheRight ? pane.right - EDGE - width : pane.left + EDGE
  const left = Math.max(EDGE, Math.min(flush, window.width - EDGE - width))
  const overlapsJournal = left < journal.right && left + width > journal.left
  const bottom = (foot && overlapsJournal ? Math.min(foot.top, pane.bottom) : pane.bottom) - EDGE
  const top = pane.top + EDGE
  return { left, top, width, height: Math.max(0, bottom - top) }
}

/** The box over all three panes; it too leaves the composer free. */
export function wideBox({ pane, foot, window }: Omit<PanelSurroundings, 'journal'>): PanelBox {
  const top = pane.top + EDGE
  const bottom = (foot ? Math.min(foot.top, pane.bottom) : pane.bottom) - EDGE
  return { left: EDGE, top, width: window.width - 2 * EDGE, height: Math.max(0, bottom - top) }
}

/** As wide as lines can be read, in root font sizes. */
const MIDDLE = 58

/** The box in the middle of the window; it too leaves the composer free. Without panes it has the window's height. */
export function middleBox(
  { pane, foot, window }: Omit<PanelSurroundings, 'journal' | 'pane'> & { readonly pane: Box | null },
  rootFont: number,
): PanelBox {
  const width = Math.min(MIDDLE * rootFont, window.width - 2 * EDGE)
  const around = pane ?? {
    ...{ left: 0, top: 4 * rootFont },
    ...{ right: window.width, bottom: window.height - 2 * rootFont },
  }
  const { top, height } = wideBox({ pane: around, foot, window })
  return { left: (window.width - width) / 2, top, width, height }
}

/** Where a panel lies: over one pane, over all of them, or in the middle. */
export type PanelBand = Band | 'all' | 'middle'

/** The box over a pane, or over all, as the panes stand now; null before the first measure. */
export function useBandBox(band: PanelBand): PanelBox | null {
  const [box, setBox] = useState<PanelBox | null>(null)
  useLayoutEffect(() => {
    const measure = (): void => setBox(measureBox(band))
    measure()
    const observer = new ResizeObserver(measure)
    for (const element of document.querySelectorAll('.st-pane, .st-pane-foot')) observer.observe(element)
    window.addEventListener('resize', measure)
    return () => {
      observer.disconnect()
      window.removeEventListener('resize', measure)
    }
  }, [band])
  return box
}

function measureBox(band: PanelBand): PanelBox | null {
  const boxOf = (selector: string): Box | null =>
    document.querySelector(selector)?.getBoundingClientRect() ?? null
  const isOverAll = band === 'all' || band === 'middle'
  const pane = boxOf(`[data-band="${isOverAll ? 'journal' : band}"]`)
  const journal = boxOf('[data-band="journal"]')
  const { clientWidth: width, clientHeight: height } = document.documentElement
  const rootFont = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 15
  const foot = boxOf('[data-band="journal"] .st-pane-foot')
  if (band === 'middle') return middleBox({ pane, foot, window: { width, height } }, rootFont)
  if (!pane || !journal) return null
  if (band === 'all') return wideBox({ pane, foot, window: { width, height } })
  return panelBox({ pane, journal, foot, window: { width, height } }, rootFont)
}
