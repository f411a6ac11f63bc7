/** The procedure as a PDF of the program: every step, cautions before what they are for, no secret unless it was asked for. */
import {
  addParameter,
  choosePaper,
  expectWhole,
  sizeOf,
  SECRET_NAME,
  wordsOfPages,
  writePrinted,
} from './support/printing.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

test('a PDF holds every step with its number, its caution before it, and blanks for the values', async ({
  program,
}) => {
  const { page } = program
  await writePrinted(page, 12)
  await addParameter(page, 'host', 'host name', 'logger.example.org')
  await addParameter(page, SECRET_NAME, 'secret', '')
  await choosePaper(page)
  await page.getByLabel('Paper', { exact: true }).selectOption('A4')
  const path = await catchSavedFile(program, () => page.getByRole('button', { name: 'Save as PDF…' }).click())
  const pages = wordsOfPages(path)
  expect(pages.length).toBeGreaterThan(2)
  expectWhole(pages, 12)
  for (const [at, words] of pages.entries())
    expect(words.endsWith(`Page ${at + 1} of ${pages.length}`), `the number of page ${at + 1}`).toBe(true)
  expect(sizeOf(path)).toBe('A4')
  await choosePaper(page)
  await page.getByLabel('Paper', { exact: true }).selectOption('Letter')
  const letter = await catchSavedFile(program, () =>
    page.getByRole('button', { name: 'Save as PDF…' }).click(),
  )
  expect(sizeOf(letter)).toBe('letter')
  expectWhole(wordsOfPages(letter), 12)
  await expect(page.locator('.st-print')).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('the printer is the system’s: what it answers is said, and a cancelled dialog changes nothing', async ({
  program,
}) => {
  const { page, shell } = program
  await writePrinted(page, 0)
  const answer = (isDone: boolean, reason: string): Promise<void> =>
    shell!.evaluate(
      ({ BrowserWindow }, [done, why]) => {
        BrowserWindow.getAllWindows()[0]!.webContents.print = (_options, told) => told?.(done, why)
      },
      [isDone, reason] as const,
    )
  await choosePaper(page)
  await answer(false, 'Print job canceled')
  await page.getByRole('button', { name: 'Print…' }).click()
  await expect(page.locator('.st-print')).toHaveCount(0)
  await expect(page.getByRole('radio', { name: 'Paper or PDF' })).toBeChecked()
  await answer(false, 'Invalid printer settings')
  await page.getByRole('button', { name: 'Print…' }).click()
  await expect(page.getByText('save it as a PDF and print that elsewhere')).toBeVisible()
  await answer(true, '')
  await page.getByRole('button', { name: 'Print…' }).click()
  await expect(page.locator('.st-notices')).toContainText('It was handed to the printer.')
  expect(program.complaints).toEqual([])
})
