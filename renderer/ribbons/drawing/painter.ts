/** The elements of all ribbons. They are made once and written to again; what is as it was is not written. */
import type { FrameGeometry } from '../../frame/geometry.ts'
import type { Drawn, DrawnFrame } from '../layout.ts'
import { edges, marksOf } from '../marks.ts'
import { allTabs } from '../tabs.ts'
import { EdgeElements } from './edgeElements.ts'
import { RibbonElements } from './ribbonElements.ts'
import { make } from './svg.ts'
import { TabElements, TrunkElement } from './tabElements.ts'

/** What the pointer can be at: a ribbon or a tab, by its index. */
export type Pointed = { readonly ribbon: number } | { readonly tab: number }

export class Painter {
  private readonly ribbons: RibbonElements[] = []
  private readonly lines: SVGGElement
  private readonly counts: SVGGElement
  private readonly edges: readonly EdgeElements[]
  private readonly trunks: readonly TrunkElement[]
  private readonly tabs: readonly TabElements[]
  private dims = false
  /** What the tabs gathered last. */
  private counted: readonly number[] = []
  private pointed: { point(isAt: boolean): void } | null = null

  constructor(root: SVGGElement) {
    const trunks = make('g', root)
    this.trunks = allTabs.map((tab) => new TrunkElement(trunks, tab))
    this.lines = make('g', root)
    this.edges = edges.map((edge) => new EdgeElements(root, edge))
    this.counts = make('g', root)
    const tabs = make('g', root)
    this.tabs = allTabs.map((tab) => new TabElements(tabs, tab))
  }

  /** Has an element for each bundle, in its form. @param dims whether those that are not the person's own step back */
  take(drawn: readonly Drawn[], geometry: FrameGeometry, dims: boolean): void {
    this.point(null)
    this.dims = dims
    while (this.ribbons.length < drawn.length) this.ribbons.push(new RibbonElements(this.lines, this.counts))
    for (const gone of this.ribbons.splice(drawn.length)) gone.remove()
    drawn.forEach(({ bundle }, i) => this.ribbons[i]!.dress(bundle, dims && !bundle.isOwn))
    const marks = marksOf(
      drawn.map(({ bundle }) => bundle),
      geometry,
      dims,
    )
    this.edges.forEach((edge, i) => edge.take(marks[i]!))
  }

  /** Writes what is otherwise than before. */
  draw(drawn: readonly Drawn[], { view, tabs: { counts, heights, trunks } }: DrawnFrame): void {
    for (const edge of this.edges) edge.draw(view)
    for (let i = 0; i < drawn.length; i += 1) if (drawn[i]!.isMoved) this.ribbons[i]!.draw(drawn[i]!)
    for (let i = 0; i < allTabs.length; i += 1) {
      if (counts[i] === 0 && this.counted[i] === 0) continue
      this.trunks[i]!.draw(trunks[i]!, counts[i]!, this.dims, view)
      this.tabs[i]!.draw(counts[i]!, heights[i]!, view)
    }
    this.counted = counts
  }

  /** Shows what the pointer is at. */
  point(at: Pointed | null): void {
    const next = at === null ? null : (('tab' in at ? this.tabs[at.tab] : this.ribbons[at.ribbon]) ?? null)
    if (next === this.pointed) return
    this.pointed?.point(false)
    this.pointed = next
    next?.point(true)
  }
}
