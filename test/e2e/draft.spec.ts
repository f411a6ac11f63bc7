/** Steps drafted from the journal: proposed, chosen by keys, added by one act. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  beginProject,
  chooseInMenu,
  entries,
  openSample,
  pane,
  partOf,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const panelOf = (page: Page): Locator => page.getByRole('dialog', { name: 'Draft steps from the journal' })
const rows = (page: Page): Locator => panelOf(page).locator('.st-draft-row')

/** Begins a second procedure of the sample, so that nothing of the journal stands in the one that is shown. */
async function beginEmpty(page: Page): Promise<void> {
  await pane(page, 'Procedure').getByRole('button', { name: 'New procedure' }).click()
  await page.getByLabel('Title of the procedure').fill('The whole move')
  await page.keyboard.press('Enter')
  await expect(pane(page, 'Procedure').getByRole('article')).toContainText('The whole move')
  await expect(steps(page)).toHaveCount(0)
}

test('steps are proposed from the sample’s journal, ticked and added by keys, and undone at once', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await beginEmpty(page)
  await page.keyboard.press('Alt+d')
  await expect(rows(page).first()).toBeFocused()
  const proposed = await rows(page).count()
  expect(proposed).toBeGreaterThan(10)
  // What worked is ticked already; here two are wanted.
  await expect(rows(page).locator('input:checked').first()).toBeVisible()
  for (let n = 0; n < proposed; n += 1) {
    const tick = rows(page).nth(n).locator('input')
    await tick.scrollIntoViewIfNeeded()
    if (await tick.isChecked()) await tick.uncheck()
  }
  await rows(page).first().focus()
  const first = await rows(page).nth(0).locator('pre').first().innerText()
  const third = await rows(page).nth(2).locator('pre').first().innerText()
  await page.keyboard.press('Space')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Space')
  await expect(panelOf(page).getByRole('button', { name: 'Add 2 steps' })).toBeEnabled()
  await panelOf(page)
    .getByRole('button', { name: /^Not drafted/ })
    .click()
  await expect(panelOf(page).locator('.st-dropped-row').first()).toBeVisible()
  expect(await violationsInBoth(page)).toEqual([])
  await rows(page).nth(2).focus()
  await page.keyboard.press('Enter')
  await expect(steps(page)).toHaveCount(2)
  await expect(rows(page)).toHaveCount(proposed - 2)
  await expect(page.locator('.st-draft-row:focus')).toHaveCount(1)
  await expect(steps(page).nth(0)).toContainText(first)
  await expect(steps(page).nth(1)).toContainText(third)
  await expect(partOf(steps(page).nth(0), 'do').locator('.st-from').first()).toContainText('action')
  // What was added is proposed no more, also once it is worked out anew.
  await page.keyboard.press('Escape')
  await page.keyboard.press('Alt+d')
  await expect(rows(page).first()).toBeFocused()
  // Nor is what was done once more and now stands in them.
  expect(await rows(page).count()).toBeLessThanOrEqual(proposed - 2)
  for (const text of [first, third])
    await expect(rows(page).locator('pre').getByText(text, { exact: true })).toHaveCount(0)
  await undoButton(page).click()
  await expect(steps(page)).toHaveCount(0)
  await expect(rows(page)).toHaveCount(proposed)
  expect(program.complaints).toEqual([])
})

test('a procedure begins with a draft of what worked, and goes with it by one undo', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Let the clock be right')
  await writeEntry(page, '```sh\napt install chrony\n```')
  await writeEntry(page, '```sh\nsystemctl restart chronny\n```')
  await writeEntry(page, '```sh\nsystemctl restart chrony\n```')
  await writeEntry(page, '```sh\nsystemctl enable chrony\n```')
  for (const [n, key] of ['s', 'f', 's'].entries()) {
    await entries(page).nth(n).focus()
    await page.keyboard.press(key)
  }
  await page.getByRole('button', { name: 'Draft it from the journal' }).click()
  await expect(rows(page)).toHaveCount(3)
  // Of which nobody said that it worked is not taken without a look.
  await expect(rows(page).locator('input:checked')).toHaveCount(2)
  await expect(rows(page).filter({ hasText: 'systemctl enable chrony' })).toContainText(
    'Whether it worked is unknown.',
  )
  await expect(panelOf(page)).toContainText('A procedure is begun with them, named like the project.')
  await panelOf(page).getByRole('button', { name: 'Not drafted, 1' }).click()
  await expect(panelOf(page).locator('.st-dropped-row')).toContainText('It failed.')
  await rows(page).first().focus()
  await page.keyboard.press('Shift+Enter')
  await expect(steps(page)).toHaveCount(3)
  await expect(panelOf(page)).toContainText('Nothing in these entries makes a step')
  await expect(pane(page, 'Procedure')).toContainText('Let the clock be right')
  await undoButton(page).click()
  await expect(page.getByRole('button', { name: 'Begin a procedure' })).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('entries are chosen one by one and by ranges, also from an entry on', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Let the clock be right')
  for (const name of ['chrony', 'nginx', 'sqlite3', 'rsync'])
    await writeEntry(page, `\`\`\`sh\napt install ${name}\n\`\`\``)
  const menu = entries(page)
    .nth(2)
    .getByRole('button', { name: /^More for/ })
  await chooseInMenu(page, menu, 'Draft steps from here on…')
  await expect(rows(page)).toHaveCount(2)
  await expect(rows(page).first()).toContainText('apt install sqlite3')
  const list = panelOf(page).getByRole('listbox', { name: 'Entries to draft from' })
  await expect(list.getByRole('option', { selected: true })).toHaveCount(2)
  await list.focus()
  await page.keyboard.press('Home')
  await page.keyboard.press('Space')
  await page.keyboard.press('Shift+ArrowDown')
  await expect(list.getByRole('option', { selected: true })).toHaveCount(4)
  await expect(rows(page)).toHaveCount(4)
  await page.keyboard.press('End')
  await page.keyboard.press('Space')
  await expect(rows(page)).toHaveCount(3)
  await list.getByRole('option').nth(0).click()
  await list
    .getByRole('option')
    .nth(2)
    .click({ modifiers: ['Shift'] })
  await expect(panelOf(page)).toContainText('No entry is chosen.')
  expect(await violationsInBoth(page)).toEqual([])
  await panelOf(page).getByRole('button', { name: 'The path that worked' }).click()
  await expect(rows(page)).toHaveCount(4)
  expect(program.complaints).toEqual([])
})
