/** What comes in beside typing: many files at once, folders, pages with an address, bookmarks, pages that are known. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { dropOn, paste } from './support/arriving.ts'
import { beginProject, composer, dismissNotices, pane, sourceRow } from './support/panes.ts'
import { chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const bookmarks = join(process.env.STANDARDS_DIR ?? '../shared/standards', 'bookmarks')
const encode = (text: string): Uint8Array => new TextEncoder().encode(text)
const rows = (page: Page) => page.locator('.st-source-open')
const report = (page: Page) => page.getByRole('region', { name: 'What came in' })
const told = (page: Page) => page.getByRole('list', { name: 'What was here before' })

/** Everything in one table of the open lab's database. */
function readTable(page: Page, table: string): Promise<readonly Record<string, unknown>[]> {
  return page.evaluate(async (table) => {
    const request = <T>(one: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        one.onsuccess = () => resolve(one.result)
        one.onerror = () => reject(new Error(String(one.error)))
      })
    const all = await indexedDB.databases()
    const name = all.find((one) => one.name?.startsWith('stillroom-lab-'))!.name!
    const db = await request(indexedDB.open(name))
    const records = await request(db.transaction(table).objectStore(table).getAll())
    db.close()
    return records as Record<string, unknown>[]
  }, table)
}
const count = async (page: Page, table: string): Promise<number> => (await readTable(page, table)).length

/** HTML as Windows puts it on the clipboard ("HTML Clipboard Format" in the Win32 documentation). */
const pageFrom = (address: string, html: string): string =>
  `Version:0.9\r\nStartHTML:0\r\nSourceURL:${address}\r\n<html><body><!--StartFragment-->${html}<!--EndFragment--></body></html>`

test('files that are dropped together come in as one run: equal ones once, broken ones by name, all taken back at once', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const files = [
    ...Array.from({ length: 30 }, (_, at) => ({
      name: `reading ${at}.txt`,
      bytes: encode(`Fan ${at} turns ${1000 + at} times a minute.\n`),
    })),
    { name: 'copy of 3.txt', bytes: encode('Fan 3 turns 1003 times a minute.\n') },
    { name: 'copy of 4.txt', bytes: encode('Fan 4 turns 1004 times a minute.\n') },
    { name: 'nothing.txt', bytes: encode(' \n') },
  ]
  await dropOn(page.locator('.st-sources'), { files })
  await expect(report(page)).toContainText('30 of 33 added. 2 were there already. 1 could not be read.')
  await expect(report(page)).toContainText('“nothing.txt” holds no words')
  expect(await count(page, 'sources')).toBe(30)
  expect(await count(page, 'blobs')).toBe(30)

  // It stays, also when the program goes on; the copied text names each file.
  await composer(page).click()
  await page.keyboard.type('reading on')
  await report(page).getByRole('button', { name: 'Copy the report' }).click()
  const copied = await page.evaluate(() => navigator.clipboard.readText()).catch(() => null)
  if (copied !== null) expect(copied).toContain('copy of 3.txt')
  await report(page).getByText('There already (2)').click()
  await expect(report(page)).toContainText('is here already, so it was not added again')

  // What was there can be added all the same; its bytes are kept once.
  await report(page).getByRole('button', { name: 'Add as a source of its own' }).first().click()
  await expect.poll(() => count(page, 'sources')).toBe(31)
  expect(await count(page, 'blobs')).toBe(30)

  await program.restart()
  await expect(rows(program.page).first()).toBeVisible()
  expect(await count(program.page, 'sources')).toBe(31)
  expect(await count(program.page, 'captures')).toBe(31)
  expect(program.complaints).toEqual([])
})

