/** The elements of one bundle: its strokes, and its count where it is more than one link. */
import { idsOf, type Bundle } from '../bundles.ts'
import { middleOf, unitPath, widthOf, type Stroke } from '../geometry.ts'
import type { Drawn } from '../layout.ts'
import { strokeOf } from './shades.ts'
import { canvas, Kept, make, say, UNSEEN } from './svg.ts'

/** A path of height 1 that is stretched and moved by numbers. */
export class StrokeElement {
  private readonly path: SVGPathElement
  private readonly place: SVGTransform
  private stroke: Stroke | null = null
  private y = Number.NaN
  private over = Number.NaN

  constructor(parent: Element) {
    this.path = make('path', parent, { class: 'st-ribbon-line' })
    this.place = this.path.transform.baseVal.appendItem(canvas().createSVGTransform())
  }

  /** @param stroke null for none. @returns whether it is another one than before */
  draw(stroke: Stroke | null): boolean {
    const isOther = stroke !== this.stroke
    if (isOther) {
      this.stroke = stroke
      this.path.setAttribute('d', stroke ? unitPath(stroke.kind, stroke.way) : '')
    }
    if (stroke && (stroke.y !== this.y || stroke.over !== this.over)) this.move(stroke)
    return isOther
  }

  private move({ y, over }: Stroke): void {
    this.y = y
    this.over = over
    const matrix = scratch()
    matrix.d = over
    matrix.f = y
    this.place.setMatrix(matrix)
  }
}

let ownMatrix: DOMMatrix | null = null

/** Written to before each use. */
const scratch = (): DOMMatrix => (ownMatrix ??= canvas().createSVGMatrix())

export class RibbonElements {
  private readonly group: SVGGElement
  private readonly strokes: readonly [StrokeElement, StrokeElement]
  private readonly count: SVGGElement
  private readonly number: SVGTextElement
  private readonly look: Kept
  private readonly links: Kept
  private readonly shade: Kept
  private readonly width: Kept
  private readonly countPlace: Kept

  /** @param counts is drawn over all lines */
  constructor(lines: Element, counts: Element) {
    this.group = make('g', lines)
    this.strokes = [new StrokeElement(this.group), new StrokeElement(this.group)]
    this.count = make('g', counts, { class: 'st-ribbon-count', transform: UNSEEN })
    make('circle', this.count)
    this.number = make('text', this.count)
    this.look = new Kept(this.group, 'class')
    this.links = new Kept(this.group, 'data-links')
    this.shade = new Kept(this.group, 'stroke')
    this.width = new Kept(this.group, 'stroke-width')
    this.countPlace = new Kept(this.count, 'transform')
  }

  dress(bundle: Bundle, isDim: boolean): void {
    const { form, route, strands } = bundle
    this.look.write(`st-ribbon st-ribbon--${form}${isDim ? ' st-ribbon--dim' : ''}`)
    this.links.write(idsOf(bundle).join(' '))
    this.shade.write(`url(#${strokeOf[route]})`)
    say(this.number, strands.length > 1 ? String(strands.length) : '')
    if (strands.length < 2) this.countPlace.write(UNSEEN)
  }

  draw({ bundle, strokes: [first, second] }: Drawn): void {
    const { length } = bundle.strands
    const isOther = this.strokes[0].draw(first ?? null)
    this.strokes[1].draw(second ?? null)
    if (first && isOther) this.width.write(String(widthOf(length, first.kind)))
    if (length < 2) return
    const middle = first && !second ? middleOf(first) : null
    this.countPlace.write(middle ? `translate(${middle[0]} ${middle[1]})` : UNSEEN)
  }

  point(isAt: boolean): void {
    this.group.toggleAttribute('data-near', isAt)
  }

  remove(): void {
    this.group.remove()
    this.count.remove()
  }
}
