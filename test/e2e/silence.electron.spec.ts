/** A whole session with everything that names other machines, and the network log that shows that none was asked. */
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { dropOn, paste } from './support/arriving.ts'
import { foreignUse, netLogSwitches, readNetLog } from './support/netlog.ts'
import {
  chooseInMenu,
  composer,
  dismissNotices,
  openSample,
  pane,
  reader,
  sourceRow,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { elsewhere } from './support/reach.ts'
import { thread } from './support/sampleThread.ts'
import { catchSavedFile, chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'
import { dragWords } from './support/words.ts'

const named = 'https://mast.example.org'
const page1 = `<html><head><title>Far page</title><link rel="stylesheet" href="${elsewhere}/s.css"><link rel="icon" href="${elsewhere}/favicon.ico">
<link rel="preconnect" href="${named}"><link rel="dns-prefetch" href="//dns.example.org"><style>@import url(${elsewhere}/i.css); @font-face { font-family: f; src: url(${elsewhere}/f.woff2) } p { font-family: f; background: url(${elsewhere}/b.png) }</style></head>
<body background="${elsewhere}/body.png"><h1>Far page</h1><p style="background-image: url(${elsewhere}/p.png)">Words that name <a href="${named}/a" ping="${elsewhere}/ping">other machines</a>.</p>
<img src="${elsewhere}/i.png" srcset="${elsewhere}/2x.png 2x"><picture><source srcset="${elsewhere}/w.webp"><img src="${named}/alt.jpg"></picture>
<iframe src="${elsewhere}/frame"></iframe><object data="${elsewhere}/o.svg"></object><embed src="${elsewhere}/e"><video poster="${elsewhere}/poster.png" src="${elsewhere}/v.mp4"></video><audio src="${elsewhere}/a.ogg"></audio>
<svg><image href="${elsewhere}/svg.png"/><use href="${elsewhere}/u.svg#x"/></svg><script src="${elsewhere}/x.js"></script><input type="image" src="${elsewhere}/in.png"></body></html>`
const markdown = `Words with ![a far picture](${elsewhere}/md.png), [a link](${named}/link), <${named}/auto>, ${named}/bare

<img src="${elsewhere}/raw.png"> [ref]

[ref]: ${named}/ref`

/** Presses every link and address that is shown in a place. */
async function pressLinks(page: Page, place: string): Promise<number> {
  const links = page.locator(place).locator('a, .st-link, [href], [data-address]')
  const count = await links.count()
  for (let at = 0; at < count; at++) {
    await links
      .nth(at)
      .click({ force: true, noWaitAfter: true })
      .catch(() => undefined)
    await links
      .nth(at)
      .click({ force: true, button: 'middle', noWaitAfter: true })
      .catch(() => undefined)
  }
  return count
}

test('a whole day of work asks nothing of the network: sample, foreign pages, links, carries, export, lab file', async ({
  start,
}) => {
  test.setTimeout(150_000)
  const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
  const program = await start({ switches: netLogSwitches(log) })
  const { page } = program
  // What the shell refuses before it reaches the network stands in no network log; the page must not even ask.
  const asked = new Set<string>()
  page.on('request', (request) => asked.add(request.url()))
  await openSample(page)
  await expect(steps(page).first()).toBeVisible()

  // Foreign pages by paste, by drop and as a file; their texts read, their addresses shown.
  await page.locator('.st-sources').focus()
  await paste(page, { 'text/html': page1, 'text/plain': 'Far page' })
  await expect(sourceRow(page, 'Far page')).toHaveCount(1)
  await dropOn(page.locator('.st-sources'), {
    forms: { 'text/html': page1.replaceAll('Far page', 'Dropped page') },
  })
  await dropOn(page.locator('.st-sources'), {
    files: [
      {
        name: 'far.html',
        bytes: new TextEncoder().encode(page1.replaceAll('Far page', 'Filed page')),
        type: 'text/html',
      },
    ],
  })
  await dropOn(page.locator('.st-sources'), { forms: { 'text/uri-list': `${named}/dropped-link` } })
  for (const title of ['Far page', 'Dropped page', 'Filed page']) {
    await sourceRow(page, title).click()
    await expect(reader(page)).toContainText('Words that name')
    for (const link of await page.locator('.st-reading .cm-content').getByText('mast.example.org').all())
      await link.click({ force: true, modifiers: ['Control'] }).catch(() => undefined)
    await page.getByRole('button', { name: 'All sources' }).click()
  }
  await sourceRow(page, 'mast.example.org/dropped-link').click()
  await page.getByRole('button', { name: `Address: ${named}/dropped-link` }).click()
  await page.locator('.st-address-whole').getByRole('button', { name: 'Copy' }).click()
  await page.getByRole('button', { name: 'All sources' }).click()
  await dismissNotices(page)

  // An entry and a step with links, all of them pressed.
  const entry = await writeEntry(page, markdown, 3)
  await expect(entry).toContainText('a link')
  await pressLinks(page, '.st-prose')
  await composer(page).click()
  await paste(page, { 'text/html': page1, 'text/plain': `${named}/in-the-composer teh mast` })
  await page.keyboard.press('Control+Enter')
  await entry.getByRole('button', { name: 'Carry this entry' }).click()
  await page
    .getByRole('option', { name: /New step after/ })
    .first()
    .click()
  await expect(steps(page).filter({ hasText: 'a far picture' }).first()).toBeVisible()
  await pressLinks(page, '.st-part-read')
  await page.keyboard.press('Escape')
  await sourceRow(page, thread.source).first().click()
  await dragWords(page, reader(page), thread.sourceWords, () =>
    page.getByText('Entry in the journal: observation'),
  )
  await page.getByRole('button', { name: 'All sources' }).click()
  await undoButton(page).click()

  // Out: the procedure and the whole lab; in again; a second window; a restart would be another session.
  await pane(page, 'Procedure').getByRole('button', { name: 'Export…' }).click()
  await page.getByRole('checkbox', { name: /appendix/i }).check()
  await catchSavedFile(program, () => page.getByRole('button', { name: 'Write file' }).click())
  const lab = page.locator('.st-topbar-where').getByRole('button').first()
  const path = await catchSavedFile(program, () => chooseInMenu(page, lab, 'Save the whole lab to a file'))
  await chooseFiles(program, [path], () => chooseInMenu(page, lab, 'Bring in a lab file'))
  await expect(page.locator('.st-notices')).toContainText('Every checksum is right.')
  expect(page.url()).toBe('app://stillroom/')
  expect(program.shell!.windows()).toHaveLength(1)

  // The control: a request that is made outside our rules does stand in the log. Whether it ends is not waited for.
  await program.shell!.evaluate(({ session }, address) => {
    void session
      .fromPartition('control')
      .fetch(`${address}/control`)
      .catch(() => undefined)
  }, elsewhere)
  await page.waitForTimeout(1500)
  expect(program.complaints).toEqual([])
  expect(
    [...asked].filter((address) => address.startsWith('app://stillroom/assets/')).length,
  ).toBeGreaterThan(0)
  expect([...asked].filter((address) => !/^(app:\/\/stillroom\/|data:|blob:app:)/.test(address))).toEqual([])
  await program.close()
  const use = readNetLog(log)
  expect(use.addresses).toContain(`${elsewhere}/control`)
  expect(foreignUse(use).filter((found) => !found.includes('/control'))).toEqual([])
})