test('a run is taken back at once', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const files = Array.from({ length: 60 }, (_, at) => ({
    name: `reading ${at}.txt`,
    bytes: encode(`Fan ${at} turns.\n`),
  }))
  await dropOn(page.locator('.st-sources'), { files })
  await expect(report(page)).toContainText('60 of 60 added.')
  await report(page).getByRole('button', { name: 'Undo' }).click()
  await expect(report(page)).toContainText('All of it was taken back.')
  await expect.poll(() => count(page, 'sources')).toBe(0)
  expect(await count(page, 'blobs')).toBe(0)
  await report(page).getByRole('button', { name: 'Dismiss' }).click()
  await expect(report(page)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('a folder that is chosen comes in with its folders, without what a browser saved beside a page', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const folder = join(mkdtempSync(join(tmpdir(), 'stillroom-folder-')), 'cooling')
  for (const below of ['fans', 'fans/page_files', '.cache'])
    mkdirSync(join(folder, below), { recursive: true })
  writeFileSync(join(folder, 'plan.md'), '# The plan\n\nMore air.\n')
  writeFileSync(
    join(folder, 'fans/page.html'),
    '<title>Fans</title><main><h1>Fans</h1><p>Three of them.</p></main>',
  )
  writeFileSync(join(folder, 'fans/page_files/style.txt'), 'left out')
  writeFileSync(join(folder, '.cache/hidden.txt'), 'left out')
  await page.getByRole('button', { name: 'Add a source' }).first().click()
  await chooseFiles(program, [folder], () => page.getByRole('button', { name: 'Choose a folder…' }).click())
  await expect(report(page)).toContainText('2 of 2 added.')
  await expect(sourceRow(page, 'The plan')).toBeVisible()
  const names = async () => (await readTable(page, 'folders')).map(({ name }) => name).sort()
  expect(await names()).toEqual(['cooling', 'fans'])
  const placed = async () =>
    (await readTable(page, 'sources')).filter(({ folders }) => (folders as unknown[]).length > 0).length
  expect(await placed()).toBe(2)
  const choice = report(page).getByRole('checkbox', { name: 'In folders named like those of the files' })
  await choice.uncheck()
  await expect.poll(placed).toBe(0)
  await choice.check()
  await expect.poll(placed).toBe(2)
  await report(page).getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => count(page, 'sources')).toBe(0)
  await expect.poll(names).toEqual([])
  expect(program.complaints).toEqual([])
})

test('a page that is known is read again: the same words are not added, other words are a new capture', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const address = 'https://docs.example.org/fans'
  await page.locator('.st-sources').focus()
  await paste(page, { 'text/html': pageFrom(address, '<h2>Fans</h2><p>Three fans.</p>') })
  await expect(sourceRow(page, 'Fans')).toContainText('docs.example.org')
  await expect(rows(page)).toHaveCount(1)

  // The same, by another spelling of its address.
  await dismissNotices(page)
  await page.locator('.st-sources').focus()
  await paste(page, { 'text/html': pageFrom(address, '<h2>Fans</h2><p>Three fans.</p>') })
  await expect(told(page)).toContainText('“Fans Three fans.” is here already, so it was not added again.')
  await expect(page.locator('.st-reading')).toContainText('Three fans.')
  await told(page).getByRole('button', { name: 'Dismiss' }).click()
  await page.getByRole('button', { name: 'All sources' }).click()

  // Other words.
  await page.locator('.st-sources').focus()
  const changed = pageFrom(
    `http://docs.example.org/fans?utm_source=mail#top`,
    '<h2>Fans</h2><p>Four fans.</p>',
  )
  await paste(page, { 'text/html': changed })
  await expect(told(page)).toContainText('“Fans Three fans.” was read again: it is not what it was.')
  expect(await count(page, 'sources')).toBe(1)
  expect(await count(page, 'captures')).toBe(2)
  await told(page).getByRole('button', { name: 'See what changed' }).click()
  await expect(page.locator('.st-reading')).toContainText('Four fans.')
  await told(page).getByRole('button', { name: 'Undo' }).click()
  await expect(told(page)).toHaveCount(0)
  await expect.poll(() => count(page, 'captures')).toBe(1)
  await page.getByRole('button', { name: 'All sources' }).click()

  // It can be a source of its own instead.
  await page.locator('.st-sources').focus()
  await paste(page, { 'text/html': changed })
  await told(page).getByRole('button', { name: 'Add as a source of its own' }).click()
  await expect.poll(() => count(page, 'sources')).toBe(2)
  await expect.poll(() => count(page, 'captures')).toBe(2)

  // A link is there already too, and an address alone becomes the page.
  await paste(page, { 'text/plain': 'https://docs.example.org/pumps' })
  await expect(sourceRow(page, 'docs.example.org/pumps')).toBeVisible()
  await paste(page, { 'text/plain': 'http://docs.example.org:80/pumps?fbclid=1' })
  await expect(told(page)).toContainText('is here already')
  await told(page).getByRole('button', { name: 'Dismiss' }).click()
  await page.getByRole('button', { name: 'All sources' }).click()
  await page.locator('.st-sources').focus()
  await paste(page, {
    'text/html': pageFrom('https://docs.example.org/pumps', '<h2>Pumps</h2><p>Two pumps.</p>'),
  })
  await expect(told(page)).toContainText('was an address alone. It has its text now.')
  await expect(sourceRow(page, 'Pumps Two pumps.')).toBeVisible()
  expect(await count(page, 'sources')).toBe(3)

  await program.restart()
  expect(await count(program.page, 'sources')).toBe(3)
  expect(program.complaints).toEqual([])
})

