/** Runs in the page: scrolls a pane frame by frame, notes what ribbons write in each, and writes the same from the notes. */

export interface RibbonsDriver {
  /** Scrolls there and back so many times, one step a frame. */
  run(ways: number): Promise<void>
  /** Notes what changes in each frame of a way. @returns how many links and paths are drawn, and the least changes of a frame */
  note(): Promise<{ readonly links: number; readonly paths: number; readonly writes: number }>
  /** Adds a copy of the ribbons that is written from the notes, frame by frame. @param ways that will be run with it */
  addCopy(ways: number): void
  removeCopy(): void
}

/** What an element looks like: its attributes as texts, or as numbers where ribbons write numbers. */
type Look = Readonly<Record<string, string | readonly [number, number] | number>>
type Write = readonly [element: number, name: string, value: Look[string]]

class Driver implements RibbonsDriver {
  private readonly scroller: HTMLElement
  private readonly base: number
  private readonly noted: Write[][]
  private step = 0
  private way = 0
  private stopCopy: (() => void) | null = null

  constructor(
    selector: string,
    /** Of a way there and back. */
    private readonly frames: number,
  ) {
    this.scroller = document.querySelector<HTMLElement>(selector)!
    this.base = Math.round(this.scroller.scrollTop)
    this.noted = Array.from({ length: frames }, () => [])
  }

  async run(ways: number): Promise<void> {
    for (let n = 0; n < ways * this.frames; n += 1) {
      this.advance()
      await nextFrame()
    }
  }

  private advance(): void {
    this.step = (this.step + 1) % this.frames
    if (this.step === 0) this.way += 1
    this.scroller.scrollTop = this.base + 3 * Math.min(this.step, this.frames - this.step)
  }

  async note() {
    const elements = drawnIn(ribbons())
    await this.run(1)
    let before = elements.map(lookOf)
    for (let n = 0; n < this.frames; n += 1) {
      this.advance()
      await nextFrame()
      await nextFrame()
      const now = elements.map(lookOf)
      this.noted[this.step] = now.flatMap((look, i) =>
        Object.entries(look).flatMap(([name, value]): Write[] =>
          String(before[i]![name]) === String(value) ? [] : [[i, name, value]],
        ),
      )
      before = now
    }
    const lines = elements.filter((one) => one.matches(LINE) && one.getAttribute('d'))
    const links = lines.flatMap((one) =>
      (one.parentElement as Element as SVGGElement).dataset.links!.split(' '),
    )
    const writes = Math.min(...this.noted.map((own) => own.length))
    return { links: new Set(links).size, paths: lines.length, writes }
  }

  addCopy(ways: number): void {
    const drawn = ribbons()
    const shades = drawn.parentElement!.querySelector('defs')!.cloneNode(true)
    const picture = drawn.parentElement!.cloneNode(false) as SVGSVGElement
    const copy = drawn.cloneNode(true) as SVGGElement
    copy.dataset.copy = ''
    picture.append(shades, copy)
    document.querySelector('.st-frame')!.append(picture)
    const writers = drawnIn(copy).map(writerOf)
    // Texts of the page's own, each used once: the browser remembers what a text that it has seen before means.
    const notes = JSON.stringify(this.noted)
    const prepared = Array.from({ length: ways }, () => JSON.parse(notes) as Write[][])
    this.way = 0
    let asked = 0
    const draw = (): void => {
      asked = 0
      for (const [at, name, value] of prepared[this.way]![this.step]!) writers[at]!(name, value)
    }
    const onScroll = ({ target }: Event): void => {
      if (target === this.scroller) asked ||= requestAnimationFrame(draw)
    }
    document.addEventListener('scroll', onScroll, { capture: true, passive: true })
    this.stopCopy = () => {
      document.removeEventListener('scroll', onScroll, { capture: true })
      picture.remove()
    }
  }

  removeCopy(): void {
    this.stopCopy?.()
    this.stopCopy = null
  }
}

const nextFrame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve))
const ribbons = (): Element => document.querySelector('.st-ribbons-drawn:not([data-copy])')!
const drawnIn = (root: Element): SVGElement[] => [...root.querySelectorAll<SVGElement>('path, g, line')]

const LINE = '.st-ribbon-line'

/** What of an element changes while panes scroll. Lines are stretched paths, trunks upright lines: both by numbers. */
function lookOf(element: Element): Look {
  const read = (name: string): string => element.getAttribute(name) ?? ''
  if (element instanceof SVGLineElement) return { y1: element.y1.baseVal.value, y2: element.y2.baseVal.value }
  if (!element.matches(LINE)) return { transform: read('transform') }
  const { d: over, f: top } = (element as SVGPathElement).transform.baseVal.getItem(0).matrix
  return { d: read('d'), matrix: [over, top] }
}

/** How an element is drawn anew: by the same means as the ribbons are. */
function writerOf(element: SVGElement): (name: string, value: Look[string]) => void {
  const place = element.matches(LINE) ? (element as SVGPathElement).transform.baseVal.getItem(0) : null
  return (name, value) => {
    if (typeof value === 'string') element.setAttribute(name, value)
    else if (typeof value === 'number') (element as SVGLineElement)[name as 'y1' | 'y2'].baseVal.value = value
    else {
      ;[scratch.d, scratch.f] = value
      place!.setMatrix(scratch)
    }
  }
}

const scratch = document.createElementNS('http://www.w3.org/2000/svg', 'svg').createSVGMatrix()

globalThis.makeRibbonsDriver = (selector, frames) => new Driver(selector, frames)

declare global {
  var makeRibbonsDriver: (selector: string, frames: number) => RibbonsDriver
}
