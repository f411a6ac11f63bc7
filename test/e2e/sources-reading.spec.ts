/** Reading: the text as it reads, at full width, by its outline; captures and what changed; originals; links in clear. */
import { existsSync, mkdtempSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { AxeResults } from 'axe-core'
import type { Page } from '@playwright/test'
import type { Launched } from './support/launch.ts'
import { netLogSwitches, readNetLog } from './support/netlog.ts'
import { chooseInMenu, composer, dismissNotices, entryWith, reader, sourceRow } from './support/panes.ts'
import { elsewhere, hostilePage, writeReadingLab } from './support/readingLab.ts'
import { catchSavedFile, chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

async function violationsIn(page: Page): Promise<string[]> {
  if (!(await page.evaluate('"axe" in globalThis'))) await page.evaluate(axe)
  // What is in the frame is a page of somebody else, and no script runs there, not even this one.
  const found: AxeResults = await page.evaluate(
    `axe.run(document, { iframes: false, runOnly: { type: 'tag', values: ${JSON.stringify(rules)} }, resultTypes: ['violations'] })`,
  )
  expect(found.passes.length, 'rules were checked').toBeGreaterThan(5)
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map(
      (node) => `${id}: ${node.html.slice(0, 200)} ${(node.failureSummary ?? '').replace(/\s+/g, ' ')}`,
    ),
  )
}

/** Brings the lab file in and opens one of its sources. */
async function openLab(program: Launched, title: string): Promise<void> {
  const { page } = program
  const lab = page.locator('.st-topbar-where').getByRole('button').first()
  const path = await writeReadingLab()
  await chooseFiles(program, [path], () => chooseInMenu(page, lab, 'Bring in a lab file'))
  await expect(lab).toContainText('Dome')
  await dismissNotices(page)
  await sourceRow(page, title).click()
}

const press = (page: Page, key: string) => page.keyboard.press(key)
const folded = (page: Page) => page.locator('.st-pane--folded').count()
const heading = (page: Page, name: string) => reader(page).getByRole('heading', { name, exact: true })
const linkBox = (page: Page) => page.getByRole('dialog', { name: 'Where this link leads' })
const outline = (page: Page) => page.getByRole('navigation', { name: 'Outline of headings' })

test('a text reads without its signs, at full width, and by its outline, all with keys', async ({
  program,
}) => {
  const { page } = program
  await openLab(program, 'Cooling the rack')
  await expect(heading(page, 'Cooling the rack')).toBeVisible()
  await expect(reader(page)).toContainText('draws air from the left. Written')
  await expect(reader(page)).not.toContainText('**')
  await expect(page.locator('.st-reading-head')).toContainText('found in the drop folder')
  expect(await violationsIn(page)).toEqual([])

  // Full width, and back to just the layout that was there before.
  await press(page, 'Alt+w')
  await expect.poll(() => folded(page)).toBe(2)
  const line = await reader(page).locator('.cm-line', { hasText: 'The rack stands' }).boundingBox()
  const letter = await reader(page).evaluate(
    (element) => parseFloat(getComputedStyle(element).fontSize) * 0.5,
  )
  expect(line!.width / letter, 'letters in a line').toBeGreaterThan(55)
  expect(line!.width / letter, 'letters in a line').toBeLessThan(90)
  await press(page, 'Alt+j')
  await expect(composer(page)).toBeFocused()
  await page.keyboard.type('typed beside the text')
  await press(page, 'Alt+w')
  await expect.poll(() => folded(page)).toBe(0)
  await expect(composer(page)).toHaveText('typed beside the text')
  await page.getByRole('button', { name: 'Read at full width' }).click()
  await expect.poll(() => folded(page)).toBe(2)

  // The outline: opened by a key, walked with arrows and letters, Enter goes there.
  await reader(page).focus()
  await press(page, 'Alt+o')
  await expect(outline(page).getByRole('button')).toHaveText([
    'Cooling the rack',
    'Thresholds',
    'What each fan does',
    'Care',
    'Noise',
    'The picture',
  ])
  await expect(outline(page).getByRole('button', { name: 'Cooling the rack' })).toBeFocused()
  await press(page, 'ArrowDown')
  await press(page, 'c')
  await expect(outline(page).getByRole('button', { name: /^Care/ })).toBeFocused()
  await press(page, 'Enter')
  await expect(heading(page, 'Care')).toBeInViewport()
  await expect(reader(page)).toBeFocused()
  await expect(outline(page).locator('[aria-current]')).toHaveText('Care')
  expect(await violationsIn(page)).toEqual([])

  // Tables scroll inside themselves; the page as a whole does not. Pictures are shown with their words.
  await outline(page)
    .getByRole('button', { name: /^What each/ })
    .click()
  await expect(reader(page).getByRole('columnheader')).toHaveText(['Fan', 'Now', 'Least', 'Where', 'Remark'])
  await press(page, 'Alt+w')
  await expect.poll(() => folded(page)).toBe(0)
  const table = reader(page).locator('.st-r-table')
  expect(await table.evaluate((element) => element.scrollWidth > element.clientWidth)).toBe(true)
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  // The cursor takes the table along to its last column.
  await outline(page)
    .getByRole('button', { name: /^What each/ })
    .press('Enter')
  await expect(reader(page)).toBeFocused()
  for (const key of ['ArrowDown', 'ArrowDown', 'ArrowDown', 'End']) await press(page, key)
  await expect.poll(() => table.evaluate((element) => element.scrollLeft)).toBeGreaterThan(150)
  await press(page, 'Home')
  await expect.poll(() => table.evaluate((element) => element.scrollLeft)).toBe(0)
  await outline(page)
    .getByRole('button', { name: /^The picture/ })
    .click()
  await expect(reader(page).getByRole('img', { name: 'three sensors in a row' })).toBeVisible()
  expect(
    await reader(page)
      .getByRole('img', { name: 'three sensors in a row' })
      .evaluate((image: HTMLImageElement) => image.naturalWidth),
  ).toBe(180)
  await press(page, 'Alt+o')
  await expect(outline(page)).toHaveCount(0)

  // Finding passes by what is not seen: signs, addresses, the letters of a picture.
  await press(page, 'Control+f')
  await page.getByLabel('Find in this text').fill('iVBOR')
  await expect(page.locator('.st-find-count')).toHaveText('Not found')
  await page.getByLabel('Find in this text').fill('intake, left')
  await expect(page.locator('.st-find-count')).toHaveText('14 found')
  await press(page, 'Enter')
  await press(page, 'Escape')
  expect(program.complaints).toEqual([])
})

test('a link says where it leads before anything is opened, by a press and by a key', async ({ program }) => {
  const { page } = program
  const asked = new Set<string>()
  page.on('request', (request) => asked.add(request.url()))
  await openLab(program, 'Cooling the rack')
  await expect(heading(page, 'Cooling the rack')).toBeVisible()

  // Its words name another host.
  await reader(page).getByText('https://mast.example.org/').click()
  await expect(linkBox(page)).toContainText('https://evil.example.com/login')
  await expect(linkBox(page).locator('strong')).toHaveText('evil.example.com')
  await expect(linkBox(page)).toContainText(
    'The words of the link name mast.example.org, but it leads to evil.example.com.',
  )
  expect(await violationsIn(page)).toEqual([])
  await press(page, 'Escape')
  await expect(linkBox(page)).toHaveCount(0)
  await expect(reader(page)).toBeFocused()

  // By Enter, with the cursor in it. What the lab has already is read here.
  await press(page, 'Control+Home')
  for (let at = 0; at < 40 && (await linkBox(page).count()) === 0; at++) {
    await press(page, 'Control+ArrowRight')
    await press(page, 'Enter')
  }
  await expect(linkBox(page)).toContainText('https://weather.example.org/now?station=4')
  await expect(linkBox(page)).toContainText('In this lab as “Weather now”.')
  await linkBox(page).getByRole('button', { name: 'Read it here' }).click()
  await expect(page.locator('.st-reading-title')).toHaveText('Weather now')
  await page.getByRole('button', { name: 'All sources' }).click()
  await sourceRow(page, 'Cooling the rack').click()

  // An address for mail is shown and copied, never opened in a browser.
  await reader(page).getByText('mail', { exact: true }).click()
  await expect(linkBox(page)).toContainText('mailto:dome@example.org')
  await expect(linkBox(page).getByRole('button')).toHaveText(['Copy'])
  await press(page, 'Escape')

  // A new source out of a link.
  await reader(page).getByText('https://mast.example.org/').click()
  await linkBox(page).getByRole('button', { name: 'Add as a source' }).click()
  await page.getByRole('button', { name: 'All sources' }).click()
  await expect(sourceRow(page, 'evil.example.com/login')).toHaveCount(1)

  // Nothing was opened or asked for.
  expect(page.context().pages().length + (program.shell?.windows().length ?? 0)).toBeLessThanOrEqual(2)
  expect(
    [...asked].filter((url) => !url.startsWith(program.address) && !/^(?:data|blob):/.test(url)),
  ).toEqual([])

  // What the person opens goes to the system's browser, once, with the whole address.
  await sourceRow(page, 'Cooling the rack').click()
  await page.getByRole('button', { name: /^Address: https:\/\/rack/ }).click()
  await expect(linkBox(page)).toContainText('https://rack.example.org/cooling?utm_source=list')
  if (program.shell) {
    await program.shell.evaluate(({ shell }) => {
      const opened: string[] = []
      ;(globalThis as { opened?: string[] }).opened = opened
      shell.openExternal = (url: string) => {
        opened.push(url)
        return Promise.resolve()
      }
    })
    await linkBox(page).getByRole('button', { name: 'Open in the browser' }).click()
    await expect
      .poll(() => program.shell!.evaluate(() => (globalThis as { opened?: string[] }).opened))
      .toEqual(['https://rack.example.org/cooling?utm_source=list'])
  }
  expect(program.complaints).toEqual([])
})

test('an older capture can be read and carried from, and what changed is shown in words', async ({
  program,
}) => {
  const { page } = program
  await openLab(program, 'Cooling the rack')
  await expect(reader(page)).toContainText('full speed at 34 °C')
  await page.getByRole('button', { name: 'Captures (2)' }).click()
  await page.getByRole('menuitemradio').nth(1).click()
  await expect(reader(page)).toContainText('full speed at 31 °C')
  await expect(page.locator('.st-reading-head')).toContainText('This is not the newest capture')

  // Words that are carried from it go on pointing to it.
  await selectWords(page, reader(page), 'Fans go to full speed at 31 °C.')
  await press(page, 'Alt+c')
  await page
    .getByRole('option', { name: /journal/i })
    .first()
    .click()
  await expect(entryWith(page, 'full speed at 31')).toBeVisible()
  await dismissNotices(page)
  await page.getByRole('button', { name: 'Read the newest' }).click()
  await expect(reader(page)).toContainText('full speed at 34 °C')
  await page.getByRole('button', { name: 'About this source' }).click()
  await expect(page.locator('.st-facts')).toContainText('Ada Wright')
  await expect(page.locator('.st-facts')).toContainText('11 Feb 2026')
  await expect(page.getByRole('button', { name: 'What came of it (1)' })).toBeVisible()
  await entryWith(page, 'full speed at 31')
    .locator('.st-entry-foot')
    .getByRole('button', { name: /quotes/ })
    .first()
    .click()
  await expect(reader(page)).toContainText('full speed at 31 °C')
  await expect(reader(page).locator('.st-mark').first()).toBeVisible()

  // What changed, with signs and words; keys go from change to change.
  await page.getByRole('button', { name: 'Changes', exact: true }).click()
  const difference = page.locator('.st-difference')
  await expect(difference.getByRole('status')).toHaveText('3 places changed')
  await difference.getByRole('region', { name: 'What changed' }).focus()
  await press(page, 'Alt+ArrowDown')
  await expect(difference.getByRole('status')).toHaveText('Change 1 of 3')
  await expect(difference.getByRole('group', { name: 'Change 1', exact: true })).toBeFocused()
  await expect(difference.getByRole('group', { name: 'Change 1', exact: true })).toContainText('−')
  await expect(difference.locator('del').first()).toContainText('taken away: 31')
  await expect(difference.locator('ins').first()).toContainText('come in: 34')
  await press(page, 'Alt+ArrowUp')
  await expect(difference.getByRole('group', { name: 'Change 3', exact: true })).toContainText('61 dB loud')
  await difference
    .getByRole('button', { name: /lines unchanged/ })
    .first()
    .click()
  await expect(difference).toContainText('fan_min=600')
  expect(await violationsIn(page)).toEqual([])
  // The other way round, chosen by hand.
  await difference.getByRole('button', { name: /^To / }).click()
  await page.getByRole('menuitemradio').nth(1).click()
  await expect(difference.getByRole('status')).toHaveText(/Nothing changed|No word/)

  // A remark, the pin and setting aside are kept.
  await page.getByRole('button', { name: 'Add a remark' }).click()
  await page.getByLabel('Remark').fill('Ask for the new fans.')
  await press(page, 'Control+Enter')
  await expect(page.locator('.st-remark-words')).toHaveText('Ask for the new fans.')
  await chooseInMenu(page, page.getByRole('button', { name: 'More for this source' }), 'Pin it')
  await expect(page.locator('.st-reading-title')).toContainText('pinned')
  expect(program.complaints).toEqual([])
})

test('a paged document tells the page, goes to one, and what is carried knows it', async ({ program }) => {
  const { page } = program
  await openLab(program, 'Manual of the weather logger')
  const field = page.getByRole('form', { name: 'Page' }).getByRole('textbox')
  await expect(field).toHaveValue('i')
  await field.fill('12')
  await press(page, 'Enter')
  await expect(reader(page).getByText('Page 12', { exact: true })).toBeInViewport()
  await expect(field).toHaveValue('12')
  await field.fill('900')
  await press(page, 'Enter')
  await expect(page.locator('.st-page-error')).toHaveText('There is no page 900.')
  await selectWords(page, reader(page), 'about sensor 14')
  await press(page, 'Alt+c')
  await page
    .getByRole('option', { name: /journal/i })
    .first()
    .click()
  await expect(entryWith(page, 'about sensor 14')).toBeVisible()
  await page.getByRole('button', { name: 'About this source' }).click()
  await page.getByRole('button', { name: 'What came of it (1)' }).click()
  await expect(page.locator('.st-came-of')).toContainText('from page 12')
  const more = entryWith(page, 'about sensor 14').getByRole('button', { name: 'More for this entry' })
  await chooseInMenu(page, more, 'Trace')
  await expect(page.locator('.st-hops')).toContainText('Page 12')
  await press(page, 'Escape')

  // The original of a PDF is a sentence and a way to the system's program.
  await page.getByRole('button', { name: 'Original', exact: true }).click()
  await expect(page.locator('.st-original')).toContainText('The pages of a PDF are not drawn here.')
  await expect(page.getByRole('button', { name: 'Open in the system’s program' })).toBeVisible()
  expect(await violationsIn(page)).toEqual([])
  expect(program.complaints).toEqual([])
})

test('originals are shown as they were kept, and nothing in them acts or reaches out', async ({ start }) => {
  const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
  const program = await start({ switches: netLogSwitches(log) })
  const { page } = program
  const asked = new Set<string>()
  page.on('request', (request) => asked.add(request.url()))
  const foreign = () =>
    [...asked].filter((url) => !url.startsWith(program.address) && !/^(?:data|blob):/.test(url))
  await openLab(program, 'Cooling the rack')
  await page.getByRole('button', { name: 'Original', exact: true }).click()
  await expect(page.locator('.st-original-frame')).toBeVisible()
  await page.waitForTimeout(1000)
  // What was left of the page would have been refused anyway; but nothing of it even tried.
  expect(program.complaints).toEqual([])
  const frame = page.frameLocator('.st-original-frame')
  await expect(frame.getByRole('heading', { name: 'Fan controller' })).toBeVisible()
  await expect(page.locator('.st-original-frame')).toHaveAttribute('sandbox', '')
  // It looks as it did: its own sheet and its style attributes hold.
  const colour = (selector: string) =>
    frame.locator(selector).evaluate((element) => getComputedStyle(element).color)
  expect(await colour('h1')).toBe('rgb(0, 100, 0)')
  expect(await colour('.lead')).toBe('rgb(10, 120, 30)')
  await expect(frame.locator('td')).toHaveText(['1', '600'])
  for (const words of ['a link that runs', 'a link that leads away']) await frame.getByText(words).click()
  await page.waitForTimeout(1500)
  expect(await page.evaluate(() => '__acted' in window)).toBe(false)
  expect(foreign()).toEqual([])
  // The keyboard is not lost in it: the program's keys are heard after a press into the page.
  await press(page, 'Alt+j')
  await expect(composer(page)).toBeFocused()
  expect(await violationsIn(page)).toEqual([])
  const saved = await catchSavedFile(program, () =>
    page.getByRole('button', { name: 'Save the original…' }).click(),
  )
  expect(readFileSync(saved, 'utf8')).toBe(hostilePage)
  await page.getByRole('button', { name: 'All sources' }).click()

  // A picture: as large as its place, or as it is; its words are the remark.
  await sourceRow(page, 'Rack from the left').click()
  const picture = page.getByRole('img', { name: 'The rack from the left, its door open.' })
  await expect(picture).toBeVisible()
  await expect.poll(() => picture.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(1600)
  expect((await picture.boundingBox())!.width).toBeLessThan(400)
  await page.getByRole('button', { name: 'Actual size' }).click()
  expect((await picture.boundingBox())!.width).toBe(1600)
  expect(await violationsIn(page)).toEqual([])
  await page.getByRole('button', { name: 'All sources' }).click()

  // A text is shown as it was, its markup as letters.
  await sourceRow(page, 'Log of the fans').click()
  await page.getByRole('button', { name: 'Original', exact: true }).click()
  await expect(page.locator('.st-original .cm-content')).toContainText('<b>640</b>')
  expect(foreign()).toEqual([])

  // And were a page to come into the frame as it is, frame and policy alone would hold it.
  await page.evaluate((html) => {
    const bare = document.createElement('iframe')
    bare.sandbox.value = ''
    bare.srcdoc = html
    bare.id = 'bare'
    document.body.append(bare)
  }, hostilePage)
  await expect(page.frameLocator('#bare').getByText('Words of the page.')).toBeVisible()
  await page.waitForTimeout(1500)
  expect(await page.evaluate(() => '__acted' in window)).toBe(false)
  expect(await page.title()).not.toBe('acted')
  expect(page.url()).toBe(program.address)
  await program.close()
  expect(existsSync(log)).toBe(true)
  const use = readNetLog(log)
  expect(use.events).toBeGreaterThan(5)
  expect(use.addresses.filter((address) => address.includes(new URL(elsewhere).host))).toEqual([])
  expect(use.peers.filter((peer) => peer.includes(new URL(elsewhere).host))).toEqual([])
})
