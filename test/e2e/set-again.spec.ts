/** A link whose words were lost is set again by hand, and what it was before stays to be read. */
import type { Locator, Page } from '@playwright/test'
import { violationsIn } from './support/axe.ts'
import { chooseInMenu, openSample, partOf, redoButton, steps, undoButton } from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const trace = (page: Page): Locator => page.getByRole('dialog', { name: 'Trace' })
const dialog = (page: Page): Locator => page.getByRole('dialog', { name: 'Set the link again' })
const loose = (part: Locator): Locator => part.getByText('derives, loose', { exact: true })

/** Writes other words in the place of those that were carried. */
async function loseWords(page: Page): Promise<Locator> {
  const part = partOf(steps(page).nth(2), 'why')
  await part.locator('.st-part-read').press('Enter')
  await expect(part.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('ControlOrMeta+a')
  await page.keyboard.insertText('Both lamps of the rack must be dark by then.')
  await page.keyboard.press('Escape')
  await expect(loose(part)).toBeVisible()
  return part
}

test('a loose link is set again from the trace by keys; the link before it is told, and undo brings it back', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const part = await loseWords(page)
  await part.locator('.st-part-read').focus()
  await page.keyboard.press('Alt+t')
  await expect(trace(page)).toContainText('The words can no longer be found in the newer text.')
  const again = trace(page).getByRole('button', { name: /^Set again: Why of step 3/ })
  await again.focus()
  await page.keyboard.press('Enter')
  await expect(dialog(page)).toContainText('A copy made during a write')
  const text = dialog(page).locator('.cm-content')
  await expect(text).toBeFocused()
  expect(await violationsIn(page)).toEqual([])

  // Without words nothing is linked, and it is said why.
  await page.keyboard.press('Control+Enter')
  await expect(page.locator('.st-notices')).toContainText('Select the words')
  await page.keyboard.press('Control+Home')
  for (let i = 0; i < 'Both lamps'.length; i++) await page.keyboard.press('Shift+ArrowRight')
  await page.keyboard.press('Control+Enter')
  await expect(dialog(page)).toHaveCount(0)
  await expect(loose(part)).toHaveCount(0)
  await expect(part.getByText('derives', { exact: true })).toBeVisible()
  await expect(trace(page)).not.toContainText('can no longer be found')
  await trace(page).getByRole('button', { name: 'The link before it' }).click()
  await expect(trace(page).locator('.st-hop-earlier')).toContainText(
    'A copy made during a write can hold half',
  )

  await expect(trace(page)).toContainText('at first with the sample')

  await undoButton(page).click()
  await expect(loose(part)).toBeVisible()
  await expect(trace(page)).toContainText('can no longer be found')
  await redoButton(page).click()
  await expect(loose(part)).toHaveCount(0)
  await trace(page).getByRole('tab', { name: 'Life', exact: true }).click()
  await expect(trace(page)).toContainText('Its link was set anew in Why')
  expect(program.complaints).toEqual([])
})

test('a loose link is set again from the part’s menu by pointer, or left loose', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const part = await loseWords(page)
  const menu = part.getByRole('button', { name: 'More for why of step 3' })
  await chooseInMenu(page, menu, /^Set its loose link again/)
  await dialog(page).getByRole('button', { name: 'Leave it loose' }).click()
  await expect(dialog(page)).toHaveCount(0)
  await expect(loose(part)).toBeVisible()
  await chooseInMenu(page, menu, /^Set its loose link again/)
  await expect(dialog(page).locator('.cm-content')).toBeFocused()
  await selectWords(page, dialog(page).locator('.cm-content'), 'must be dark')
  await dialog(page).getByRole('button', { name: 'Link the selected words' }).click()
  await expect(dialog(page)).toHaveCount(0)
  await expect(loose(part)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})
