/** Tags: given by hand, suggested, taken and refused, on sources, entries and projects, and never lost. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults } from 'axe-core'
import type { Locator, Page } from '@playwright/test'
import type { Launched } from './support/launch.ts'
import {
  beginProject,
  chooseInMenu,
  dismissNotices,
  entries,
  entryWith,
  openSample,
  pane,
  projectButton,
  redoButton,
  sourceRow,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const field = (within: Page | Locator): Locator => within.locator('[data-tag-input]')
const tags = (within: Page | Locator): Locator =>
  within.locator('.st-tags').getByRole('list', { name: 'Tags', exact: true }).getByRole('listitem')
const suggestions = (within: Page | Locator): Locator => within.locator('.st-tag--suggested')
const suggestion = (within: Page | Locator, tag: string): Locator =>
  within.getByRole('button', { name: new RegExp(`^${tag}: take this suggested tag`) })

/** What was tagged, and with what, before a fourth is looked at. */
const tagged = [
  ['Names of file systems: UUID, PARTUUID and label', 'boot', 'file systems'],
  ['How the logger writes its readings', 'logger', 'database'],
  ['House rules of the rack', 'rack', 'safety'],
] as const
const fourth = 'Saving what is left of an SQLite database'

/** Tab back from the text, as often as it takes. */
async function backTo(page: Page, wanted: Locator): Promise<void> {
  for (let presses = 0; presses < 12; presses++) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Shift+Tab')
  }
  await expect(wanted).toBeFocused()
}

