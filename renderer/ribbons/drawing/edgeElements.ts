/** The marks at one edge of a pane. */
import type { FrameView } from '../layout.ts'
import { markLooks, type Edge } from '../marks.ts'
import { Kept, make } from './svg.ts'

export class EdgeElements {
  private readonly moving: Kept
  private readonly cut: readonly [Kept, Kept, Kept]
  private readonly paths: readonly Kept[]

  constructor(
    parent: Element,
    private readonly edge: Edge,
  ) {
    const id = `st-ribbon-cut-${edge.gap}-${edge.side}`
    const rect = make('rect', make('clipPath', parent, { id }), { x: '0' })
    const group = make('g', parent, { class: `st-ribbon-marks st-ribbon-marks--${edge.band}` })
    const moving = make('g', make('g', group, { 'clip-path': `url(#${id})` }))
    this.cut = [new Kept(rect, 'y'), new Kept(rect, 'height'), new Kept(rect, 'width')]
    this.moving = new Kept(moving, 'transform')
    this.paths = markLooks.map(({ isBar, isDim, isFixed }) => {
      const looks = [isBar ? 'st-ribbon-mark--bar' : 'st-ribbon-mark', isDim ? 'st-ribbon--dim' : '']
      return new Kept(make('path', isFixed ? group : moving, { class: looks.join(' ').trim() }), 'd')
    })
  }

  /** @param paths by `markLooks` */
  take(paths: readonly string[]): void {
    paths.forEach((path, i) => this.paths[i]!.write(path))
  }

  /** Moves the marks with their words, and cuts them off where the words are. */
  draw({ boxes, geometry, scrolled }: FrameView): void {
    const { top, bottom } = boxes[this.edge.band]
    this.cut[0].write(String(top))
    this.cut[1].write(String(Math.max(0, bottom - top)))
    this.cut[2].write(String(geometry.width))
    this.moving.write(`translate(0 ${-scrolled[this.edge.band]})`)
  }
}
