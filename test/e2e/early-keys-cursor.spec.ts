/** Words that are marked in an open text leave the cursor where it is, however slow the machine. */
import type { Page } from '@playwright/test'
import { openSample, steps, writeEntry } from './support/panes.ts'
import { expect, test } from './support/test.ts'

/**
 * From the moment the text has the focus the clock stands still. CodeMirror takes what the browser does to the selection
 * within 200 ms of that for a part of focusing; so all that follows is within them, on a slow machine too.
 */
async function stopClockAtFocus(page: Page): Promise<void> {
  await page.evaluate(() => {
    const { now } = Date
    const onFocus = ({ target }: FocusEvent): void => {
      if (!(target instanceof Element) || !target.closest('.st-procedure .cm-content')) return
      const moment = now()
      Date.now = () => moment
    }
    document.addEventListener('focus', onFocus, true)
  })
}

/** Two frames: events that follow a change of the page have come by then. */
async function settle(page: Page): Promise<void> {
  await page.evaluate(
    () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))),
  )
}

test('Backspace takes the last characters of a text that was opened with its words marked', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const before = await steps(page).count()
  const said = await writeEntry(page, '> Four weeks and not one fault.')
  await said.focus()
  await page.keyboard.press('Alt+c')
  await expect(page.getByRole('combobox', { name: 'Find a place' })).toBeFocused()
  await page.keyboard.type(`New step after ${before}`)
  await page.keyboard.press('Enter')
  const part = steps(page)
    .nth(before)
    .getByRole('group', { name: /of step/ })
  await expect(part).toBeFocused()
  await stopClockAtFocus(page)
  await page.keyboard.press('Enter')
  const editor = steps(page).nth(before).locator('.cm-content')
  await expect(editor).toBeFocused()
  await expect(editor.locator('.st-mark')).toBeVisible()
  await settle(page)
  const words = await editor.innerText()
  for (let presses = 0; presses < 8; presses++) await page.keyboard.press('Backspace')
  expect(await editor.innerText()).toBe(words.slice(0, -8))
  expect(program.complaints).toEqual([])
})
