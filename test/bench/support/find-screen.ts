/**
 * From the last key in the box to marked words on the screen, in a lab of 10,000 entries, beside what cannot be done without:
 * the bare index asked for the same words in the same browser, and one frame.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import type { FindDocument } from '../../../shared/find/document.ts'
import { addEntries, addProject, type EntryInput } from '../../../shared/lab/acts.ts'
import { launch } from '../../e2e/support/launch.ts'
import { chooseFiles } from '../../e2e/support/saving.ts'
import { zippedLab } from '../../support/lab-zip.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'
import type { BareIndex } from './bareIndex.ts'
import { openBeside } from './beside.ts'
import { documentNumbers, documentOf, speedQueries } from './find-corpus.ts'
import { quantile } from './keys.ts'

/** Of the entries of the figures' lab: 10,000. */
const SHARE = 0.1
const QUERIES = 60
/** As many hits as the box asks for. */
const LIMIT = 24

export interface ScreenTimes {
  /** Milliseconds. */
  readonly box: readonly number[]
  readonly bare: readonly number[]
  readonly frames: readonly number[]
}

let known: Promise<ScreenTimes> | undefined

/** How many times as long as the bare query and one frame together, at a quantile of each. */
export async function findScreenRatio(share: number): Promise<number> {
  const { box, bare, frames } = await (known ??= measure())
  return quantile(box, share) / (quantile(bare, share) + quantile(frames, 0.5))
}

/** The times that were measured, in words. */
export async function findScreenWords(): Promise<string> {
  const { box, bare, frames } = await (known ??= measure())
  const of = (times: readonly number[]): string =>
    `${quantile(times, 0.5).toFixed(1)} and ${quantile(times, 0.95).toFixed(1)} ms`
  return `50th and 95th percentile: box ${of(box)}, bare index ${of(bare)}, frame ${of(frames)}`
}

const documents = (): FindDocument[] =>
  documentNumbers(SHARE)
    .map((number) => documentOf(number))
    .filter(({ thing }) => thing === 'entry')

async function labFile(all: readonly FindDocument[]): Promise<Uint8Array> {
  const around = repeatableSurroundings(25)
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'A long year', aim: '', status: 'under way' })
  await lab.committer.commit(change)
  for (let from = 0; from < all.length; from += 250) {
    const inputs = all
      .slice(from, from + 250)
      .map(({ text }): EntryInput => ({ project: project.id, kind: 'observation', text }))
    await lab.committer.commit(addEntries(around, inputs).change)
  }
  return zippedLab(around, lab, 'Long')
}

async function measure(): Promise<ScreenTimes> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-find-'))
  const path = join(folder, 'long.zip')
  const all = documents()
  writeFileSync(path, await labFile(all))
  const program = await launch('chromium')
  try {
    const { page } = program
    await chooseFiles(program, [path], () =>
      page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await page.locator('.st-entry').first().waitFor({ timeout: 120_000 })
    const queries = queriesOfLab()
    const bare = await timesOfBare(page, all, queries)
    await page.bringToFront()
    const frames = await timesOfFrames(page)
    return { bare, frames, box: await timesOfBox(page, queries) }
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

/** A word and the beginning of another, of a text that is in the lab. */
function queriesOfLab(): string[] {
  return speedQueries(QUERIES, SHARE).map(({ words, beginning }) => `${words[0]} ${beginning}`)
}

async function timesOfBare(
  beside: Page,
  all: readonly FindDocument[],
  queries: readonly string[],
): Promise<number[]> {
  const page = await openBeside(beside, new URL('./bareIndex.ts', import.meta.url))
  await page.waitForFunction(() => 'bareIndex' in globalThis)
  for (let from = 0; from < all.length; from += 1_000)
    await page.evaluate(
      (some) => (globalThis as unknown as { bareIndex: BareIndex }).bareIndex.add(some),
      all.slice(from, from + 1_000),
    )
  const ask = () =>
    page.evaluate(
      ([typed, limit]) =>
        typed.map((one) => (globalThis as unknown as { bareIndex: BareIndex }).bareIndex.time(one, limit)),
      [queries, LIMIT] as const,
    )
  await ask()
  const answers = await ask()
  if (answers.some(({ hits }) => hits === 0)) throw new Error('a query has no hit')
  await page.close()
  return answers.map(({ ms }) => ms)
}

// What runs in the page names no functions: what makes this file run keeps their names by a helper that is not there.
function timesOfFrames(page: Page): Promise<number[]> {
  return page.evaluate(async () => {
    const times: number[] = []
    let before = await new Promise<number>((resolve) => requestAnimationFrame(resolve))
    for (let n = 0; n < 120; n++) {
      const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve))
      times.push(now - before)
      before = now
    }
    return times
  })
}

/** Types each query letter by letter, and notes when its own hits are painted behind the last letter's key. */
async function timesOfBox(page: Page, queries: readonly string[]): Promise<number[]> {
  await page.keyboard.press('Alt+f')
  await page.locator('.st-finder-field').waitFor()
  await page.keyboard.type(queries[0]!)
  // The index is built by now, or this waits until it is.
  await page.locator('.st-finder .st-mark--found').first().waitFor({ timeout: 120_000 })
  await page.locator('.st-finder .st-progress').waitFor({ state: 'detached', timeout: 120_000 })
  const times: number[] = []
  for (const query of queries) {
    await page.keyboard.press('Control+a')
    await page.keyboard.press('Delete')
    await page.locator('.st-finder .st-mark--found').first().waitFor({ state: 'detached' })
    await page.keyboard.type(query.slice(0, -1), { delay: 60 })
    await page.waitForTimeout(400)
    await noteNext(page, query)
    await page.keyboard.press(query.at(-1)!)
    times.push(await page.evaluate(() => (window as unknown as { marked: Promise<number> }).marked))
  }
  return times
}

/** Begins to note the milliseconds from the next key to behind the frame in which words of that query are marked. */
async function noteNext(page: Page, query: string): Promise<void> {
  await page.evaluate((typed) => {
    const marked = new Promise<number>((resolve) => {
      let pressed = Number.NaN
      window.addEventListener('keydown', (event) => (pressed = event.timeStamp), {
        capture: true,
        once: true,
      })
      const observer = new MutationObserver(() => {
        const list = document.querySelector<HTMLElement>('.st-finder-list')
        if (list?.dataset.of !== typed || !list.querySelector('.st-mark--found')) return
        observer.disconnect()
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel()
          port1.onmessage = () => resolve(performance.now() - pressed)
          port2.postMessage(null)
        })
      })
      observer.observe(document.body, { subtree: true, childList: true, attributes: true })
    })
    Object.assign(window, { marked })
  }, query)
}
