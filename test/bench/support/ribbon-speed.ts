/** The script time of a scrolled frame with ribbons, beside that of the same paths with their positions known beforehand. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { CDPSession, Page } from '@playwright/test'
import { launch } from '../../e2e/support/launch.ts'
import { pane, sourceRow, steps } from '../../e2e/support/panes.ts'
import { chooseFiles } from '../../e2e/support/saving.ts'
import type { RibbonsDriver } from './ribbons-driver.ts'
import { linkedLabFile, SOURCE } from './gauges-lab.ts'
import { quantile } from './keys.ts'

/** What is scrolled: a pane that has no script of its own for it. */
const SCROLLER = '.st-pane--procedure > .st-pane-body'

/** At least so many are in view. */
const LINKS = 200
/** A way there and back, in frames. */
const FRAMES = 40
/** So many ways are one measurement, and so many measurements of each kind are made. */
const WAYS = 6
const ROUNDS = 7

/** What a page of the measurement has: frames of ours, the same paths from a list, or neither. */
type Kind = 'ours' | 'known' | 'none'

/** How many times as long as the same paths from a list a scrolled frame takes, in script time. */
export async function ribbonRatio(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-ribbons-'))
  const path = join(folder, 'gauges.zip')
  writeFileSync(path, await linkedLabFile())
  const program = await launch('chromium', { size: { width: 1920, height: 1200 } })
  try {
    const { page } = program
    await chooseFiles(program, [path], () =>
      page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await steps(page).first().waitFor({ timeout: 60_000 })
    await showAll(page)
    await addDriver(page)
    return await measure(page)
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Opens the source, brings what is linked into view in every pane, and shows all ribbons. */
async function showAll(page: Page): Promise<void> {
  await sourceRow(page, SOURCE).click()
  await page.locator('.st-reading .cm-content').waitFor()
  await pane(page, 'Journal').hover()
  for (let turn = 0; turn < 20; turn += 1) {
    await page.mouse.wheel(0, -300)
    await page.waitForTimeout(50)
  }
  await pane(page, 'Procedure').hover()
  await page.mouse.wheel(0, 150)
  await page.keyboard.press('Alt+l')
  await page.locator('.st-ribbon').first().waitFor({ state: 'attached' })
  // Away from everything that ribbons would be shown for.
  await page.mouse.move(960, 5)
  await page.waitForTimeout(1000)
}

declare global {
  var ribbonsDriver: RibbonsDriver
}

/** Puts the driver into the page. */
async function addDriver(page: Page): Promise<void> {
  const { outputFiles } = await build({
    entryPoints: [new URL('./ribbons-driver.ts', import.meta.url).pathname],
    bundle: true,
    write: false,
    format: 'iife',
    target: 'chrome114',
  })
  await page.evaluate(outputFiles[0]!.text)
  await page.evaluate(
    ([wanted, frames]) => {
      globalThis.ribbonsDriver = globalThis.makeRibbonsDriver(wanted, frames)
    },
    [SCROLLER, FRAMES] as const,
  )
}

async function measure(page: Page): Promise<number> {
  const noted = await page.evaluate(() => globalThis.ribbonsDriver.note())
  if (noted.links < LINKS) throw new Error(`only ${noted.links} links are in view, not ${LINKS}`)
  if (noted.writes < noted.paths / 3) throw new Error(`only ${noted.writes} changes for ${noted.paths} paths`)
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable')
  const times: Record<Kind, number[]> = { ours: [], known: [], none: [] }
  for (let round = 0; round < ROUNDS; round += 1)
    for (const kind of ['ours', 'known', 'none'] as const) times[kind].push(await timeOf(page, session, kind))
  const [ours, known, none] = (['ours', 'known', 'none'] as const).map((kind) =>
    quantile(times[kind], 0.5),
  ) as [number, number, number]
  // What scrolling costs without any ribbon is no part of either.
  return (ours - none) / (known - none)
}

/** Milliseconds of script in one frame. */
async function timeOf(page: Page, session: CDPSession, kind: Kind): Promise<number> {
  // One way goes before, and the last step of all begins another.
  if (kind === 'known') await page.evaluate((ways) => globalThis.ribbonsDriver.addCopy(ways + 2), WAYS)
  if (kind !== 'ours') await page.keyboard.press('Alt+l')
  await page.evaluate(() => globalThis.ribbonsDriver.run(1))
  const before = await scriptTime(session)
  await page.evaluate((ways) => globalThis.ribbonsDriver.run(ways), WAYS)
  const spent = (await scriptTime(session)) - before
  await page.evaluate(() => globalThis.ribbonsDriver.removeCopy())
  if (kind !== 'ours') await page.keyboard.press('Alt+l')
  await page.waitForTimeout(400)
  return (1000 * spent) / (WAYS * FRAMES)
}

async function scriptTime(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics')
  return metrics.find(({ name }) => name === 'ScriptDuration')!.value
}
