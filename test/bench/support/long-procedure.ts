/** Typing in a procedure of 200 steps, beside a bare CodeMirror, in one run of Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Locator, Page } from '@playwright/test'
import { launch } from '../../e2e/support/launch.ts'
import { steps } from '../../e2e/support/panes.ts'
import { chooseFiles } from '../../e2e/support/saving.ts'
import { longProcedureFile } from '../../support/long-procedure.ts'
import { openBeside } from './beside.ts'
import { noteKeys, quantile, typeAndNote } from './keys.ts'

const STEPS = 200
/** Both are typed in by turns, so that whatever else the machine does meets them alike. */
const TURNS = 10
const KEYS_A_TURN = 60
/** Paragraphs of the bare editor. */
const PARAGRAPHS = 60

/** How many times as long as in the bare editor a key takes until its frame, at the 95th percentile. */
export async function typingRatio(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-procedure-'))
  const path = join(folder, 'long.zip')
  writeFileSync(path, await longProcedureFile(STEPS))
  const program = await launch('chromium')
  try {
    const { page } = program
    await chooseFiles(program, [path], () =>
      page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await steps(page).first().waitFor({ timeout: 120_000 })
    await noteKeys(page)
    await (await stepInTheMiddle(page)).locator('.st-part--do .st-part-read').click()
    await page.locator('.st-steps .cm-content').waitFor()
    await page.keyboard.press('Control+Home')
    const beside = await openBare(page)
    const ours: number[] = []
    const bare: number[] = []
    for (let turn = 0; turn < TURNS; turn++) {
      bare.push(...(await typeIn(beside)))
      ours.push(...(await typeIn(page)))
    }
    return quantile(ours, 0.95) / quantile(bare, 0.95)
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Scrolls there as a person does: of a long procedure only what is near the view is drawn. */
async function stepInTheMiddle(page: Page): Promise<Locator> {
  const step = steps(page).filter({ hasText: `Read gauge ${STEPS / 2}:` })
  await steps(page).first().hover()
  for (let turns = 0; turns < 200 && (await step.count()) === 0; turns++) {
    await page.mouse.wheel(0, 700)
    await page.waitForTimeout(50)
  }
  await step.scrollIntoViewIfNeeded()
  return step
}

async function typeIn(page: Page): Promise<number[]> {
  await page.bringToFront()
  await page.waitForTimeout(500)
  return typeAndNote(page, KEYS_A_TURN)
}

/** The bare editor in a window of the same program, drawn by the same means; the keyboard is in it. */
async function openBare(beside: Page): Promise<Page> {
  const page = await openBeside(beside, new URL('./bareEditor.ts', import.meta.url), String(PARAGRAPHS))
  await noteKeys(page)
  await page.locator('.cm-content').click()
  return page
}
