/** Tidying raw typing: shown as a difference, taken whole or in parts, the raw text kept as the earlier one. */
import { mkdirSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import { beginProject, chooseInMenu, composer, entryCount, entries, writeEntry } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const raw = [
  '##Logger on the mast',
  'Wnt up  the mast and looked at the logger.',
  'root@gate:~# systemctl status logger',
  '● logger.service - Weather logger',
  '   Active: failed (Result: exit-code)',
  '',
  'We have to do this now:',
  '',
  '* replase the cable',
  '+ label the plug',
].join('\n')

const panel = (page: Page) => page.getByRole('region', { name: 'Tidy', exact: true })

/** Pictures to look at, where a folder for them is named. */
async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env.PICTURES
  if (folder === undefined) return
  mkdirSync(folder, { recursive: true })
  await page.screenshot({ path: `${folder}/${name}.png` })
}

test('an entry is tidied in parts, the raw text stays as the earlier one, and a restart keeps both', async ({
  program,
}) => {
  const { page } = program
  await page.setViewportSize({ width: 1280, height: 800 }).catch(() => undefined)
  await beginProject(page, 'Mend the logger')
  await writeEntry(page, raw)
  await expect(entryCount(page)).toHaveText('1')
  const entry = entries(page).first()

  // What it would do is shown; a part is left out by its tick, by keyboard alone.
  await chooseInMenu(page, entry.getByRole('button', { name: 'More for this entry' }), 'Tidy…')
  await expect(panel(page)).toBeFocused()
  await expect(panel(page).locator('ins', { hasText: '## Logger on the mast' })).toBeVisible()
  await expect(panel(page).locator('del', { hasText: '* replase the cable' })).toBeVisible()
  expect(await violationsInBoth(page)).toEqual([])
  const heading = panel(page).getByRole('checkbox', { name: /heading/ })
  await heading.focus()
  await page.keyboard.press('Space')
  await expect(heading).not.toBeChecked()
  await picture(page, 'entry')

  // Spelling: a word is spelt otherwise, one becomes the lab's own.
  const spelling = panel(page).getByRole('list', { name: 'Spelling' })
  await spelling
    .getByRole('listitem', { name: 'replase' })
    .getByRole('button', { name: 'replace', exact: true })
    .click()
  await spelling.getByRole('button', { name: 'Add to the lab’s words: Wnt' }).click()
  await expect(spelling.getByRole('listitem', { name: 'Wnt' })).toHaveCount(0)

  await panel(page)
    .getByRole('button', { name: /^Take chosen/ })
    .focus()
  await page.keyboard.press('Control+Enter')
  await expect(panel(page)).toHaveCount(0)
  await expect(entry.getByRole('heading')).toHaveCount(0)
  await expect(entry.locator('.st-prose')).toContainText('##Logger on the mast')
  await expect(entry.locator('.st-prose')).toContainText('Wnt up the mast')
  await expect(entry.locator('pre code').first()).toHaveText(/^systemctl status logger\n?$/)
  await expect(entry.locator('pre code').nth(1)).toHaveText(
    /^● logger\.service - Weather logger\n {3}Active: failed \(Result: exit-code\)\n?$/,
  )
  await expect(entry.locator('.st-prose ul')).toHaveCount(1)
  await expect(entry.getByRole('listitem')).toHaveText(['replace the cable', 'label the plug'])

  await program.restart()
  const again = program.page
  const kept = entries(again).first()
  await expect(kept.locator('pre code').first()).toHaveText(/^systemctl status logger\n?$/)
  await kept.getByRole('button', { name: /^Amended/ }).click()
  await kept.getByRole('button', { name: 'As it stood' }).click()
  expect(await kept.locator('.st-earlier-text').first().textContent()).toBe(raw)

  // The word that was added is known; what was left is offered again and taken whole.
  await chooseInMenu(again, kept.getByRole('button', { name: 'More for this entry' }), 'Tidy…')
  await expect(panel(again)).toContainText('No misspelt word was found.')
  await panel(again).getByRole('button', { name: 'Take all' }).click()
  await expect(kept.getByRole('heading', { name: 'Logger on the mast' })).toBeVisible()
  await chooseInMenu(again, kept.getByRole('button', { name: 'More for this entry' }), 'Tidy…')
  await expect(panel(again)).toContainText('Nothing to tidy')
  await again.keyboard.press('Escape')
  await expect(panel(again)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('a draft is tidied before it is written, by one step that undo takes back, and typing goes on meanwhile', async ({
  program,
}) => {
  const { page } = program
  await page.setViewportSize({ width: 1280, height: 800 }).catch(() => undefined)
  await beginProject(page, 'Mend the logger')
  await composer(page).click()
  await page.keyboard.insertText(raw)
  await page.getByRole('button', { name: 'Tidy', exact: true }).click()
  await expect(panel(page)).toBeFocused()
  await picture(page, 'draft')
  await page.emulateMedia({ colorScheme: 'dark' })
  await picture(page, 'draft-dark')
  await page.emulateMedia({ colorScheme: 'light' })

  // What is typed meanwhile is not lost: the panel looks again instead.
  await composer(page).click()
  await page.keyboard.press('Control+End')
  await page.keyboard.insertText(' and the box')
  await panel(page).getByRole('button', { name: 'Take all' }).click()
  await expect(panel(page)).toContainText('You typed meanwhile')
  await panel(page).getByRole('button', { name: 'Take all' }).click()
  await expect(panel(page)).toHaveCount(0)
  await expect(composer(page)).toBeFocused()
  await expect(composer(page)).toContainText('## Logger on the mast')
  await expect(composer(page)).toContainText('- label the plug and the box')

  await page.keyboard.press('Control+z')
  await expect(composer(page)).toContainText('##Logger on the mast')
  await expect(composer(page)).toContainText('+ label the plug and the box')
  await page.keyboard.press('Control+Shift+Z')
  await expect(composer(page)).toContainText('- label the plug and the box')
  await page.keyboard.press('Control+Enter')
  await expect(entryCount(page)).toHaveText('1')
  await expect(entries(page).first().locator('pre code').first()).toHaveText(/^systemctl status logger\n?$/)
  expect(program.complaints).toEqual([])
})
