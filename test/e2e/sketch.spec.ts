/** Diagrams as text: begun from a pattern, drawn, shown as text, opened large, saved; broken and hostile ones. */
import { readFileSync } from 'node:fs'
import { DOMParser, type Element } from '@xmldom/xmldom'
import type { Locator, Page } from '@playwright/test'
import { sketchPatterns, toFence } from '../../shared/sketch/patterns.ts'
import type { Launched } from './support/launch.ts'
import { beginProcedure, beginProject, composer, entryWith, pane, partOf, steps } from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const sketchIn = (around: Locator): Locator => around.locator('figure.st-sketch')

/** Writes an entry and waits until its diagram is drawn or said to be broken. */
async function writeSketch(page: Page, words: string, text: string): Promise<Locator> {
  await composer(page).click()
  await page.keyboard.insertText(`${words}\n\n${toFence(text)}`)
  await page.keyboard.press('Control+Enter')
  const sketch = sketchIn(entryWith(page, words))
  await expect(sketch).toHaveAttribute('data-sketch', /drawn|broken/, { timeout: 30_000 })
  return sketch
}

/** What a saved file holds, read by an XML parser that complains. */
function readSvg(path: string): { root: Element; labels: string[] } {
  const complaints: string[] = []
  const parser = new DOMParser({ onError: (_level, words) => void complaints.push(words) })
  const root = parser.parseFromString(readFileSync(path, 'utf8'), 'image/svg+xml').documentElement!
  expect(complaints).toEqual([])
  const labels = Array.from(root.getElementsByTagName('text'), (text) =>
    (text.textContent ?? '').replace(/\s+/gu, ' ').trim(),
  )
  return { root, labels }
}