test('a picture from the clipboard is a source that is named by the date', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  await page.locator('.st-sources').focus()
  await page.evaluate(async () => {
    const surface = new OffscreenCanvas(8, 8)
    surface.getContext('2d')!.fillRect(0, 0, 4, 4)
    const blob = await surface.convertToBlob({ type: 'image/png' })
    const clipboardData = new DataTransfer()
    clipboardData.items.add(new File([blob], 'image.png', { type: 'image/png' }))
    document.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
  })
  await expect(sourceRow(page, 'Picture pasted 20')).toBeVisible()
  expect((await readTable(page, 'sources'))[0]).toMatchObject({ kind: 'picture', wayIn: 'pasted' })
  expect(program.complaints).toEqual([])
})

test('the bookmarks of a browser come in when the person says so, each page once, with folders, tags and dates', async ({
  program,
}) => {
  test.skip(!existsSync(bookmarks), 'the bookmark exports of browsers are not here (STANDARDS_DIR)')
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const drop = async (name: string) =>
    dropOn(page.locator('.st-sources'), { files: [{ name, bytes: readFileSync(join(bookmarks, name)) }] })
  const asked = page.getByRole('region', { name: /^Links of / })

  await drop('firefox153esr-export.html')
  await expect(asked).toContainText(/holds [\d,]+ links? in [\d,]+ folders?/)
  expect(await count(page, 'sources')).toBe(0)
  // The question holds nothing up.
  await composer(page).click()
  await page.keyboard.type('meanwhile')
  await asked.getByRole('button', { name: 'Add them all' }).click()
  await expect(report(page)).toContainText(/links of “firefox153esr-export.html” added/)
  const sources = await readTable(page, 'sources')
  expect(sources.length).toBeGreaterThan(0)
  expect(sources.every(({ wayIn, kind }) => wayIn === 'bookmarks' && kind === 'link')).toBe(true)
  expect(sources.some(({ bookmarked }) => bookmarked !== null)).toBe(true)
  expect(sources.some(({ tags }) => (tags as unknown[]).length > 0)).toBe(true)
  expect(sources.some(({ folders }) => (folders as unknown[]).length > 0)).toBe(true)
  const before = { sources: sources.length, folders: await count(page, 'folders') }

  // The same file once more brings nothing twice.
  await report(page).getByRole('button', { name: 'Dismiss' }).click()
  await drop('firefox153esr-export.html')
  await expect(asked).toContainText('0 of these pages are not here yet.')
  await asked.getByRole('button', { name: 'Only those that are not here yet' }).click()
  await expect(report(page)).toContainText(`0 of ${before.sources} links`)
  expect({ sources: await count(page, 'sources'), folders: await count(page, 'folders') }).toEqual(before)
  await report(page).getByRole('button', { name: 'Dismiss' }).click()

  await drop('chromium156-export.html')
  await asked.getByRole('button', { name: 'Add them all' }).click()
  await expect(report(page)).toContainText(/links of “chromium156-export.html” added/)
  const addresses = (await readTable(page, 'sources')).map(({ address }) => address)
  expect(new Set(addresses).size).toBe(addresses.length)
  await report(page).getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => count(page, 'sources')).toBe(before.sources)
  expect(program.complaints).toEqual([])
})

