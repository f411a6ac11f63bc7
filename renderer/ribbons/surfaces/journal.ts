/** The journal: entries in a list of which those near the view are in the page. */
import type { Spot } from '../bundles.ts'
import type { RibbonEnd } from '../links.ts'
import { indexInList } from '../order.ts'
import { sideOf, Surface } from './surface.ts'
import { firstLine, WordPlaces } from './words.ts'

/** Holds an entry's text, rendered or in an editor. */
const TEXT = '[data-entry-text], .st-editor'

export class JournalSurface extends Surface {
  private entries = new Map<string, HTMLElement>()
  private firstBelowTop = Number.POSITIVE_INFINITY
  private readonly words = new WordPlaces()

  thingsInPage(): Iterable<string> {
    return this.entries.keys()
  }

  forget(element: Element): void {
    const root = element.closest(TEXT)
    if (root) this.words.forget(root)
  }

  protected findScroller(): HTMLElement | null {
    return this.pane!.querySelector<HTMLElement>('.st-log-scroll')
  }

  protected findThings(): void {
    const all = this.scroller?.querySelectorAll<HTMLElement>('[data-entry]') ?? []
    this.entries = new Map([...all].map((entry) => [entry.dataset.entry!, entry]))
    const head = this.scroller?.querySelector('.st-log-row--head')
    if (head) this.coverTop(head.getBoundingClientRect().bottom)
    this.firstBelowTop = this.findFirstBelowTop()
  }

  private findFirstBelowTop(): number {
    const below = [...this.entries.values()].filter((entry) => this.isBelowTop(entry.getBoundingClientRect()))
    const rows = below.map((entry) => entry.closest<HTMLElement>('[data-index]'))
    return Math.min(...rows.map((row) => Number(row?.dataset.index)))
  }

  protected find(end: RibbonEnd): Spot {
    const entry = this.entries.get(end.node.id)
    if (!entry) return sideOf(indexInList('journal', end.node.id), this.firstBelowTop)
    const root = end.places.length === 0 ? null : entry.querySelector(TEXT)
    if (!root) return this.scrolling(firstLine(entry.getBoundingClientRect()))
    return this.scrolling(this.words.extentOf(root, root.getBoundingClientRect(), end.places, end.key))
  }
}
