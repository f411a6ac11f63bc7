/**
 * Keeps the ribbons where their words are, as long as there are any: while a pane scrolls, its size changes, or something
 * in it does. In one frame everything is read first and everything written then. A frame in which panes only scroll reads
 * how far, and nothing else.
 */
import type { FrameGeometry } from '../frame/geometry.ts'
import type { Band } from '../frame/layout.ts'
import { routeOf, toBundles, type Strand } from './bundles.ts'
import { findAt, goalOf, type Goal } from './hits.ts'
import { layOut, toDrawn, type Drawn, type DrawnFrame, type FrameView } from './layout.ts'
import type { RibbonLink } from './links.ts'
import { Painter, type Pointed } from './drawing/painter.ts'
import { JournalSurface } from './surfaces/journal.ts'
import { ProcedureSurface, type RowOrder } from './surfaces/procedure.ts'
import { SourcesSurface } from './surfaces/sources.ts'
import type { Surface } from './surfaces/surface.ts'
import { tabSizeFor } from './tabs.ts'

/** What is to be drawn. */
export interface Shown {
  readonly geometry: FrameGeometry
  /** The links, given the ids of the things that are in the page. */
  readonly collect: (things: Iterable<string>) => readonly RibbonLink[]
  /** The ids of the links that belong to what the person is at. */
  readonly own: ReadonlySet<string>
  /** The ids of what the person is at. */
  readonly things: ReadonlySet<string>
  /** Whether links of other things are shown too. */
  readonly isAll: boolean
  readonly order: RowOrder
}

const isStale = (surface: Surface): boolean => surface.isStale

/** After so long without scrolling every place is looked at once more, in milliseconds. */
const REST = 500

/** A text that is being typed. */
const TYPED = '.cm-content:not([aria-readonly="true"])'

export class LiveRibbons {
  private readonly procedure: ProcedureSurface
  private readonly surfaces: readonly Surface[]
  private readonly painter: Painter
  private readonly sizes: ResizeObserver
  private readonly changes: MutationObserver
  private readonly watched = new Set<Element>()
  private shown: Shown | null = null
  private drawn: readonly Drawn[] = []
  /** What was drawn last; null before the first frame of these ribbons. */
  private last: DrawnFrame | null = null
  private boxes: FrameView['boxes'] | null = null
  private frame = 0
  private timer = 0
  private restsAt = 0
  private rootFont = 15
  private tabSize = tabSizeFor(15)

  constructor(
    root: SVGGElement,
    private readonly element: HTMLElement,
  ) {
    this.painter = new Painter(root)
    this.procedure = new ProcedureSurface('procedure', element)
    this.surfaces = [
      new SourcesSurface('sources', element),
      new JournalSurface('journal', element),
      this.procedure,
    ]
    // Sizes are known once the page is laid out and before it is painted, so what follows from them is drawn at once.
    this.sizes = new ResizeObserver((entries) => this.takeSizes(entries))
    this.changes = new MutationObserver((records) => this.takeChanges(records))
    element.addEventListener('scroll', this.onScroll, { capture: true, passive: true })
  }

  /** Draws this from now on. */
  show(shown: Shown): void {
    this.shown = shown
    this.procedure.order = shown.order
    this.rootFont = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 15
    this.tabSize = tabSizeFor(this.rootFont)
    this.forgetAll()
    this.draw()
  }

  /** Ends all watching. */
  stop(): void {
    cancelAnimationFrame(this.frame)
    clearTimeout(this.timer)
    this.sizes.disconnect()
    this.changes.disconnect()
    this.element.removeEventListener('scroll', this.onScroll, { capture: true })
  }

  /** What of the ribbons a point of the window is at. */
  findAt(clientX: number, clientY: number): Pointed | null {
    if (!this.last) return null
    const { left, top } = this.element.getBoundingClientRect()
    return findAt(this.drawn, this.last.tabs, this.last.view, clientX - left, clientY - top)
  }

  /** Shows what the pointer is at. */
  point(at: Pointed | null): void {
    this.painter.point(at)
  }

  /** Where a press leads. */
  goalOf(pointed: Pointed): Goal | null {
    return this.shown && goalOf(this.drawn, pointed, this.shown.things, this.shown.order)
  }

  private readonly onScroll = ({ target }: Event): void => {
    if (!this.surfaces.some(({ scroller }) => scroller === target)) return
    this.ask()
    this.lookAtRest()
  }

