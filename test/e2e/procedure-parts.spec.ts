/** Cautions with signal words, files, and references from one step to another. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import { addStep, beginProcedure, beginProject, chooseInMenu, pane, partOf, steps } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const chooseForStep = (page: Page, step: Locator, line: string | RegExp): Promise<void> =>
  chooseInMenu(page, step.getByRole('button', { name: /^More for step/ }), line)

async function begin(page: Page): Promise<void> {
  await beginProject(page, 'Change the battery')
  await beginProcedure(page, 'Change the battery of the UPS')
  await addStep(page, 'Pull the plug')
  await addStep(page, 'Lift the battery out')
}

test('a caution shows its signal word, what it lacks, and takes a ready text', async ({ program }) => {
  const { page } = program
  await begin(page)
  const caution = partOf(steps(page).first(), 'caution')
  await chooseForStep(page, steps(page).first(), 'Add caution')
  await expect(caution.locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('The terminals stay live.')
  await page.keyboard.press('Escape')
  await expect(caution).toContainText('Still to say: a signal word, what can happen and how to avoid it.')
  await caution.getByRole('button', { name: 'Caution without a signal word' }).click()
  await page.getByRole('menuitemradio', { name: /^Danger:/ }).click()
  await expect(caution.locator('.st-signal')).toHaveText('Danger')
  await expect(caution).toHaveClass(/st-part--danger/)
  await expect(caution).toContainText('The terminals stay live.')

  await chooseForStep(page, steps(page).nth(1), 'Ready caution…')
  const list = page.getByRole('dialog', { name: 'Ready cautions' })
  await list.getByRole('combobox').fill('battery')
  await expect(list.getByRole('option').first()).toBeVisible()
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Enter')
  await expect(list).toHaveCount(0)
  await expect(partOf(steps(page).nth(1), 'caution').locator('.st-signal')).toHaveText(
    /Danger|Warning|Caution|Notice/,
  )
  await expect(partOf(steps(page).nth(1), 'caution').locator('.st-still')).toHaveCount(0)
  expect(await violationsInBoth(page)).toEqual([])
  expect(program.complaints).toEqual([])
})

test('a step sets down a file, and another step is named by the number that it has now', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  await chooseForStep(page, steps(page).first(), 'Add file')
  const form = page.getByRole('form', { name: 'Which file it is' })
  await form.getByLabel('Path').fill('/etc/nut/ups.conf')
  await form.getByLabel('Mode').fill('0640')
  await form.getByRole('button', { name: 'Keep', exact: true }).click()
  const file = partOf(steps(page).first(), 'file')
  await expect(file.locator('.cm-content')).toBeFocused()
  // The editor itself deletes; what a browser puts over a selection has styles of the browser's own.
  await page.keyboard.press('Control+a')
  await page.keyboard.press('Backspace')
  await page.keyboard.insertText(
    '```diff\n--- a/etc/nut/ups.conf\n+++ b/etc/nut/ups.conf\n@@ -1 +1 @@\n-a\n+b\n```',
  )
  await page.keyboard.press('Escape')
  await expect(file).toContainText('/etc/nut/ups.conf')
  await expect(file.locator('.st-file-facts')).toHaveText('rw-r----- a difference')

  await partOf(steps(page).nth(1), 'do').locator('.st-part-read').click()
  await expect(partOf(steps(page).nth(1), 'do').locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Control+End')
  await page.keyboard.insertText(', then again ')
  await chooseInMenu(page, pane(page, 'Procedure').getByRole('button', { name: 'Go to step…' }), /^Step 1/)
  await expect(partOf(steps(page).nth(1), 'do').locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Escape')
  const reference = partOf(steps(page).nth(1), 'do').getByRole('button', { name: 'step 1' })
  await reference.click()
  await expect(steps(page).first()).toBeFocused()
  await page.keyboard.press('Alt+ArrowDown')
  await expect(partOf(steps(page).first(), 'do').getByRole('button', { name: 'step 2' })).toBeVisible()
  await chooseForStep(page, steps(page).nth(1), 'Remove step')
  await expect(partOf(steps(page).first(), 'do')).toContainText('step 1 (gone)')
  expect(program.complaints).toEqual([])
  expect(await violationsInBoth(page)).toEqual([])
})

test('Markdown’s marks hide where the cursor is not, or stand always, as the person likes', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  const first = partOf(steps(page).first(), 'do')
  const open = async (): Promise<void> => {
    await first.locator('.st-part-read').click()
    await expect(first.locator('.cm-content')).toBeFocused()
    await page.keyboard.press('Control+End')
  }
  await open()
  await page.keyboard.insertText(' of the **UPS**\n\nThen wait.')
  await expect(first.locator('.cm-content')).toHaveText(/Pull the plug of the UPS\s*Then wait\./)
  await page.keyboard.press('Escape')
  await expect(first.locator('strong')).toHaveText('UPS')
  const choose = async (line: string): Promise<void> => {
    await pane(page, 'Procedure').getByRole('button', { name: 'More for the procedure', exact: true }).click()
    await page.getByRole('menuitemradio', { name: line }).click()
  }
  await choose('Markdown as it is typed')
  await open()
  await expect(first.locator('.cm-content')).toContainText('of the **UPS**')
  await page.keyboard.press('Escape')
  if (program.kind === 'chromium') await page.waitForTimeout(500)
  await program.restart()
  const again = partOf(steps(program.page).first(), 'do')
  await again.locator('.st-part-read').click()
  await expect(again.locator('.cm-content')).toContainText('of the **UPS**')
  expect(program.complaints).toEqual([])
})

test('the keys of the procedure stand on a page of their own beside it', async ({ program }) => {
  const { page } = program
  await begin(page)
  await chooseInMenu(
    page,
    pane(page, 'Procedure').getByRole('button', { name: 'More for the procedure', exact: true }),
    'Keys of the procedure',
  )
  const help = page.getByRole('dialog', { name: 'Keys of the procedure' })
  await expect(help.getByRole('table', { name: 'On a step or a section' })).toContainText('Alt+Shift+↓')
  expect(await violationsInBoth(page)).toEqual([])
  // The steps stand beside it, and take the keys that it names.
  await steps(page).first().focus()
  await page.keyboard.press('Alt+ArrowDown')
  await expect(steps(page).nth(1)).toContainText('Pull the plug')
  await expect(help).toBeVisible()
  expect(program.complaints).toEqual([])
})
