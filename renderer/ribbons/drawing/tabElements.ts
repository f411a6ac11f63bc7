/** The elements of tabs, and of the trunks that lead to them. */
import type { FrameGeometry } from '../../frame/geometry.ts'
import { trunkWidth } from '../geometry.ts'
import { formOfTrunk, type FrameView, type Trunk } from '../layout.ts'
import { tabLeft, trunkOf, type TabPlace } from '../tabs.ts'
import { strokeOf } from './shades.ts'
import { Kept, make, say, UNSEEN } from './svg.ts'
import { arrowPath, sheetPath } from './tabLooks.ts'

/** The upright line that all ribbons to a tab share. */
export class TrunkElement {
  private readonly line: SVGLineElement
  private readonly look: Kept
  private readonly width: Kept
  private readonly x: readonly Kept[]
  private shown: Trunk = { top: 0, bottom: 0, forms: 0, isOwn: false }

  constructor(
    parent: Element,
    private readonly tab: TabPlace,
  ) {
    this.line = make('line', parent, {
      stroke: `url(#${strokeOf[tab.gap === 0 ? 'first gap' : 'second gap']})`,
    })
    this.look = new Kept(this.line, 'class')
    this.width = new Kept(this.line, 'stroke-width')
    this.x = ['x1', 'x2'].map((name) => new Kept(this.line, name))
  }

  draw(trunk: Trunk, count: number, dims: boolean, view: FrameView): void {
    const isDim = dims && !trunk.isOwn
    this.look.write(`st-ribbon-trunk st-ribbon-trunk--${formOfTrunk(trunk)}${isDim ? ' st-ribbon--dim' : ''}`)
    this.width.write(count === 0 ? '0' : String(trunkWidth(count)))
    for (const x of this.x) x.write(String(trunkOf(this.tab, view)))
    if (trunk.top !== this.shown.top) this.line.y1.baseVal.value = trunk.top
    if (trunk.bottom !== this.shown.bottom) this.line.y2.baseVal.value = trunk.bottom
    this.shown = trunk
  }
}

export class TabElements {
  private readonly group: SVGGElement
  private readonly number: SVGTextElement
  private readonly place: Kept
  private readonly sheet: Kept
  private readonly arrow: Kept
  private readonly numberPlace: Kept
  private count = 0
  private middle = 0
  private geometry: FrameGeometry | null = null

  constructor(
    parent: Element,
    private readonly tab: TabPlace,
  ) {
    this.group = make('g', parent, {
      class: `st-ribbon-tab st-ribbon-tab--${tab.side}`,
      'data-gap': String(tab.gap),
      'data-aside': tab.aside,
      transform: UNSEEN,
    })
    this.sheet = new Kept(make('path', this.group, { class: 'st-ribbon-tab-sheet' }), 'd')
    this.arrow = new Kept(make('path', this.group, { class: 'st-ribbon-tab-arrow' }), 'd')
    this.number = make('text', this.group)
    this.place = new Kept(this.group, 'transform')
    this.numberPlace = new Kept(this.number, 'transform')
  }

  draw(count: number, middle: number, view: FrameView): void {
    if (count === this.count && middle === this.middle && view.geometry === this.geometry) return
    this.count = count
    this.middle = middle
    this.geometry = view.geometry
    if (count === 0) return this.place.write(UNSEEN)
    const { width, height } = view.tabSize
    const { aside, side } = this.tab
    this.place.write(`translate(${tabLeft(this.tab, view)} ${Math.round(middle - height / 2)})`)
    this.sheet.write(sheetPath(side, view.tabSize))
    this.arrow.write(arrowPath(this.tab, view.tabSize))
    this.numberPlace.write(`translate(${width / 2} ${height * (aside === 'above' ? 0.64 : 0.36)})`)
    say(this.number, count > 99 ? '99+' : String(count))
  }

  point(isAt: boolean): void {
    this.group.toggleAttribute('data-near', isAt)
  }
}
