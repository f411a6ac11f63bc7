/** What comes in without a dialog in the installed program: the drop folder, files and pages that are handed over. */
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { beginProject, dismissNotices, pane, sourceRow, undoButton } from './support/panes.ts'
import type { Launched } from './support/launch.ts'
import { expect, test } from './support/test.ts'

const rows = (page: Page) => page.locator('.st-source-open')
// The button that takes the newest Change back is named by it, and so may hold these words too.
const addButton = (page: Page) =>
  pane(page, 'Sources').getByRole('button', { name: 'Add a source', exact: true }).first()
const problems = (page: Page) => page.getByRole('list', { name: 'What could not be added' })
const told = (page: Page) => page.getByRole('list', { name: 'What was here before' })

async function nameDropFolder({ page, shell }: Launched, folder: string): Promise<void> {
  await shell!.evaluate(({ dialog }, path) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [path] })
  }, folder)
  await addButton(page).click()
  await page.getByRole('button', { name: 'Drop folder' }).click()
  await page.getByRole('button', { name: 'Name a folder…' }).click()
}

test('each file of the drop folder comes in once: also renamed, also after a restart, and a broken one is told once', async ({
  program,
}) => {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-drop-'))
  writeFileSync(join(folder, 'fans.md'), '# Fans\n\nThree of them.\n')
  await beginProject(program.page, 'Cool the rack')
  await nameDropFolder(program, folder)
  const panel = program.page.getByRole('group', { name: 'Drop folder' })
  await expect(panel).toContainText(folder)
  await expect(sourceRow(program.page, 'Fans')).toBeVisible()

  // What appears there comes in by itself.
  writeFileSync(join(folder, 'pumps.md.part'), '# Pumps\n\nTwo')
  writeFileSync(join(folder, 'nothing.txt'), '   \n')
  renameSync(join(folder, 'pumps.md.part'), join(folder, 'pumps.md'))
  await expect(sourceRow(program.page, 'Pumps')).toBeVisible()
  await expect(problems(program.page).getByRole('alert')).toContainText('“nothing.txt”')
  await problems(program.page).getByRole('button', { name: 'Dismiss' }).click()

  // A file that was taken back does not come again by another name.
  renameSync(join(folder, 'fans.md'), join(folder, 'fans of the rack.md'))
  await program.page.waitForTimeout(4000)
  await expect(rows(program.page)).toHaveCount(2)

  // A new state of a file is read again.
  writeFileSync(join(folder, 'pumps.md'), '# Pumps\n\nFour of them.\n')
  await addButton(program.page).click()
  await sourceRow(program.page, 'Pumps').click()
  await expect(program.page.locator('.st-reading')).toContainText('Four of them.')
  await program.page.getByRole('button', { name: 'All sources' }).click()

  // While the program is away one more file appears.
  await program.page.waitForTimeout(1000)
  writeFileSync(join(folder, 'ducts.md'), '# Ducts\n\nOne.\n')
  await program.restart()
  await expect(sourceRow(program.page, 'Ducts')).toBeVisible()
  await program.page.waitForTimeout(3000)
  await expect(rows(program.page)).toHaveCount(3)
  await expect(problems(program.page)).toHaveCount(0)

  // It can be undone and left; the files stay.
  await dismissNotices(program.page)
  await undoButton(program.page).click()
  await expect(rows(program.page)).toHaveCount(2)
  await addButton(program.page).click()
  await program.page.getByRole('button', { name: 'Drop folder' }).click()
  await program.page.getByRole('button', { name: 'Leave this folder' }).click()
  await expect(program.page.getByText('This lab has none.')).toBeVisible()
  rmSync(folder, { recursive: true })
  expect(program.complaints).toEqual([])
})

test('with two windows on a lab each file of the drop folder still comes in once', async ({ program }) => {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-drop-'))
  const { page, shell } = program
  await beginProject(page, 'Cool the rack')
  const opened = shell!.waitForEvent('window')
  await page.evaluate(() =>
    (window as unknown as { stillroomHost: { newWindow(): Promise<unknown> } }).stillroomHost.newWindow(),
  )
  const second = await opened
  await expect(second.locator('.st-sources')).toBeVisible()
  await nameDropFolder(program, folder)
  for (let at = 0; at < 12; at++) writeFileSync(join(folder, `reading ${at}.txt`), `Fan ${at} turns.\n`)
  // Only the rows in view are drawn, so the pane's own count is asked.
  const count = (one: Page) => pane(one, 'Sources').locator('.st-pane-count')
  for (const one of [page, second]) await expect(count(one)).toContainText('12')
  await page.waitForTimeout(3000)
  for (const one of [page, second]) await expect(count(one)).toContainText('12 sources')
  expect(program.complaints).toEqual([])
})

test('a page that a browser hands over is a link, or its selected words; a known one is not added twice', async ({
  program,
}) => {
  const { page, shell } = program
  await beginProject(page, 'Cool the rack')
  const handOver = (fields: Record<string, string>) =>
    shell!.evaluate(
      ({ app }, address) => void app.emit('open-url', { preventDefault: () => undefined }, address),
      `stillroom:add?${new URLSearchParams(fields).toString()}`,
    )
  await handOver({ address: 'https://docs.example.org/fans', title: 'Fans' })
  await expect(sourceRow(page, 'Fans')).toContainText('docs.example.org')
  await handOver({
    address: 'https://docs.example.org/pumps',
    title: 'Pumps',
    selection: 'Two pumps,\nboth loud.',
  })
  await sourceRow(page, 'Pumps').click()
  await expect(page.locator('.st-reading')).toContainText('both loud.')
  await page.getByRole('button', { name: 'All sources' }).click()

  await handOver({
    address: 'https://docs.example.org/fans?utm_source=x',
    title: 'Fans',
    selection: 'Three fans.',
  })
  await expect(told(page)).toContainText('“Fans” is here already. The words that were selected')
  await expect(rows(page)).toHaveCount(2)
  await told(page).getByRole('button', { name: 'Add as a source of its own' }).click()
  await expect(rows(page)).toHaveCount(3)
  expect(program.complaints).toEqual([])
})
