/** Nobody waits for an editor: keys pressed while a text is being opened are part of the text. */
import type { Page } from '@playwright/test'
import { holdDatabase } from './support/busyDatabase.ts'
import { openSample, pane, partOf, steps, undoButton } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const words = 'abcdefghijklmnopqrstuvwxyz0123456789'
const part = (page: Page, name: string) => page.getByRole('group', { name, exact: true })
const editor = (page: Page) => page.locator('.st-procedure .cm-content')
/** Opens the sample and, in its first procedure, the purpose for typing. */
const openPurpose = async (page: Page): Promise<void> => {
  await openSample(page)
  await part(page, 'Purpose').focus()
  await page.keyboard.press('Enter')
  await expect(editor(page)).toBeFocused()
}
const pressAll = async (page: Page, ...keys: readonly string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key)
}

test('keys pressed right behind the one that opens a text are all in it', async ({ program }) => {
  const { page } = program
  await openSample(page)
  for (const name of ['If it fails of step 2', 'Purpose', 'Do of step 1']) {
    await part(page, name).focus()
    await page.keyboard.press('Enter')
    // One call each, without a pause between them.
    await page.keyboard.type(` ${words}`)
    await page.keyboard.press('Escape')
    await expect(part(page, name)).toContainText(words)
  }
  expect(program.complaints).toEqual([])
})

test('before its editor is there, a text takes Backspace, moves of the cursor, and the keys that leave it', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const purpose = part(page, 'Purpose')
  const before = (await purpose.innerText()).trim()
  const letGo = await holdDatabase(page)
  await purpose.focus()
  await pressAll(page, 'Enter', 'Backspace', 'Backspace', 'Backspace')
  await page.keyboard.type('xyz')
  await pressAll(page, 'ArrowLeft', 'Backspace', 'Control+Home')
  await page.keyboard.type('First: ')
  await page.keyboard.press('Escape')
  await expect(editor(page)).toHaveCount(0)
  await letGo()
  await expect(purpose).toHaveText(`First: ${before.slice(0, -3)}xz`)
  await expect(purpose).toBeFocused()
  expect(program.complaints).toEqual([])
})

test('the cursor stands in the editor where the keys before it had left it', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const letGo = await holdDatabase(page)
  await part(page, 'Purpose').focus()
  await pressAll(page, 'Enter', 'Control+Home')
  await page.keyboard.type('ab')
  await expect(editor(page)).toHaveCount(0)
  await letGo()
  await expect(editor(page)).toBeFocused()
  await page.keyboard.type('cd')
  await page.keyboard.press('Escape')
  await expect(part(page, 'Purpose')).toHaveText(/^abcd/)
  expect(program.complaints).toEqual([])
})

test('Enter ends a title that is not open yet, and makes no second line of it', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const title = part(page, 'Title')
  const before = (await title.innerText()).trim()
  const letGo = await holdDatabase(page)
  await title.focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type(', once')
  await page.keyboard.press('Enter')
  await letGo()
  await expect(title).toBeFocused()
  await expect(title).toHaveText(`${before}, once`)
  expect(program.complaints).toEqual([])
})

test('a new step takes what is typed while it is being made', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const count = await steps(page).count()
  const letGo = await holdDatabase(page)
  await pane(page, 'Procedure').getByRole('button', { name: 'Add a step', exact: true }).focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type(words)
  await expect(steps(page)).toHaveCount(count)
  await letGo()
  await expect(editor(page)).toHaveText(words)
  await expect(editor(page)).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(partOf(steps(page).nth(count), 'do')).toContainText(words)
  expect(program.complaints).toEqual([])
})

test('who goes from one text to the next loses nothing of either', async ({ program }) => {
  const { page } = program
  await openPurpose(page)
  await page.keyboard.type(' (purpose)')
  const letGo = await holdDatabase(page)
  await part(page, 'Do of step 1').locator('p').first().click()
  await page.keyboard.type(' (step)')
  await letGo()
  await expect(editor(page)).toContainText('(step)')
  await page.keyboard.press('Escape')
  await expect(part(page, 'Do of step 1')).toContainText('(step)')
  await expect(part(page, 'Purpose')).toContainText('(purpose)')
  expect(program.complaints).toEqual([])
})

test('a text that is asked for twice before it is open takes all keys', async ({ program }) => {
  const { page } = program
  await openPurpose(page)
  const letGo = await holdDatabase(page)
  const asked = part(page, 'Do of step 1')
  await asked.dispatchEvent('click')
  await page.keyboard.type(' (once)')
  await asked.dispatchEvent('click')
  await page.keyboard.type(' (again)')
  await letGo()
  await expect(editor(page)).toContainText('(once) (again)')
  await expect(editor(page)).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(asked).toContainText('(once) (again)')
  expect(program.complaints).toEqual([])
})