/** Looks at a saved file as another program would: drawn by itself, so that its colours and words can be counted. */
async function lookAtSvg(program: Launched, path: string): Promise<{ width: number; colours: number }> {
  return program.page.evaluate(
    async (markup) => {
      const image = new Image()
      image.src = URL.createObjectURL(new Blob([markup], { type: 'image/svg+xml' }))
      await image.decode()
      const canvas = new OffscreenCanvas(image.naturalWidth, image.naturalHeight)
      const context = canvas.getContext('2d')!
      context.drawImage(image, 0, 0)
      URL.revokeObjectURL(image.src)
      const { data } = context.getImageData(0, 0, canvas.width, canvas.height)
      const colours = new Set<number>()
      for (let i = 0; i < data.length; i += 4)
        colours.add((data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!)
      return { width: canvas.width, colours: colours.size }
    },
    readFileSync(path, 'utf8'),
  )
}

/** Words that reach beyond the box that they stand in, in the page's own measure. */
function wordsCutOff(sketch: Locator): Promise<string[]> {
  return sketch.locator('svg').evaluate((svg) => {
    const cut: string[] = []
    const frame = svg.getBoundingClientRect()
    for (const text of svg.querySelectorAll('text')) {
      const words = text.textContent ?? ''
      const box = text.getBoundingClientRect()
      const isOutside =
        box.left < frame.left - 1 ||
        box.right > frame.right + 1 ||
        box.top < frame.top - 2 ||
        box.bottom > frame.bottom + 2
      // A label stands in the same group as, or within, what it is the label of.
      const around = text
        .closest('g g g')
        ?.parentElement?.querySelector(':scope > rect, :scope > circle, :scope > polygon')
      const shape = around?.getBoundingClientRect()
      const isWide = shape !== undefined && shape.width > 8 && box.width > shape.width + 1
      if (isOutside || isWide) cut.push(words)
    }
    return cut
  })
}

test('each pattern begins a diagram that is drawn with all its words, and saved as a picture that others can read', async ({
  program,
}) => {
  test.setTimeout(180_000)
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  for (const [i, { word, text }] of sketchPatterns.entries()) {
    await page.getByRole('group', { name: 'New entry' }).getByRole('button', { name: 'Sketch…' }).click()
    await page.getByRole('menuitem', { name: word }).click()
    await expect(composer(page)).toBeFocused()
    await expect(composer(page)).toContainText(text.split('\n').at(-1)!.trim().slice(0, 20))
    await page.keyboard.press('Control+Enter')
    const sketch = sketchIn(entryWith(page, ['wireless', 'Does it answer?', 'Afterwards', 'Observer'][i]!))
    await expect(sketch).toHaveAttribute('data-sketch', 'drawn', { timeout: 30_000 })
    expect(await wordsCutOff(sketch), word).toEqual([])
    await expect(sketch.locator('foreignObject, style, [style*="url"], script, image, a')).toHaveCount(0)

    // The pointer still rests where the menu was, and the tip that it calls up may lie over the sketch.
    await page.mouse.move(2, 2)
    const path = await catchSavedFile(program, () =>
      sketch.getByRole('button', { name: 'Save as SVG' }).click(),
    )
    const { root, labels } = readSvg(path)
    expect(root.namespaceURI).toBe('http://www.w3.org/2000/svg')
    for (const name of ['foreignObject', 'style', 'script', 'image', 'a', 'use'])
      expect(root.getElementsByTagName(name)).toHaveLength(0)
    const wanted = [
      ['Router 192.0.2.1', 'Rack', 'fibre', 'wireless', 'Weather logger 192.0.2.30'],
      ['No readings arrive', 'Has the logger power?', 'yes', 'Ask for help, with the log'],
      ['Port 7 of the switch', 'Afterwards', 'Label both leads'],
      ['Observer', 'New reading', '[every minute]', 'Table of readings'],
    ][i]!
    const plain = labels.map((label) => label.replaceAll(' ', ''))
    for (const label of wanted) expect(plain).toContain(label.replaceAll(' ', ''))
    const seen = await lookAtSvg(program, path)
    expect(seen.width).toBeGreaterThan(200)
    expect(seen.colours, 'a drawing has more than a ground').toBeGreaterThan(10)
  }
  expect(program.complaints).toEqual([])
})

test('a diagram is shown as text and opened large by the keyboard, and changes its face with the page', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  const { text } = sketchPatterns[3]!
  const sketch = await writeSketch(page, 'Who tells whom', text)
  await expect(page.getByRole('figure', { name: 'Diagram: Sequence' })).toHaveCount(1)
  await expect(sketch.getByRole('img')).toHaveAccessibleName(/^Sequence: .*New reading/)

  const asText = sketch.getByRole('button', { name: 'As text' })
  await asText.focus()
  await page.keyboard.press('Enter')
  await expect(asText).toHaveAttribute('aria-pressed', 'true')
  await expect(sketch.locator('pre')).toContainText('participant logger as Weather logger')
  await expect(sketch.getByRole('img')).toHaveCount(0)
  await page.keyboard.press('Enter')
  await expect(sketch.getByRole('img')).toBeVisible()

  const large = sketch.getByRole('button', { name: 'Open large' })
  await large.focus()
  await page.keyboard.press('Enter')
  const dialog = page.getByRole('dialog', { name: 'Sequence' })
  await expect(dialog.getByRole('img')).toBeVisible()
  const width = await dialog
    .locator('.st-sketch-stage svg')
    .evaluate((svg) => svg.getBoundingClientRect().width)
  expect(width).toBeGreaterThan(800)
  await page.keyboard.press('Escape')
  await expect(dialog).toBeHidden()
  await expect(large).toBeFocused()
  // Whoever goes on writing is not kept from it.
  await page.keyboard.press('Enter')
  await expect(dialog).toBeVisible()
  await page.keyboard.press('Alt+j')
  await expect(composer(page)).toBeFocused()
  await expect(dialog).toBeHidden()

  const inkOf = (): Promise<string> =>
    sketch
      .locator('svg text')
      .first()
      .evaluate((one) => getComputedStyle(one).fill)
  await page.evaluate(() => (document.documentElement.dataset['theme'] = 'light'))
  const light = await inkOf()
  await page.evaluate(() => (document.documentElement.dataset['theme'] = 'dark'))
  expect(await inkOf()).not.toBe(light)
  expect(program.complaints).toEqual([])
})

test('a broken diagram shows its text and the reason with the line', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  const sketch = await writeSketch(page, 'Not quite', 'flowchart LR\n  logger --> store\n  store -- ] mast')
  await expect(sketch).toHaveAttribute('data-sketch', 'broken')
  await expect(sketch.locator('pre')).toContainText('store -- ] mast')
  await expect(sketch).toContainText('Not drawn. Line 3: “store -- ] mast” does not fit here.')
  expect(program.complaints).toEqual([])
})

