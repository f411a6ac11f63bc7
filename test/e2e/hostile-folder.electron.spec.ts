/**
 * What would run something, and what is broken, comes in as a folder into the real shell: nothing runs, nothing falls over,
 * each refusal is a sentence. Whatever would run leaves its name in `wasRun` on the program's window.
 */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Page } from '@playwright/test'
import { strToU8, zipSync } from 'fflate'
import { maybeChromium } from '../../build/programs.mjs'
import { attackPages, attacks, deepBookmarks } from '../support/attacks.ts'
import { lines, pdf } from '../unit/shared/intake/pdf/make.ts'
import { chooseFolder, countRecords, runReport, waitUntilThrough } from './support/folderIn.ts'
import { beginProject, composer, reader } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const wasRun = (page: Page): Promise<unknown> =>
  page.evaluate(() => (window as { wasRun?: unknown }).wasRun ?? null)

const good = pdf([lines(['The mast leans by two degrees.', 'Tighten the guy wires.'])])
const cut = good.slice(0, Math.floor(good.length * 0.6))
const scrambled = Uint8Array.from(good, (byte, at) => (at > 40 && at % 3 === 0 ? byte ^ 0x5a : byte))

const archive = (body: string, boundary = 'mast'): string =>
  [
    'From: <Saved by a browser>',
    'Snapshot-Content-Location: https://mast.example.org/report',
    'Subject: Mast report',
    'MIME-Version: 1.0',
    `Content-Type: multipart/related; type="text/html"; boundary="${boundary}"`,
    '',
    body,
  ].join('\r\n')
const htmlPart = (html: string): string =>
  [
    '--mast',
    'Content-Type: text/html',
    'Content-Location: https://mast.example.org/report',
    '',
    html,
    '',
  ].join('\r\n')

/** Files that cannot be read, each with the words that its sentence must hold. */
const broken: readonly (readonly [string, Uint8Array, RegExp])[] = [
  ['locked.pdf', pdf([lines(['Secret of the mast'])], { password: 'dome' }), /password/i],
  ['renamed.pdf', zipSync({ 'a.txt': strToU8('words') }), /zip|archive/i],
  ['noise.pdf', strToU8(`%PDF-1.7\n${'x'.repeat(5000)}`), /PDF|read/],
  ['nothing.pdf', new Uint8Array(), /nothing|no words|empty/i],
  ['no-boundary.mhtml', strToU8(archive(htmlPart('<p>x</p>'), 'elsewhere')), /bound|damaged|saved/i],
  ['no-page.mhtml', strToU8(archive('--mast\r\nContent-Type: image/png\r\n\r\nx\r\n--mast--')), /page/i],
]
/** Files that are damaged, of which as much as can be is read, or a sentence told. */
const damaged: readonly (readonly [string, Uint8Array])[] = [
  ['cut.pdf', cut],
  ['scrambled.pdf', scrambled],
  ['cut.mhtml', strToU8(archive(htmlPart(`<h1>Mast</h1>${attacks['picture that fails']}<p>It leans.</p>`)))],
]

test('the attacks are real: many of them run where nothing keeps them from it', async () => {
  const program = maybeChromium()
  test.skip(program === null, 'no Chromium is here')
  const browser = await chromium.launch({ executablePath: program!, args: ['--no-sandbox'] })
  const runs = async (html: string): Promise<boolean> => {
    const page = await browser.newPage()
    await page.setContent(html, { waitUntil: 'domcontentloaded' }).catch(() => undefined)
    await page.waitForTimeout(100)
    const ran = await wasRun(page).catch(() => null)
    await page.close()
    return ran !== null
  }
  let ran = 0
  const all = attackPages()
  for (let at = 0; at < all.length; at += 10)
    ran += (await Promise.all(all.slice(at, at + 10).map(({ html }) => runs(html)))).filter(Boolean).length
  await browser.close()
  expect(ran).toBeGreaterThan(20)
})

test('no page of a folder of attacks runs anything, neither as text nor as its original, and what is broken says so', async ({
  program,
}) => {
  test.setTimeout(600_000)
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-hostile-'))
  mkdirSync(join(folder, 'pages'))
  const pages = attackPages()
  for (const { name, html } of pages) writeFileSync(join(folder, 'pages', name), html)
  const all = pages.map(({ html }) => html).join('\n')
  writeFileSync(join(folder, 'all.html'), all)
  writeFileSync(join(folder, 'all.mhtml'), archive(`${htmlPart(all)}--mast--`))
  for (const [name, bytes] of [...broken, ...damaged]) writeFileSync(join(folder, name), bytes)

  const { page } = program
  const opened: string[] = []
  program.shell!.on('window', (window) => opened.push(window.url()))
  page.on('dialog', (dialog) => {
    opened.push(dialog.message())
    void dialog.dismiss()
  })
  await beginProject(page, 'Straighten the mast')
  await chooseFolder(program, folder)
  await waitUntilThrough(page, 300_000)
  const failed = runReport(page).getByRole('list', { name: 'Could not be read' }).locator('li')
  for (const [name, , words] of broken)
    await expect(failed.filter({ hasText: `“${name}”` }), name).toHaveText(words)
  for (const sentence of await failed.allInnerTexts()) expect(sentence).toMatch(/^“.+” .+\.$/s)
  expect(await wasRun(page)).toBe(null)
  const { captures } = await countRecords(page, ['captures'])
  expect(captures).toBeGreaterThanOrEqual(pages.length + 2)
  await runReport(page).getByRole('button', { name: 'Dismiss' }).click()

  // Each is read, and then looked at as it was; nothing that it holds may act.
  const search = page.getByRole('searchbox').or(page.getByLabel('Filter sources by words')).first()
  for (const name of [...Object.keys(attacks), 'all']) {
    const row = page.locator('.st-source-open').filter({ hasText: name === 'all' ? 'script' : name })
    await search.fill(name === 'all' ? '' : name)
    await row.first().click()
    await expect(reader(page)).toContainText('The mast leans.')
    await page.getByRole('button', { name: 'Original', exact: true }).click()
    await expect(page.locator('iframe')).toBeVisible()
    await page.getByRole('button', { name: 'All sources' }).click()
  }
  await page.waitForTimeout(1000)
  expect(await wasRun(page)).toBe(null)
  expect(opened).toEqual([])
  expect(page.url()).toBe(program.address)
  await expect(composer(page)).toBeVisible()
})

test('ten thousand bookmarks in folders fifty deep come in without a stop, and are taken back as one', async ({
  program,
}) => {
  test.setTimeout(600_000)
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-bookmarks-'))
  writeFileSync(join(folder, 'bookmarks.html'), deepBookmarks(10_000, 50))
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  await chooseFolder(program, folder)
  await expect(page.getByText('10,000 links in 50 folders')).toBeVisible({ timeout: 60_000 })
  await page.getByRole('button', { name: 'Add them all' }).click()
  // The journal stays open meanwhile.
  await composer(page).click()
  await page.keyboard.type('It is a windy day')
  await expect(composer(page)).toHaveText('It is a windy day')
  await expect
    .poll(async () => await countRecords(page, ['sources', 'folders']), { timeout: 300_000 })
    .toEqual({ sources: 10_000, folders: 50 })
  await runReport(page).getByRole('button', { name: 'Undo' }).click()
  await expect
    .poll(async () => await countRecords(page, ['sources', 'folders']), { timeout: 300_000 })
    .toEqual({ sources: 0, folders: 0 })
  expect(program.complaints).toEqual([])
})