test('who leaves a text before it is open finds in it what was typed, and is not called back', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const entry = page.locator('article.st-entry').last()
  const letGo = await holdDatabase(page)
  await part(page, 'Purpose').focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type(` ${words}`)
  await entry.focus()
  await letGo()
  await expect(part(page, 'Purpose')).toContainText(words)
  await expect(entry).toBeFocused()
  expect(program.complaints).toEqual([])
})

test('a step that has moved does not take the keyboard from the text that was opened meanwhile', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const letGo = await holdDatabase(page)
  await steps(page).first().focus()
  await pressAll(page, 'Alt+ArrowDown', 'Enter')
  await page.keyboard.type(' early')
  await letGo()
  await expect(page.getByText('Moved. It is step 2 of')).toBeAttached()
  await expect(editor(page)).toBeFocused()
  await page.keyboard.type(' late')
  await page.keyboard.press('Escape')
  await expect(part(page, 'Do of step 2')).toContainText('early late')
  expect(program.complaints).toEqual([])
})

test('a step that moves while its text is open leaves the keyboard and the cursor there', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await steps(page).nth(1).focus()
  await page.keyboard.press('Alt+ArrowUp')
  await expect(page.getByText('Moved. It is step 1 of')).toBeAttached()
  await page.keyboard.press('Enter')
  await expect(editor(page)).toBeFocused()
  // Nothing was typed here yet, so this takes back the move: down, where it is the step itself that moves on the page.
  await page.keyboard.press('Control+z')
  await expect(steps(page).nth(1).locator('.cm-content')).toBeFocused()
  await page.keyboard.type(' Once moved.')
  await page.keyboard.press('Escape')
  await expect(part(page, 'Do of step 2')).toContainText(/``` Once moved\.$/)
  expect(program.complaints).toEqual([])
})

test('who goes back to a text that is about to be closed goes on typing in it', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await steps(page).first().focus()
  await page.keyboard.press('Enter')
  await expect(editor(page)).toBeFocused()
  await page.keyboard.type(' (before)')
  const letGo = await holdDatabase(page)
  const before = (await undoButton(page).getAttribute('aria-label'))!
  // Left by this, it closes once it is written down, which undo knows of then.
  await steps(page).first().focus()
  await page.keyboard.press('Enter')
  await letGo()
  await expect(undoButton(page)).not.toHaveAccessibleName(before)
  await page.keyboard.type(' (behind)')
  await page.keyboard.press('Escape')
  await expect(part(page, 'Do of step 1')).toContainText('(before) (behind)')
  expect(program.complaints).toEqual([])
})

test('who goes back to a text that is not open yet goes on typing in it', async ({ program }) => {
  const { page } = program
  await openPurpose(page)
  const letGo = await holdDatabase(page)
  await part(page, 'Do of step 1').locator('p').first().click()
  await page.keyboard.type(' (before)')
  await steps(page).first().focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type(' (behind)')
  await letGo()
  await expect(editor(page)).toContainText('(before) (behind)')
  await expect(editor(page)).toBeFocused()
  expect(program.complaints).toEqual([])
})

test('what is typed into a step that is being removed is given back', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const count = await steps(page).count()
  await steps(page).first().focus()
  await page.keyboard.press('Shift+ArrowDown')
  const letGo = await holdDatabase(page)
  await pressAll(page, 'Delete', 'Enter')
  await page.keyboard.type(` ${words}`)
  await letGo()
  await expect(steps(page)).not.toHaveCount(count)
  await expect(page.locator('.st-notices')).toContainText(`What you typed: “ ${words}”`)
  expect(program.complaints).toEqual([])
})

test('a part that is put into another step while it is being opened keeps what is typed', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const moved = part(page, 'If it fails of step 2')
  const id = (await moved.getAttribute('data-node'))!
  await moved.focus()
  await page.keyboard.press('Control+x')
  await steps(page).nth(2).focus()
  const letGo = await holdDatabase(page)
  await page.keyboard.press('Control+v')
  await moved.focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type(' (before)')
  await letGo()
  await expect(steps(page).nth(2).locator(`.st-editor[data-node="${id}"] .cm-content`)).toBeFocused()
  await page.keyboard.type(' (behind)')
  await page.keyboard.press('Escape')
  await expect(part(page, 'If it fails of step 3')).toContainText('(before) (behind)')
  expect(program.complaints).toEqual([])
})
