/** Typing and scrolling in a journal of 10,000 entries, beside a bare CodeMirror that holds one entry, in one run of Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { Page } from '@playwright/test'
import { addEntries, addProject, type EntryInput } from '../../../shared/lab/acts.ts'
import { entryKinds } from '../../../shared/lab/model.ts'
import { launch } from '../../e2e/support/launch.ts'
import { composer } from '../../e2e/support/panes.ts'
import { chooseFiles } from '../../e2e/support/saving.ts'
import { zippedLab } from '../../support/lab-zip.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'
import { noteKeys, quantile, typeAndNote } from './keys.ts'

const ENTRIES = 10_000
const KEYS = 300
const WHEELS = 150
/** Paragraphs of the bare editor's entry: to type in, and long enough for every turn of the wheel. */
const TYPED_IN = 60
const SCROLLED = 2000

/** Milliseconds from an event to behind its frame. */
interface Times {
  readonly typing: readonly number[]
  readonly scrolling: readonly number[]
}

let known: Promise<{ ours: Times; bare: Times }> | undefined

/** How many times as long as in the bare editor, at the 95th percentile. */
export async function ratio(of: keyof Times): Promise<number> {
  const { ours, bare } = await (known ??= measure())
  return quantile(ours[of], 0.95) / quantile(bare[of], 0.95)
}

/** A lab whose one project has that many entries, as the bytes of a lab file. */
async function labFile(): Promise<Uint8Array> {
  const around = repeatableSurroundings(21)
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'A long year', aim: '', status: 'under way' })
  await lab.committer.commit(change)
  for (let from = 0; from < ENTRIES; from += 250) {
    const inputs = Array.from({ length: 250 }, (_, i): EntryInput => {
      const number = from + i
      const kind = entryKinds[number % 6]!
      const text =
        kind === 'action'
          ? `\`\`\`sh\njournalctl -u logger --since "-${number % 50} min"\n\`\`\``
          : `Reading ${number}: **the mast** stands, the gauge shows ${900 + (number % 120)} hPa and \`upsc\` answers.`
      return { project: project.id, kind, text }
    })
    await lab.committer.commit(addEntries(around, inputs).change)
  }
  return zippedLab(around, lab, 'Long')
}

async function noteWheels(page: Page): Promise<void> {
  await page.evaluate(() => {
    const noted: number[] = []
    ;(window as unknown as { wheelsNoted: number[] }).wheelsNoted = noted
    window.addEventListener(
      'wheel',
      (event) => {
        const turned = event.timeStamp
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel()
          port1.onmessage = () => noted.push(performance.now() - turned)
          port2.postMessage(null)
        })
      },
      { capture: true, passive: true },
    )
  })
}

/** How far a scroller is scrolled, in CSS pixels. */
async function topOf(page: Page, scroller: string): Promise<number> {
  return page.locator(scroller).evaluate((element) => element.scrollTop)
}

/** Turns the wheel over a scroller, up and down; every turn must be one that it can follow. */
async function scrollAndNote(page: Page, scroller: string): Promise<number[]> {
  await page.locator(scroller).hover()
  const before = await topOf(page, scroller)
  for (let i = 0; i < WHEELS; i++) {
    await page.mouse.wheel(0, i % 50 < 40 ? -400 : 400)
    await page.waitForTimeout(30)
  }
  await page.waitForTimeout(500)
  const [way, wanted] = [before - (await topOf(page, scroller)), WHEELS * 400 * 0.6]
  // Rows above are measured as they come, which moves what is below: a way that is longer than the wheel's is no lost turn.
  if (way < wanted * 0.9 || way > wanted * 1.3)
    throw new Error(`scrolled by ${way} px instead of ${wanted} px: the two sides would not be alike`)
  return page.evaluate(() => (window as unknown as { wheelsNoted: number[] }).wheelsNoted.splice(0))
}

/** One after the other, since both want a core; the bare one before and behind. */
async function measure(): Promise<{ ours: Times; bare: Times }> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-long-'))
  const path = join(folder, 'long.zip')
  writeFileSync(path, await labFile())
  const program = await launch('chromium')
  try {
    const { page } = program
    await chooseFiles(program, [path], () =>
      page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await page.locator('.st-entry').first().waitFor({ timeout: 120_000 })
    const before = await measureBare(page)
    await page.bringToFront()
    await noteKeys(page)
    await noteWheels(page)
    await composer(page).click()
    await page.waitForTimeout(1000)
    const typing = await typeAndNote(page, KEYS)
    const ours = { typing, scrolling: await scrollAndNote(page, '.st-log-scroll') }
    const behind = await measureBare(page)
    const bare = {
      typing: [...before.typing, ...behind.typing],
      scrolling: [...before.scrolling, ...behind.scrolling],
    }
    return { ours, bare }
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

const bareScript = new URL('./bareEditor.ts', import.meta.url).pathname
const ORIGIN = 'http://localhost:1/'

/** The bare editor in a window of the same program, drawn by the same means. */
async function measureBare(beside: Page): Promise<Times> {
  const { outputFiles } = await build({
    ...{ entryPoints: [bareScript], bundle: true, write: false, format: 'esm', target: 'chrome114' },
  })
  const page = await beside.context().newPage()
  await page.route(`${ORIGIN}**`, (route) => {
    const isScript = route.request().url().endsWith('/script.js')
    const body = isScript
      ? outputFiles[0]!.text
      : '<!doctype html><script type="module" src="/script.js"></script>'
    return route.fulfill({ body, contentType: isScript ? 'text/javascript' : 'text/html' })
  })
  await page.setViewportSize({ width: 1280, height: 800 })
  await openBare(page, TYPED_IN)
  const typing = await typeAndNote(page, KEYS)
  await openBare(page, SCROLLED)
  const scrolling = await scrollAndNote(page, '.cm-scroller')
  await page.close()
  return { typing, scrolling }
}

async function openBare(page: Page, paragraphs: number): Promise<void> {
  await page.goto('about:blank')
  await page.goto(`${ORIGIN}#${paragraphs}`)
  await noteKeys(page)
  await noteWheels(page)
  await page.locator('.cm-content').click()
  // As long as the journal gets, so that neither side is measured while it still settles.
  await page.waitForTimeout(1000)
}
