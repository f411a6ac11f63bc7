/**
 * The procedure: rows of which, in a long one, those near the view are in the page. What is in a row far from view may not
 * be laid out, so that such a row alone is asked for its place.
 */
import type { Spot } from '../bundles.ts'
import type { RibbonEnd } from '../links.ts'
import { sideOf, Surface } from './surface.ts'
import { firstLine, WordPlaces } from './words.ts'

/** Holds a part's text, rendered or in an editor. */
const TEXT = '.st-part-read[data-node], .st-editor[data-node]'

/** The order of the rows of the procedure that is shown. */
export interface RowOrder {
  /** The index of a part's row; undefined for one of another procedure. */
  readonly ofPart: (part: string) => number | undefined
  readonly ofStep: (step: string) => number | undefined
}

export class ProcedureSurface extends Surface {
  order: RowOrder = { ofPart: () => undefined, ofStep: () => undefined }
  private parts = new Map<string, HTMLElement>()
  private boxes = new Map<Element, DOMRect>()
  private firstBelowTop = Number.POSITIVE_INFINITY
  private readonly words = new WordPlaces()

  thingsInPage(): Iterable<string> {
    return this.parts.keys()
  }

  forget(element: Element): void {
    const root = element.closest(TEXT)
    if (root) this.words.forget(root)
  }

  protected findScroller(): HTMLElement | null {
    return this.pane!.querySelector<HTMLElement>('.st-pane-body')
  }

  protected findThings(): void {
    const all = this.scroller?.querySelectorAll<HTMLElement>(TEXT) ?? []
    this.parts = new Map([...all].map((part) => [part.dataset.node!, part]))
    this.boxes = new Map()
    const rows = [...(this.scroller?.querySelectorAll<HTMLElement>('[data-step]') ?? [])]
    const first = rows.find((row) => this.isBelowTop(this.boxOf(row)))
    this.firstBelowTop = (first && this.order.ofStep(first.dataset.step!)) ?? Number.POSITIVE_INFINITY
  }

  protected find(end: RibbonEnd): Spot {
    const part = this.parts.get(end.node.id)
    if (!part) return sideOf(this.order.ofPart(end.node.id), this.firstBelowTop)
    const row = this.boxOf(part.closest('[data-step], .st-own-part') ?? part)
    if (!this.isNear(row)) return this.scrolling(row, 'rough')
    const box = this.boxOf(part)
    if (end.places.length === 0) return this.scrolling(firstLine(box))
    return this.scrolling(this.words.extentOf(part, box, end.places, end.key))
  }

  private boxOf(element: Element): DOMRect {
    const known = this.boxes.get(element)
    if (known) return known
    const box = element.getBoundingClientRect()
    this.boxes.set(element, box)
    return box
  }
}