test('in a procedure a diagram is put into a part, drawn, and goes along in the export as its text', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  await beginProcedure(page, 'Replace the logger')
  await pane(page, 'Procedure')
    .getByRole('button', { name: /Add a step|New step/ })
    .first()
    .click()
  const step = steps(page).first()
  const part = partOf(step, 'do')
  await expect(part.locator('.cm-content')).toBeFocused()
  await page.keyboard.type('Find out why.')
  await part.getByRole('button', { name: 'Sketch…' }).click()
  await page.getByRole('menuitem', { name: 'Decision tree' }).click()
  await expect(part.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(sketchIn(part)).toHaveAttribute('data-sketch', 'drawn', { timeout: 30_000 })
  // A press on the drawing begins to edit, a press on its buttons does not.
  await sketchIn(part).getByRole('button', { name: 'As text' }).click()
  await expect(part.locator('.cm-content')).toHaveCount(0)
  await expect(sketchIn(part).locator('pre')).toContainText('flowchart TD')

  await page.getByRole('button', { name: 'Export…' }).click()
  const path = await catchSavedFile(program, () => page.getByRole('button', { name: 'Write file' }).click())
  const indented = toFence(sketchPatterns[1]!.text).replaceAll('\n', '\n   ')
  expect(readFileSync(path, 'utf8')).toContain(indented)
  expect(program.complaints).toEqual([])
})

test('a selection that touches a drawing takes its whole block of Markdown', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  const text = 'flowchart LR\n  logger --> store'
  const sketch = await writeSketch(page, 'What is joined', text)
  await sketch.locator('svg text').first().scrollIntoViewIfNeeded()
  await entryWith(page, 'What is joined').focus()
  await sketch
    .locator('svg text')
    .first()
    .evaluate((label) => getSelection()!.selectAllChildren(label))
  const carried = await page.evaluate(() => {
    const event = new ClipboardEvent('copy', {
      clipboardData: new DataTransfer(),
      bubbles: true,
      cancelable: true,
    })
    getSelection()!.anchorNode!.parentElement!.dispatchEvent(event)
    return event.clipboardData!.getData('text/plain')
  })
  expect(carried).toBe(toFence(text))
})

test('hostile diagrams ask for nothing, run nothing and lead nowhere; a huge one does not hold up the screen', async ({
  program,
}) => {
  test.setTimeout(180_000)
  const { page } = program
  const asked: string[] = []
  page.on('request', (request) => {
    if (/evil/u.test(request.url())) asked.push(request.url())
  })
  page.on('dialog', (dialog) => {
    asked.push(`dialog ${dialog.message()}`)
    void dialog.dismiss()
  })
  await beginProject(page, 'Replace the weather logger')
  const address = page.url()
  const attacks = [
    'flowchart LR\n a --> b\n click a href "javascript:alert(1)"\n click b call alert(1)',
    'flowchart LR\n a@{ img: "https://evil.example.org/x.png", label: "a", w: 60, h: 60 }\n a --> b',
    'flowchart LR\n a["<img src=https://evil.example.org/x onerror=alert(1)>text"] --> b',
    '%%{init: {"securityLevel": "loose", "htmlLabels": true, "flowchart": {"htmlLabels": true}}}%%\nflowchart LR\n a["<img src=https://evil.example.org/x onerror=alert(1)>"] --> b\n click a call alert(1)',
    '%%{init: {"themeCSS": "@import url(https://evil.example.org/x.css); * { fill: url(https://evil.example.org/y) }"}}%%\nflowchart LR\n a --> b',
    'sequenceDiagram\n participant a\n participant b\n link a: Go @ https://evil.example.org/\n a->>b: x',
  ]
  for (const [i, attack] of attacks.entries()) {
    const sketch = await writeSketch(page, `Attack ${i}`, attack)
    await expect(sketch).toHaveAttribute('data-sketch', 'drawn')
    await sketch.locator('svg text').first().click({ force: true })
  }
  const bidi = await writeSketch(page, 'Direction', 'flowchart LR\n a["\u202etxt.exe"] --> b["plain"]')
  await expect(bidi.locator('svg text').last()).toHaveText('plain')
  expect(page.url()).toBe(address)

  const huge = Array.from({ length: 390 }, (_, i) => ` n${i} --> n${(i * 37 + 11) % 180}`).join('\n')
  await composer(page).click()
  await page.keyboard.insertText(`Huge\n\n${toFence(`flowchart LR\n${huge}`)}`)
  await page.keyboard.press('Control+Enter')
  await expect(entryWith(page, 'Huge')).toBeVisible()
  // While it is drawn the screen goes on: no frame is longer than a quarter of a second.
  const longest = await page.evaluate(async () => {
    let [last, most] = [performance.now(), 0]
    for (const end = last + 2500; last < end;) {
      const now = await new Promise<number>((done) => requestAnimationFrame(done))
      most = Math.max(most, now - last)
      last = now
    }
    return most
  })
  expect(longest).toBeLessThan(250)
  await expect(sketchIn(entryWith(page, 'Huge'))).toHaveAttribute('data-sketch', /drawn|broken/, {
    timeout: 60_000,
  })
  expect(asked).toEqual([])
  expect(program.complaints).toEqual([])
})
