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

test('made for another host it is printed with its values; a secret is a blank until the person says otherwise', async ({
  program,
}) => {
  const { page } = program
  const secret = 'Quillon7Marten3*Sprocket*'
  await writePrinted(page, 0)
  await addParameter(page, 'host', 'host name', 'logger.example.org')
  await addParameter(page, SECRET_NAME, 'secret', '')
  await page.getByRole('button', { name: 'Made for another host…' }).click()
  const panel = page.getByRole('dialog', { name: 'Made for another host' })
  await panel.getByLabel('host', { exact: true }).fill('dome.example.org')
  await panel.getByLabel(SECRET_NAME, { exact: true }).fill(secret)
  const print = async (): Promise<string> =>
    wordsOfPages(
      await catchSavedFile(program, () => panel.getByRole('button', { name: 'Save as PDF…' }).click()),
    ).join(' ')
  const without = await print()
  expect(without).toContain('unlock --host dome.example.org --with')
  expect(without).toMatch(/host dome\.example\.org/)
  expect(without).not.toContain(secret)
  expect(without).not.toContain('holds secrets')
  await panel.getByRole('checkbox', { name: 'What I copy, print or write out may hold the secrets' }).check()
  const withSecret = await print()
  expect(withSecret).toContain(`unlock --host dome.example.org --with ${secret}`)
  expect(withSecret).toContain(`This paper holds secrets in plain words: ${SECRET_NAME}.`)
  await expect(page.locator('.st-print')).toHaveCount(0)
  expect(await page.locator('body').innerText()).not.toContain(secret)
  expect(program.complaints).toEqual([])
})
