/** The procedure on paper from a browser: its own dialog asks for the rest, and the screen is as it was afterwards. */
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { violationsInBoth } from './support/axe.ts'
import { pane } from './support/panes.ts'
import {
  addParameter,
  choosePaper,
  expectWhole,
  SECRET_NAME,
  wordsOfPages,
  writePrinted,
} from './support/printing.ts'
import { expect, test } from './support/test.ts'

test('what the browser prints is the procedure alone, named by the page’s title while it prints', async ({
  program,
}) => {
  const { page } = program
  await writePrinted(page, 9)
  await addParameter(page, 'host', 'host name', 'logger.example.org')
  await addParameter(page, SECRET_NAME, 'secret', '')
  // The dialog is the browser's own and out of a test's reach; it is asked for, and what would be printed is taken.
  await page.evaluate(() => {
    window.print = () => document.documentElement.setAttribute('data-printed', document.title)
  })
  await choosePaper(page)
  await expect(page.getByText('The browser’s dialog asks for the paper')).toBeVisible()
  expect(await violationsInBoth(page)).toEqual([])
  await page.getByRole('button', { name: 'Print…' }).click()
  await expect(page.locator('html')).toHaveAttribute('data-printed', 'Bring a logger into the rack')
  const path = join(mkdtempSync(join(tmpdir(), 'stillroom-print-')), 'printed.pdf')
  await page.pdf({ path, format: 'A4' })
  const pages = wordsOfPages(path)
  expect(pages.length).toBeGreaterThan(2)
  expectWhole(pages, 9)
  // What is on the screen is on no page, and a value that is to be written in is on none.
  expect(pages.join(' ')).not.toMatch(/Add a step|Journal|Everything typed is kept/)
  expect(pages[0]).toContain('host name, for instance logger.example.org')
  await expect(page.locator('.st-print')).toHaveCount(0)
  await expect(page).toHaveTitle('Stillroom')
  await expect(pane(page, 'Procedure').getByRole('article')).toBeVisible()
  expect(program.complaints).toEqual([])
})
