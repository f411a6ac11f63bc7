/** From what pdf.js finds on a page to runs of text in places, and which fonts give all characters one width. */
import type { Run } from './page.ts'

interface Item {
  readonly str?: string
  readonly dir: string
  readonly transform: readonly number[]
  readonly width: number
  readonly height: number
  readonly fontName: string
}
/** A part of what a page draws, as pdf.js gives it. */
export interface Content {
  readonly items: readonly Item[]
  readonly styles: Readonly<Record<string, { readonly fontFamily: string } | undefined>>
}
/** The runs of one page, turned so that most of its text runs from left to right. */
export class PageRuns {
  private readonly turned: { readonly angle: number; readonly run: Run }[] = []
  private isSpaced = false
  private order = 0

  constructor(
    private readonly view: readonly number[],
    private readonly mono: MonoFonts,
  ) {}

  get count(): number {
    return this.turned.length
  }

  add({ items, styles }: Content): void {
    for (const item of items) {
      if (item.str === undefined) continue
      const text = toSigns(item.str)
      if (text.trim() === '') {
        if (text !== '' && this.turned.length > 0) this.isSpaced = true
        continue
      }
      this.addItem(item, text, styles[item.fontName]?.fontFamily === 'monospace')
      this.isSpaced = false
    }
  }

  private addItem(item: Item, text: string, isMonoByName: boolean): void {
    const [a, b, , , x, y] = multiply(this.view, item.transform) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ]
    const size = item.height > 0 ? item.height : Math.hypot(item.transform[2] ?? 0, item.transform[3] ?? 0)
    if (![a, b, x, y, size, item.width].every(Number.isFinite)) return
    const angle = Math.round((Math.atan2(b, a) * 180) / Math.PI / 90) * 90
    const [left, base] = turnBack(x, y, angle)
    this.mono.see(item.fontName, isMonoByName, item.str!, item.width, size)
    const lead = text.length - text.trimStart().length
    this.turned.push({
      angle: (angle + 360) % 360,
      run: {
        text: text.trim(),
        left,
        right: left + item.width,
        y: base,
        size: Math.round(size * 10) / 10 || 1,
        font: item.fontName,
        isMono: false,
        isRightToLeft: item.dir === 'rtl',
        order: (this.order += 1),
        isSpaced: this.isSpaced || lead > 0,
      },
    })
  }

  /** Text in the direction of most comes first; each other direction is laid below it as if it were another page. */
  toRuns(): readonly Run[] {
    const angles = [0, 90, 180, 270].map((angle) =>
      this.turned.filter((one) => one.angle === angle).map(({ run }) => run),
    )
    const length = (runs: readonly Run[]): number => runs.reduce((sum, { text }) => sum + text.length, 0)
    const parts = angles.filter((runs) => runs.length > 0).sort((a, b) => length(b) - length(a))
    let bottom = 0
    return parts.flatMap((runs) => {
      const top = runs.reduce((least, { y }) => Math.min(least, y), Infinity)
      const shift = bottom === 0 ? 0 : bottom + 100 - top
      const placed = runs.map((run) => ({ ...run, y: run.y + shift }))
      bottom = placed.reduce((most, { y }) => Math.max(most, y), bottom)
      return placed
    })
  }
}

function multiply(m: readonly number[], n: readonly number[]): readonly number[] {
  const [a, b, c, d, e, f] = m as [number, number, number, number, number, number]
  const [g, h, i, j, k, l] = n as [number, number, number, number, number, number]
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f]
}

function turnBack(x: number, y: number, angle: number): readonly [number, number] {
  if (angle === 90) return [y, -x]
  if (angle === -90) return [-y, x]
  return Math.abs(angle) === 180 ? [-x, -y] : [x, y]
}

/** Noncharacters and zero bytes have no place in a text; one of the former marks pages later on. */
function toSigns(text: string): string {
  return text.replace(/[\0\ufdd0-\ufdef\ufffe\uffff]/gu, '\ufffd')
}

/** Which fonts give each character the same width: many do not say so of themselves. */
export class MonoFonts {
  private readonly fonts = new Map<
    string,
    { named: boolean; least: number; most: number; seen: number; signs: Set<string> }
  >()

  see(font: string, named: boolean, text: string, width: number, size: number): void {
    const known = this.fonts.get(font) ?? {
      named,
      least: Infinity,
      most: 0,
      seen: 0,
      signs: new Set<string>(),
    }
    this.fonts.set(font, known)
    const signs = Array.from(text)
    if (size <= 0 || /[^\u0021-\u007e]/u.test(text)) return
    const each = width / signs.length / size
    known.least = Math.min(known.least, each)
    known.most = Math.max(known.most, each)
    known.seen += 1
    if (known.signs.size < 64) for (const sign of signs) known.signs.add(sign)
  }

  /** A proportional font shows itself by a few different words; what was seen too little is taken at its name. */
  has(font: string): boolean {
    const known = this.fonts.get(font)
    if (!known || known.seen === 0) return false
    const isEven = known.most - known.least < known.most * 0.02
    if (known.named) return known.most - known.least < known.most * 0.2
    return isEven && known.most >= 0.4 && known.seen >= 4 && known.signs.size >= 8
  }
}
