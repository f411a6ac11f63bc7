/** What to fetch beforehand: listed from the commands, ticked off, given sums, and written out. */
import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  chooseInMenu,
  pane,
  steps,
  undoButton,
} from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const sum = '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08'
const panelOf = (page: Page): Locator => page.getByRole('dialog', { name: 'To fetch beforehand' })
const sh = (command: string): string => `Do it.\n\n\`\`\`sh\n${command}\n\`\`\``

async function setUp(page: Page): Promise<void> {
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
  await addStep(page, sh('sudo apt-get update\nsudo apt-get install smartmontools nginx=1.24'))
  await addStep(page, sh('curl -O https://example.org/pub/logger-2.1.tar.gz'))
  await addStep(page, sh('git clone https://git.example.org/logger.git\nsudo apt-get install smartmontools'))
}

test('the list says what is wanted by which steps, is ticked by keys, and each tick is one undo', async ({
  program,
}) => {
  const { page } = program
  await setUp(page)
  await steps(page).first().focus()
  await page.keyboard.press('Alt+b')
  const panel = panelOf(page)
  const count = panel.getByRole('status')
  await expect(count).toHaveText('0 of 5 fetched')
  await expect(panel.getByRole('heading', { level: 3 })).toHaveText([
    'Packages, 2',
    'Downloads, 1',
    'Repositories, 1',
    'Indexes, 1',
  ])
  const tick = (name: string | RegExp) => panel.getByRole('checkbox', { name })
  await expect(tick(/^smartmontools/)).toBeFocused()
  await page.keyboard.press('Space')
  await expect(count).toHaveText('1 of 5 fetched')
  await page.keyboard.press('ArrowDown')
  await expect(tick(/^nginx version 1\.24/)).toBeFocused()
  await page.keyboard.press('Space')
  await expect(count).toHaveText('2 of 5 fetched')
  await page.keyboard.press('End')
  await expect(tick(/^The index of packages/)).toBeFocused()
  await page.keyboard.press('ArrowDown')
  await expect(tick(/^smartmontools/)).toBeFocused()
  await undoButton(page).click()
  await expect(count).toHaveText('1 of 5 fetched')
  await expect(tick(/^nginx/)).not.toBeChecked()
  await expect(tick(/^smartmontools/)).toBeChecked()

  // It is wanted by two steps, and either of them is gone to.
  await panel.getByRole('button', { name: 'Step 3 wants smartmontools: go there' }).click()
  await expect(steps(page).nth(2).locator('.st-part--do .st-part-read')).toBeFocused()
  expect(await violationsInBoth(page)).toEqual([])

  // What no command wants any more is kept, folded.
  for (const at of [0, 2]) {
    await steps(page).nth(at).locator('.st-part--do .st-part-read').click()
    await page.keyboard.press('Control+A')
    await page.keyboard.insertText(at === 0 ? sh('sudo apt-get update') : sh('uptime'))
    await page.keyboard.press('Escape')
  }
  await expect(count).toHaveText('0 of 2 fetched')
  await panel.getByText('No command wants these any more, 1').click()
  await expect(panel.locator('.st-fetch-stale')).toContainText(/package smartmontools\s*fetched \d{4}-/)
  expect(program.complaints).toEqual([])
})

test('a sum is checked as it is typed, what is no sum yet is never lost, and a pasted line is read', async ({
  program,
}) => {
  let { page } = program
  await setUp(page)
  const open = () =>
    chooseInMenu(
      page,
      pane(page, 'Procedure').getByRole('button', { name: 'More for the procedure' }),
      /^To fetch/,
    )
  await open()
  const field = () => panelOf(page).getByLabel('SHA-256 of https://example.org/pub/logger-2.1.tar.gz')
  await expect(panelOf(page)).toContainText('No item has both a SHA-256 and a known file name.')
  await expect(panelOf(page).getByRole('button', { name: 'Export the sums…' })).toHaveAttribute(
    'aria-disabled',
    'true',
  )
  await field().fill(sum.slice(0, 40))
  await expect(panelOf(page)).toContainText('40 digits are a SHA-1. A SHA-256 has 64.')
  await expect(field()).toHaveAttribute('aria-invalid', 'true')
  await panelOf(page)
    .getByRole('button', { name: /^Close/ })
    .click()
  await program.restart()
  page = program.page
  await open()
  await expect(field()).toHaveValue(sum.slice(0, 40))
  await field().fill(`${sum.toUpperCase()} *another.tar.gz`)
  await expect(field()).toHaveValue(sum)
  await expect(panelOf(page)).toContainText(
    'The line was about “another.tar.gz”, and this file is “logger-2.1.tar.gz”.',
  )
  await expect(panelOf(page)).toContainText('The file of sums holds 1 line.')
  await panelOf(page).getByRole('button', { name: 'SHA-256 of nginx' }).click()
  await expect(panelOf(page).getByLabel('SHA-256 of nginx')).toBeFocused()
  await page.keyboard.insertText(sum)
  await expect(panelOf(page)).toContainText('1 with a SHA-256 is left out: the command names no file.')
  const save = (name: string) =>
    catchSavedFile(program, () => panelOf(page).getByRole('button', { name }).click())
  expect(readFileSync(await save('Export the sums…'), 'utf8')).toBe(`${sum}  logger-2.1.tar.gz\n`)
  const list = readFileSync(await save('Export as Markdown…'), 'utf8')
  expect(list).toContain('# To fetch beforehand: Bring a logger into the rack')
  expect(list).toContain(
    `- [ ] \`https://example.org/pub/logger-2.1.tar.gz\` (with curl; Step 2), SHA-256 \`${sum}\``,
  )
  // Taken back, the field is as it was.
  await undoButton(page).click()
  await expect(panelOf(page)).not.toContainText('is left out')
  await undoButton(page).click()
  await expect(field()).toHaveValue('')
  expect(program.complaints).toEqual([])
})

test('the exported procedure has the list before its steps', async ({ program }) => {
  const { page } = program
  await setUp(page)
  await pane(page, 'Procedure').getByRole('button', { name: 'Export…' }).click()
  const path = await catchSavedFile(program, () => page.getByRole('button', { name: 'Write file' }).click())
  const markdown = readFileSync(path, 'utf8')
  expect(markdown).toMatch(
    /## To fetch beforehand\n\n### Packages\n\n- \[ \] `smartmontools` \(with apt-get; Step 1; Step 3\)\n[^]*## Steps/,
  )
})
