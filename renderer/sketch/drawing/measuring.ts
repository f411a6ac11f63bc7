/** Measures text as the page will show it. */
import type { Font, TextMeasure, TextSize } from '../../../shared/sketch/textBox.ts'

/** As `--prose` in theme.css. Every diagram is shown in it, whatever its text asks for. */
const FAMILY = "Commissioner, 'Noto Sans', 'DejaVu Sans', sans-serif"
const KEPT = 4000

/** Measures with a surface of the browser; needs the fonts to be there before it is first asked. */
export function createTextMeasure(): TextMeasure {
  const context = new OffscreenCanvas(1, 1).getContext('2d')!
  context.textRendering = 'geometricPrecision'
  const kept = new Map<string, TextSize>()
  return (text: string, { size, weight, style }: Font) => {
    const font = `${style} ${weight} ${size}px ${FAMILY}`
    const key = `${font}\n${text}`
    const known = kept.get(key)
    if (known) return known
    context.font = font
    const {
      width,
      fontBoundingBoxAscent: ascent,
      fontBoundingBoxDescent: descent,
    } = context.measureText(text)
    const measured = { width, ascent, descent }
    if (kept.size >= KEPT) kept.clear()
    kept.set(key, measured)
    return measured
  }
}