  private ask(): void {
    this.frame ||= requestAnimationFrame(this.onFrame)
  }

  private readonly onFrame = (): void => {
    this.frame = 0
    this.draw()
  }

  /** Looks at everything once nothing has happened for a while. One timer is enough for a long way. */
  private lookAtRest(): void {
    this.restsAt = performance.now() + REST
    this.timer ||= window.setTimeout(this.onRest, REST)
  }

  private readonly onRest = (): void => {
    const left = this.restsAt - performance.now()
    this.timer = left > 0 ? window.setTimeout(this.onRest, left) : 0
    if (this.timer !== 0) return
    this.forgetAll()
    this.ask()
  }

  private forgetAll(): void {
    for (const surface of this.surfaces) surface.isStale = true
  }

  private takeSizes(entries: readonly ResizeObserverEntry[]): void {
    for (const { target } of entries) {
      const surface = this.surfaceAround(target)
      if (surface) surface.isStale = true
    }
    this.draw()
  }

  private takeChanges(records: readonly MutationRecord[]): void {
    for (const { target } of records) {
      const element = target instanceof Element ? target : target.parentElement
      const surface = element && this.surfaceAround(element)
      if (!surface || element.closest('.st-pane-foot')) continue
      surface.forget(element)
      // Where a text is typed the words can wait for a pause; what else they move is seen by its size.
      if (element.closest(TYPED)) this.lookAtRest()
      else surface.isStale = true
    }
    if (this.surfaces.some(isStale)) this.ask()
  }

  private surfaceAround(element: Element): Surface | undefined {
    const band = element.closest<HTMLElement>('[data-band]')?.dataset.band
    return this.surfaces.find((surface) => surface.band === band)
  }

  private draw(): void {
    const { shown } = this
    if (!shown) return
    for (const surface of this.surfaces) surface.readScroll()
    if (this.surfaces.some(isStale)) this.look(shown)
    this.last = layOut(this.drawn, this.toView(shown.geometry), this.last)
    this.painter.draw(this.drawn, this.last)
  }

  /** Finds every end anew in the panes that changed. */
  private look(shown: Shown): void {
    for (const surface of this.surfaces) if (surface.isStale) surface.refresh()
    const links = shown.collect(this.surfaces.flatMap((surface) => [...surface.thingsInPage()]))
    const strands = links.flatMap((ribbon) => this.toStrand(ribbon, shown) ?? [])
    this.drawn = toDrawn(toBundles(strands), shown.geometry)
    this.last = null
    this.boxes = this.perBand(({ box }) => box)
    this.painter.take(this.drawn, shown.geometry, shown.isAll && shown.own.size > 0)
    this.watch()
  }

  private toStrand(ribbon: RibbonLink, { own }: Shown): Strand | null {
    const way = routeOf(ribbon)
    if (!way) return null
    const { left, right } = way
    return {
      ribbon,
      ...way,
      leftSpot: this.surfaceOf(left.band).locate(left),
      rightSpot: this.surfaceOf(right.band).locate(right),
      isOwn: own.has(ribbon.link.id),
    }
  }

  private surfaceOf(band: Band): Surface {
    return this.surfaces.find((surface) => surface.band === band)!
  }

  private toView(geometry: FrameGeometry): FrameView {
    return {
      geometry,
      boxes: this.boxes!,
      scrolled: this.perBand(({ scrollTop }) => scrollTop),
      tabSize: this.tabSize,
      rootFont: this.rootFont,
    }
  }

  private perBand<T>(valueOf: (surface: Surface) => T): Record<Band, T> {
    const [sources, journal, procedure] = this.surfaces as [Surface, Surface, Surface]
    return { sources: valueOf(sources), journal: valueOf(journal), procedure: valueOf(procedure) }
  }

  /** Watches what the panes are made of now. */
  private watch(): void {
    const now = new Set(this.surfaces.flatMap((surface) => surface.watchable()))
    const isSame = now.size === this.watched.size && [...now].every((element) => this.watched.has(element))
    if (isSame) return
    this.watched.clear()
    this.sizes.disconnect()
    this.changes.disconnect()
    for (const element of now) {
      this.watched.add(element)
      this.sizes.observe(element)
    }
    for (const pane of this.element.querySelectorAll('[data-band]'))
      this.changes.observe(pane, {
        attributes: true,
        attributeFilter: ['class', 'style'],
        characterData: true,
        childList: true,
        subtree: true,
      })
  }
}
