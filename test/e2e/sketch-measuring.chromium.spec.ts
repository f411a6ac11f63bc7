/**
 * The measuring behind diagrams against a browser's own: the same texts are drawn by the same library, once with our
 * document without a screen and once on a page with one, and every label must stand in the same place.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { root } from '../../build/build.mjs'
import { config } from '../../renderer/sketch/drawing/draw.ts'
import type { SketchResult } from '../../shared/sketch/drawn.ts'
import { sketchPatterns } from '../../shared/sketch/patterns.ts'
import { toSvgFile } from '../../shared/sketch/saved.ts'
import { sketchSamples } from '../support/sketchSamples.ts'
import { expect, test } from './support/test.ts'

const { resolve } = createRequire(import.meta.url)
const fontFile = resolve('@fontsource-variable/commissioner/files/commissioner-latin-wght-normal.woff2')

interface Label {
  readonly words: string
  readonly x: number
  readonly y: number
  readonly width: number
}

/** Labels that are not compared. Of a journey's labels the page with a screen shows another form, which is no SVG. */
const aside: Readonly<Record<string, RegExp>> = {
  Branches: /^\d-/u,
  Timeline: /^Ofthemast$/u,
  Journey: /^(?:Anight|Focus|Open|Roof)$/u,
}
/** Units of the drawing by which a label may stand elsewhere: less than half of a letter's height. */
const NEAR = 5

test('labels stand where they stand when a browser measures them', async ({ program }) => {
  test.setTimeout(240_000)
  const { page } = program
  const [name] = readdirSync(join(root, 'dist', 'renderer', 'assets')).filter((one) =>
    /^sketch\.worker-.*\.js$/.test(one),
  )
  const screen = await screenFor(page)
  const texts = [...sketchPatterns.filter(({ id }) => id !== 'mind map'), ...sketchSamples]
  for (const { word, text } of texts) {
    const drawn = await page.evaluate(drawApart, { worker: `/assets/${name}`, text })
    if (!drawn.ok) throw new Error(`${word}: ${drawn.reason}`)
    const own = await screen.evaluate(labelsOfMarkup, toSvgFile(drawn))
    const seen = await screen.evaluate(labelsOfText, { text, config })
    // A name by chance differs in its letters; the library sets two titles in a size of their own.
    const isCompared = ({ words }: Label): boolean => !(aside[word] ?? /^$/u).test(words)
    expect(differences(own.filter(isCompared), seen.filter(isCompared)), word).toEqual([])
    expect(own.filter(isCompared).length, word).toBeGreaterThan(0)
  }
})

/** Words that stand elsewhere, or are of another width. */
function differences(own: readonly Label[], seen: readonly Label[]): unknown[] {
  const key = ({ words }: Label): string => words
  const sorted = (labels: readonly Label[]): Label[] =>
    [...labels].sort((a, b) => key(a).localeCompare(key(b)) || a.y - b.y || a.x - b.x)
  const [one, other] = [sorted(own), sorted(seen)]
  return one.flatMap((label, at) => {
    const like = other[at]
    if (!like || own.length !== seen.length) return [{ label }]
    const isNear = label.words === like.words && Math.hypot(label.x - like.x, label.y - like.y) < NEAR
    return isNear && Math.abs(label.width - like.width) < 2 ? [] : [{ label, like }]
  })
}

async function screenFor(page: Page): Promise<Page> {
  const screen = await page.context().newPage()
  await screen.goto('about:blank')
  const font = readFileSync(fontFile).toString('base64')
  await screen.setContent(
    `<style>@font-face{font-family:Commissioner;font-weight:100 900;src:url(data:font/woff2;base64,${font})}body{margin:0;font-family:Commissioner}</style><p>a<b>b</b></p><div id="at"></div>`,
  )
  await screen.evaluate(() => document.fonts.load('15px Commissioner'))
  await screen.addScriptTag({ path: resolve('mermaid/dist/mermaid.min.js') })
  return screen
}

function drawApart({ worker, text }: { worker: string; text: string }): Promise<SketchResult> {
  const shared = globalThis as unknown as { apart?: Worker }
  const apart = (shared.apart ??= new Worker(worker, { type: 'module' }))
  return new Promise((done, fail) => {
    apart.onmessage = ({ data }: MessageEvent<{ kind: string; result: SketchResult; reason: string }>) =>
      data.kind === 'drawn' ? done(data.result) : fail(new Error(data.reason))
    apart.postMessage({ number: 1, text })
  })
}

function labelsOfMarkup(markup: string): Label[] {
  const at = document.getElementById('at')!
  at.replaceChildren(
    document.importNode(new DOMParser().parseFromString(markup, 'image/svg+xml').documentElement, true),
  )
  return labelsIn(at)
  function labelsIn(element: Element): Label[] {
    const svg = element.querySelector('svg')!
    const from = svg.getScreenCTM()!.inverse()
    return [...svg.querySelectorAll('text')].flatMap((one) => {
      const words = (one.textContent ?? '').replace(/\s+/gu, '')
      if (words === '') return []
      const box = one.getBBox()
      const matrix = from.multiply(one.getScreenCTM()!)
      const middle = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2).matrixTransform(matrix)
      return [{ words, x: middle.x, y: middle.y, width: box.width }]
    })
  }
}

async function labelsOfText({ text, config: given }: { text: string; config: object }): Promise<Label[]> {
  interface Library {
    initialize(config: object): void
    render(id: string, text: string): Promise<{ svg: string }>
  }
  const { mermaid } = globalThis as unknown as { mermaid: Library }
  mermaid.initialize(given)
  const at = document.getElementById('at')!
  at.innerHTML = (await mermaid.render('reference', text)).svg
  const svg = at.querySelector('svg')!
  const from = svg.getScreenCTM()!.inverse()
  return [...svg.querySelectorAll('text')].flatMap((one) => {
    const words = (one.textContent ?? '').replace(/\s+/gu, '')
    if (words === '') return []
    const box = one.getBBox()
    const matrix = from.multiply(one.getScreenCTM()!)
    const middle = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2).matrixTransform(matrix)
    return [{ words, x: middle.x, y: middle.y, width: box.width }]
  })
}
