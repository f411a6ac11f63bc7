/** One pane as ribbons see it: what scrolls, what of it is seen, and where things stand in it. */
import type { Band } from '../../frame/layout.ts'
import type { Spot } from '../bundles.ts'
import type { Extent } from '../geometry.ts'
import type { RibbonEnd } from '../links.ts'

/** Things so far beyond the view are measured word by word; those further away by their rows. CSS pixels. */
const REACH = 600

export abstract class Surface {
  /** What is seen of the pane's text, from the frame's upper edge. */
  box: Extent = { top: 0, bottom: 0 }
  /** What scrolls; null where nothing does. */
  scroller: HTMLElement | null = null
  scrollTop = 0
  /** Whether it must be looked at again before anything is drawn. */
  isStale = true
  protected pane: HTMLElement | null = null
  /** What is added to a height of the window to get one of the pane's text. */
  private shift = 0
  private frameTop = 0
  private readAt = 0
  private hasRough = false
  private readonly spots = new Map<string, Spot>()

  constructor(
    readonly band: Band,
    protected readonly frame: HTMLElement,
  ) {}

  /** Reads how far the pane is scrolled. */
  readScroll(): void {
    this.scrollTop = this.scroller?.scrollTop ?? 0
    if (this.hasRough && Math.abs(this.scrollTop - this.readAt) > REACH / 2) this.isStale = true
  }

  /** Looks at the pane anew. What is asked for later is answered by what stands in the page then. */
  refresh(): void {
    this.isStale = false
    this.hasRough = false
    this.spots.clear()
    this.pane = this.frame.querySelector<HTMLElement>(`[data-band="${this.band}"]`)
    this.frameTop = this.frame.getBoundingClientRect().top
    this.scroller = this.isFolded ? null : this.findScroller()
    this.scrollTop = this.scroller?.scrollTop ?? 0
    this.readAt = this.scrollTop
    this.shift = this.scrollTop - this.frameTop
    const seen = this.scroller ?? this.pane?.querySelector('.st-pane-body') ?? this.pane
    if (seen) {
      const { top, bottom } = seen.getBoundingClientRect()
      this.box = { top: top - this.frameTop, bottom: bottom - this.frameTop }
    }
    if (!this.isFolded) this.findThings()
  }

  get isFolded(): boolean {
    return this.pane === null || this.pane.classList.contains('st-pane--folded')
  }

  /** Where an end is; found once for each look. */
  locate(end: RibbonEnd): Spot {
    const known = this.spots.get(end.key)
    if (known) return known
    const spot: Spot = this.isFolded ? { kind: 'folded' } : this.find(end)
    if (spot.kind === 'rough') this.hasRough = true
    this.spots.set(end.key, spot)
    return spot
  }

  /** The elements whose sizes say that something moved. */
  watchable(): Element[] {
    const seen = this.scroller ?? this.pane?.querySelector('.st-pane-body') ?? null
    return seen ? [seen, ...(this.scroller?.children ?? [])] : []
  }

  /** The ids of the things that are in the page now. */
  abstract thingsInPage(): Iterable<string>
  /** Something within an element changed. */
  abstract forget(element: Element): void
  protected abstract findScroller(): HTMLElement | null
  protected abstract findThings(): void
  protected abstract find(end: RibbonEnd): Spot

  /** The spot of heights of the window that scroll with the text. */
  protected scrolling({ top, bottom }: Extent, kind: 'at' | 'rough' = 'at'): Spot {
    return { kind, top: top + this.shift, bottom: bottom + this.shift }
  }

  /** The spot of heights of the window that stay while the text scrolls. */
  protected fixed({ top, bottom }: Extent): Spot {
    return { kind: 'fixed', top: top - this.frameTop, bottom: bottom - this.frameTop }
  }

  /** Whether a box of the window is in view or so near that its words are to be known. */
  protected isNear({ top, bottom }: Extent): boolean {
    return bottom > this.box.top + this.frameTop - REACH && top < this.box.bottom + this.frameTop + REACH
  }

  /** Whether a box of the window is in view, or below it. */
  protected isBelowTop({ bottom }: Extent): boolean {
    return bottom > this.box.top + this.frameTop
  }

  /** Narrows what is seen of the text, where something lies over its upper edge. @param bottom of that, in the window */
  protected coverTop(bottom: number): void {
    this.box = { top: Math.max(this.box.top, bottom - this.frameTop), bottom: this.box.bottom }
  }
}

/**
 * For a row that is not in the page: whether it stands above or below the view. Rows that are not there are never in view,
 * except for a moment until they are drawn.
 * @param index of the row; undefined for one of another list
 * @param firstBelowTop the index of the first row in the page that does not lie above the view; Infinity for none
 */
export function sideOf(index: number | undefined, firstBelowTop: number): Spot {
  if (index === undefined) return { kind: 'elsewhere' }
  return { kind: index < firstBelowTop ? 'above' : 'below' }
}