test('ten thousand bookmarks nested fifty deep come in while the composer takes every key', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  const depth = 50
  const each = 10_000 / depth
  const level = (at: number): string =>
    at === depth
      ? ''
      : `<DT><H3>level ${at}</H3><DL><p>${Array.from(
          { length: each },
          (_, link) => `<DT><A HREF="https://docs.example.org/${at}/${link}">Page ${at} ${link}</A>\n`,
        ).join('')}${level(at + 1)}</DL><p>`
  const html = `<!DOCTYPE NETSCAPE-Bookmark-file-1>\n<TITLE>Bookmarks</TITLE>\n<DL><p>${level(0)}</DL>`
  await dropOn(page.locator('.st-sources'), { files: [{ name: 'bookmarks.html', bytes: encode(html) }] })
  const asked = page.getByRole('region', { name: 'Links of bookmarks.html' })
  await expect(asked).toContainText('10,000 links in 50 folders')
  await asked.getByRole('button', { name: 'Add them all' }).click()
  await composer(page).click()
  let typed = ''
  let slowest = 0
  const begun = Date.now()
  while ((await report(page).count()) === 0 && Date.now() - begun < 100_000) {
    const sign = 'abcdefghij '[typed.length % 11]!
    const pressed = Date.now()
    await page.keyboard.type(sign)
    typed += sign
    await expect.poll(() => composer(page).textContent(), { intervals: [10] }).toBe(typed)
    slowest = Math.max(slowest, Date.now() - pressed)
    await page.waitForTimeout(50)
  }
  console.log(`10,000 bookmarks: ${Date.now() - begun} ms, slowest key ${slowest} ms`)
  await expect(report(page)).toContainText('10,000 of 10,000 links')
  expect(slowest).toBeLessThan(1500)
  expect(await count(page, 'sources')).toBe(10_000)
  expect(program.complaints).toEqual([])
})

test('all of a run can be called off: what was read stays, the rest is left alone', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  await page.locator('.st-sources').evaluate((element) => {
    const dataTransfer = new DataTransfer()
    for (let at = 0; at < 60; at++)
      dataTransfer.items.add(new File([`reading ${at} `.repeat(200_000)], `log ${at}.txt`))
    for (const type of ['dragover', 'drop'])
      element.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }))
  })
  await expect(pane(page, 'Sources')).toContainText(/of 60/)
  await page.getByRole('button', { name: 'Cancel this' }).click()
  await expect.poll(() => count(page, 'sources')).toBeGreaterThan(0)
  await page.getByRole('button', { name: 'Cancel all' }).click()
  await expect(report(page)).toContainText(/\d+ of 60 added\. \d+ were called off\./)
  const [, added, off] = /(\d+) of 60 added\. (\d+) were called off/.exec(await report(page).innerText())!
  expect(Number(added) + Number(off)).toBe(60)
  expect(await count(page, 'sources')).toBe(Number(added))
  await expect(page.getByRole('progressbar')).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('the bookmark for a browser and the drop folder are explained, also where only the program can have them', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Cool the rack')
  await page.getByRole('button', { name: 'Add a source' }).first().click()
  await page.getByRole('button', { name: 'From a browser' }).click()
  const browser = page.getByRole('group', { name: 'From a browser' })
  const link = browser.getByRole('link', { name: 'Hand over to Stillroom' })
  expect(await link.getAttribute('href')).toMatch(/^javascript:/)
  await link.click()
  await expect(page.locator('.st-notices')).toContainText('drag it to the bookmarks')
  if (program.kind === 'chromium') await expect(browser).toContainText('installed Stillroom program only')
  await page.getByRole('button', { name: 'Drop folder' }).click()
  const folder = page.getByRole('group', { name: 'Drop folder' })
  await expect(folder).toContainText(
    program.kind === 'chromium' ? 'needs the Stillroom program' : 'This lab has none.',
  )
  expect(program.complaints).toEqual([])
})
