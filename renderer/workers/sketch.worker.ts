/** Draws diagrams, one after the other, in the fonts of the page. */
import latinExtended from '@fontsource-variable/commissioner/files/commissioner-latin-ext-wght-normal.woff2?url'
import latin from '@fontsource-variable/commissioner/files/commissioner-latin-wght-normal.woff2?url'
import { createTextMeasure } from '../sketch/drawing/measuring.ts'
import { setUpScreen } from '../sketch/drawing/screen.ts'
import type { SketchMessage, SketchRequest } from './sketch.ts'

const say = (message: SketchMessage): void => postMessage(message)

/** Without its fonts a diagram is still drawn, in what measuring finds instead. */
const fonts = Promise.allSettled([
  addFont(
    latin,
    'U+0000-00FF, U+0131, U+0152-0153, U+02C6, U+02DA, U+02DC, U+2000-206F, U+20AC, U+2122, U+2191, U+2193, U+2212',
  ),
  addFont(latinExtended, 'U+0100-02BA, U+1E00-1E9F, U+20A0-20AB, U+20AD-20C0, U+2113'),
])

async function addFont(address: string, unicodeRange: string): Promise<void> {
  const font = new FontFace('Commissioner', `url(${address})`, { weight: '100 900', unicodeRange })
  ;(globalThis as unknown as { fonts: { add(font: FontFace): void } }).fonts.add(font)
  await font.load()
}

addEventListener('message', ({ data }: MessageEvent<SketchRequest>) => {
  void draw(data.text).then(
    (result) => say({ kind: 'drawn', number: data.number, result }),
    (error: unknown) => say({ kind: 'broken', number: data.number, reason: String(error) }),
  )
})

async function draw(text: string) {
  await fonts
  const { drawSketch } = await ready
  return drawSketch(text)
}

setUpScreen(createTextMeasure())
// The library looks for its document when it is loaded.
const ready = import('../sketch/drawing/draw.ts')
