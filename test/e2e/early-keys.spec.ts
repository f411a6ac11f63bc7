/** Nobody waits for an editor: keys pressed while a text is being opened are part of the text. */
import { expect, test } from './support/test.ts'

test('keys pressed right behind the one that opens a text are all in it', async ({ program }) => {
  const { page } = program
  await page.getByRole('button', { name: 'Load the sample' }).click()
  const words = 'abcdefghijklmnopqrstuvwxyz0123456789'
  for (const name of ['If it fails of step 2', 'Purpose', 'Do of step 1']) {
    const part = page.getByRole('group', { name, exact: true })
    await part.focus()
    await page.keyboard.press('Enter')
    // One call each, without a pause between them.
    await page.keyboard.type(` ${words}`)
    await page.keyboard.press('Escape')
    await expect(part).toContainText(words)
  }
  expect(program.complaints).toEqual([])
})