test('with the keyboard alone: three sources are tagged, a fourth gets a sensible suggestion that one key takes', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  await openSample(page)
  for (const [title, ...own] of tagged) {
    await sourceRow(page, title).focus()
    await press('Enter')
    await expect(page.locator('.st-reading .cm-content')).toBeFocused()
    await backTo(page, field(page))
    // One ends with a comma, the other with Enter.
    await page.keyboard.type(`${own[0]},${own[1]}`)
    await press('Enter')
    await expect(tags(page)).toHaveText(own)
    await press('Escape')
    await expect(sourceRow(page, title)).toBeVisible()
  }

  await sourceRow(page, fourth).focus()
  await press('Enter')
  await expect(page.locator('.st-reading .cm-content')).toBeFocused()
  await backTo(page, field(page))
  await expect(page.getByText('Suggested', { exact: true })).toBeVisible()
  // It says what it is about, and the logger has such a database.
  await expect(suggestion(page, 'database')).toHaveAccessibleName(/stands in the text/)
  await expect(suggestion(page, 'logger')).toHaveAccessibleName(/near “How the logger writes its readings”/)
  await expect(page.locator('.st-suggested-why').last()).toHaveText('from the text')
  expect(await suggestions(page).count()).toBeLessThanOrEqual(7)

  // Take one, refuse one, each with one key.
  const [first, second] = await suggestions(page).allInnerTexts()
  await press('Alt+a')
  await expect(tags(page)).toHaveText([first!])
  await expect(suggestions(page).first()).toHaveText(second!)
  await press('Alt+x')
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${second}$`) })).toHaveCount(0)
  await expect(tags(page)).toHaveText([first!])
  await expect(field(page)).toBeFocused()

  // Both can be taken back, and done again, from the empty line.
  await press('Control+z')
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${second}$`) })).toHaveCount(1)
  await press('Control+z')
  await expect(tags(page)).toHaveCount(0)
  await press('Control+Shift+z')
  await expect(tags(page)).toHaveText([first!])
  await press('Control+Shift+z')
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${second}$`) })).toHaveCount(0)

  // Arrows lead to the others; Enter takes, Delete refuses, and the keyboard stays among them.
  await press('Tab')
  await press('ArrowRight')
  const third = await page.locator(':focus').innerText()
  await press('Enter')
  await expect(tags(page)).toHaveText([first!, third])
  await expect(page.locator('.st-suggested-take:focus')).toHaveCount(1)
  const fourthWords = await page.locator(':focus').innerText()
  await press('Delete')
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${fourthWords}$`) })).toHaveCount(0)
  await expect(page.locator('.st-tags :focus')).toHaveCount(1)

  // Own tags are offered with how many have them.
  await backTo(page, field(page))
  await page.keyboard.type('saf')
  await expect(page.getByRole('option', { name: 'safety' })).toContainText('1')
  await press('ArrowDown')
  await press('Enter')
  await expect(tags(page)).toHaveText([first!, third, 'safety'])
  await press('Backspace')
  await expect(tags(page)).toHaveText([first!, third])

  await program.restart()
  await sourceRow(program.page, fourth).focus()
  await program.page.keyboard.press('Enter')
  await expect(tags(program.page)).toHaveText([first!, third])
  await expect(suggestions(program.page).first()).toBeVisible()
  for (const gone of [second!, fourthWords])
    await expect(suggestions(program.page).filter({ hasText: new RegExp(`^${gone}$`) })).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('with presses alone: tags are offered, suggested, taken, refused and taken off', async ({ program }) => {
  const { page } = program
  await openSample(page)
  for (const [title, ...own] of tagged) {
    await sourceRow(page, title).click()
    await field(page).click()
    // What is typed stands as a tag once something else is pressed in the list that offers it, or with a comma.
    await page.keyboard.type(`${own.join(',')},`)
    await expect(tags(page)).toHaveText([...own])
    await page.getByRole('button', { name: 'All sources' }).click()
  }
  await sourceRow(page, fourth).click()
  await suggestion(page, 'database').click()
  await expect(tags(page)).toHaveText(['database'])
  const refused = (await suggestions(page).first().innerText()).trim()
  await page.getByRole('button', { name: `Refuse the suggested tag ${refused}`, exact: true }).click()
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${refused}$`) })).toHaveCount(0)
  await field(page).click()
  await page.keyboard.type('saf')
  await page.getByRole('option', { name: 'safety' }).click()
  await expect(tags(page)).toHaveText(['database', 'safety'])
  await page.getByRole('button', { name: 'Take off the tag database' }).click()
  await expect(tags(page)).toHaveText(['safety'])
  await undoButton(page).click()
  await expect(tags(page)).toHaveCount(2)
  await redoButton(page).click()
  await expect(tags(page)).toHaveText(['safety'])
  expect(program.complaints).toEqual([])
})

test('entries and projects are tagged in their place, and the journal shows the entries of a tag', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  await beginProject(page, 'Quiet the dome')
  await writeEntry(page, 'The dome grinds between 40 and 60 degrees.', 3)
  await writeEntry(page, 'Greased the rollers of the dome.', 5)
  const entry = entryWith(page, 'grinds')
  await entry.focus()
  await press('t')
  await expect(field(entry)).toBeFocused()
  // The letter that opened it is not in it.
  await expect(field(entry)).toHaveValue('')
  await page.keyboard.type('dome,noise,')
  await expect(tags(entry)).toHaveText(['dome', 'noise'])
  // Arrows belong to the field while it is open.
  await press('ArrowDown')
  await expect(field(entry)).toBeFocused()
  await press('Escape')
  await expect(entry).toBeFocused()
  await expect(entry.locator('.st-entry-tag')).toHaveText(['dome', 'noise'])

  // Another one by its menu; what it shares with the first is suggested.
  const other = entryWith(page, 'Greased')
  await chooseInMenu(page, other.getByRole('button', { name: 'More for this entry' }), /^Tags…/)
  await expect(suggestion(other, 'dome')).toBeVisible()
  await suggestion(other, 'dome').click()
  await expect(tags(other)).toHaveText(['dome'])
  await other.getByRole('button', { name: 'Done' }).click()

  // The text of an entry is what it was; nothing says that it was amended.
  await expect(other).not.toContainText('Amended')
  await entry.getByRole('button', { name: 'noise: show entries with this tag' }).click()
  await expect(entries(page)).toHaveCount(1)
  const filter = page.getByRole('search', { name: 'Filter the journal' })
  await expect(filter).toContainText('1 of 2 entries')
  await filter.getByRole('button', { name: 'noise 1' }).click()
  await filter.getByRole('button', { name: 'dome 2' }).click()
  await expect(entries(page)).toHaveCount(2)
  await filter.getByRole('button', { name: 'Show all' }).click()

  const projects = projectButton(page)
  await chooseInMenu(page, projects, 'Title, aim, status and folder')
  const dialog = page.getByRole('dialog', { name: 'Title, aim, status and folder' })
  await expect(suggestion(dialog, 'dome')).toBeVisible()
  await suggestion(dialog, 'dome').click()
  await expect(tags(dialog)).toHaveText(['dome'])
  await dialog.getByLabel('Aim', { exact: true }).fill('The dome turns without a sound.')
  await dialog.getByRole('button', { name: 'Keep' }).click()
  await expect(dialog).toHaveCount(0)
  await program.restart()
  const again = program.page
  await projectButton(again).click()
  await expect(again.getByRole('menuitemradio', { name: 'Quiet the dome' })).toContainText('under way · dome')
  await again.keyboard.press('Escape')
  await expect(entryWith(again, 'grinds').locator('.st-entry-tag')).toHaveText(['dome', 'noise'])
  expect(program.complaints).toEqual([])
})

test('two windows show one another’s tags and refusals', async ({ program }) => {
  test.skip(program.shell !== null, 'a second tab stands for a second window; the worker is the same in both')
  const { page } = program
  await openSample(page)
  const second = await page.context().newPage()
  await second.goto(program.address)
  await sourceRow(page, fourth).click()
  await sourceRow(second, fourth).click()
  await field(page).fill('trees,')
  await expect(tags(second)).toHaveText(['trees'])
  await expect(suggestions(second).first()).toBeVisible()
  const refused = (await suggestions(second).first().innerText()).trim()
  await field(second).press('Alt+x')
  await expect(suggestions(page).filter({ hasText: new RegExp(`^${refused}$`) })).toHaveCount(0)
  await field(second).fill('copies,')
  await expect(tags(page)).toHaveText(['trees', 'copies'])
  expect(program.complaints).toEqual([])
})

test('words that are struck out are masked in tags, and no suggestion says them', async ({ program }) => {
  const { page } = program
  const secret = 'Kestrel-over-41-masts'
  await beginProject(page, 'Broker on the logger')
  await writeEntry(page, `mosquitto_pub -u dome -P ${secret}`, 1)
  await writeEntry(page, `Is ${secret} still the password of the dome?`, 3)
  const entry = entries(page).first()
  await entry.focus()
  await page.keyboard.press('t')
  await page.keyboard.type(`${secret},`)
  await page.keyboard.press('Escape')
  await expect(entry.locator('.st-entry-tag')).toHaveText([secret])
  // A field that stays open meanwhile, with the words among its suggestions.
  const other = entryWith(page, 'still the password')
  await other.focus()
  await page.keyboard.press('t')
  await expect(suggestions(other).filter({ hasText: secret }).first()).toBeVisible()

  await selectWords(page, entry, secret)
  await chooseInMenu(page, entry.getByRole('button', { name: 'More for this entry' }), /Strike out…/)
  const dialog = page.getByRole('dialog', { name: 'Strike out' })
  await dialog.getByRole('button', { name: 'Strike out…' }).click()
  await dialog.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(dialog).toHaveCount(0)
  await expect(entry.locator('.st-entry-tag')).toHaveText([/^█+$/])
  await expect(suggestions(other).first()).toBeVisible()
  await expect(page.locator('body')).not.toContainText(/Kestrel-over/i)
  await expect(suggestions(other).filter({ hasText: '█' })).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

async function violationsIn({ page }: Launched): Promise<string[]> {
  if (!(await page.evaluate('"axe" in globalThis'))) await page.evaluate(axe)
  const found: AxeResults = await page.evaluate(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(rules)} }, resultTypes: ['violations'] })`,
  )
  return found.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`))
}

test('rules of access find nothing in the field, the offers, an entry’s tags and the filter, light and dark', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const theme = page.getByRole('button', { name: /^Theme: / })
  for (const wanted of ['light', 'dark']) {
    while ((await theme.getAttribute('aria-label')) !== `Theme: ${wanted}`) await theme.click()
    await sourceRow(page, fourth).click()
    await expect(suggestions(page).first()).toBeVisible()
    await field(page).fill('copies,')
    await expect(tags(page).first()).toBeVisible()
    expect(await violationsIn(program), `${wanted}, field`).toEqual([])
    await page.getByRole('button', { name: 'Take off the tag copies' }).click()
    await page.getByRole('button', { name: 'All sources' }).click()

    const entry = entries(page).filter({ hasNotText: 'Withdrawn' }).last()
    await entry.focus()
    await page.keyboard.press('t')
    await page.keyboard.type('night visit,night')
    await page.keyboard.press('Backspace')
    await expect(suggestions(entry).first()).toBeVisible()
    expect(await violationsIn(program), `${wanted}, entry`).toEqual([])
    for (const key of ['Escape', 'Escape', 'Escape']) await page.keyboard.press(key)
    await pane(page, 'Journal').locator('.st-entry-tag').first().click()
    expect(await violationsIn(program), `${wanted}, filter`).toEqual([])
    await page.getByRole('search').getByRole('button', { name: 'Show all' }).click()
    await dismissNotices(page)
  }
})
