/** Tracing: steps, procedures and selected words, a step's life, what rests on a source, and words reused elsewhere. */
import type { Locator, Page } from '@playwright/test'
import { violationsIn } from './support/axe.ts'
import {
  addStep,
  beginAnotherProject,
  beginProcedure,
  chooseInMenu,
  entryWith,
  openSample,
  pane,
  partOf,
  reader,
  sourceRow,
  steps,
} from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const trace = (page: Page): Locator => page.getByRole('dialog', { name: 'Trace' })
const tab = (page: Page, name: string): Locator => trace(page).getByRole('tab', { name, exact: true })
const shown = (page: Page): Locator => trace(page).getByRole('tabpanel')
const status = (page: Page): Locator => shown(page).getByRole('status')

/** Another procedure of the project, begun by the button or by the menu that stands there once there are two. */
async function beginAnother(page: Page, title: string): Promise<void> {
  await pane(page, 'Procedure').getByRole('button', { name: 'New procedure' }).click()
  await page.getByLabel('Title of the procedure').fill(title)
  await page.keyboard.press('Enter')
  await expect(pane(page, 'Procedure')).toContainText(title)
}

async function showProcedure(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'Procedures of this project' }).click()
  await page.getByRole('menuitemradio', { name: title }).click()
  await expect(pane(page, 'Procedure').locator('.st-procedure')).toHaveAttribute('aria-label', title)
}

test('a step is traced with all its parts, by keys, and its life is told', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await steps(page).nth(1).focus()
  await page.keyboard.press('Alt+t')
  await expect(trace(page)).toContainText('Step 2')
  await expect(status(page)).toHaveText('2 links back.')
  await expect(shown(page).locator('.st-hop-start')).toHaveText(['Do of step 2', 'Expect of step 2'])
  await expect(shown(page).locator('pre.st-code').first()).toContainText('sfdisk -l /dev/sda')

  // The arrows go from view to view.
  await tab(page, 'Where from').focus()
  await page.keyboard.press('ArrowRight')
  await expect(tab(page, 'What came of it')).toBeFocused()
  await page.keyboard.press('ArrowRight')
  await expect(tab(page, 'Life')).toBeFocused()
  await expect(tab(page, 'Life')).toHaveAttribute('aria-selected', 'true')
  const life = shown(page).getByRole('list', { name: 'Its life, the oldest first' })
  await expect(life).toContainText('First note')
  await expect(life).toContainText('The step was begun by a carry')
  expect(await violationsIn(page)).toEqual([])

  // What is typed now is told at once, with its words. The trace makes way for who goes there.
  await trace(page).getByRole('button', { name: 'Go there', exact: true }).first().click()
  await partOf(steps(page).nth(1), 'if it fails').locator('.st-part-text').click()
  await page.keyboard.press('Control+End')
  await page.keyboard.type(' Look at the label.')
  await page.keyboard.press('Escape')
  await expect(life.locator('.st-hop').last()).toContainText('Reworded: If it fails')
  await expect(life.locator('ins').last()).toContainText('Look at the label.')
  await trace(page).getByRole('button', { name: 'Close trace' }).click()
  await expect(trace(page)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('of a source it is said which steps rest on it, and of selected words what came of them', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await sourceRow(page, thread.source).click()
  await expect(reader(page)).toContainText(thread.sourceWords)
  await page.keyboard.press('Alt+t')
  await expect(tab(page, 'What came of it')).toHaveAttribute('aria-selected', 'true')
  await expect(status(page)).toHaveText('3 links forward.')
  await tab(page, 'Where from').click()
  await expect(shown(page)).toContainText('Part of the sample')
  await tab(page, 'If wrong').click()
  await expect(status(page)).toHaveText(
    'If it were wrong or gone: 2 steps rest on it, all of them also on something else.',
  )
  expect(await violationsIn(page)).toEqual([])

  // A row leads to its step by Enter.
  const row = shown(page).getByRole('button', { name: /^Step 3/ })
  await row.focus()
  await page.keyboard.press('Enter')
  await expect(partOf(steps(page).nth(2), 'why').locator('mark')).toContainText('A copy made during a write')
  await trace(page).getByRole('button', { name: 'Close trace' }).click()

  await reader(page).focus()
  await page.keyboard.press('Control+End')
  await expect(reader(page)).toContainText('A copy made during a write')
  await selectWords(page, reader(page), 'A copy made during a write')
  await page.keyboard.press('Alt+t')
  await expect(trace(page)).toContainText('Selected in')
  await expect(status(page)).toHaveText('1 link forward, of the selected words alone.')
  await expect(shown(page)).toContainText('Why of step 3')
  await shown(page).getByRole('button', { name: '2 links of other words of it' }).click()
  await expect(shown(page)).toContainText('If it fails of step 12')
  expect(program.complaints).toEqual([])
})

test('words that are copied out of one procedure and pasted into another are linked, and undone with their link', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const title = await pane(page, 'Procedure').locator('.st-procedure').getAttribute('aria-label')
  const words = 'The size of the new disk, and no partition table.'
  await selectWords(page, partOf(steps(page).nth(1), 'expect').locator('.st-part-read'), words)
  await page.keyboard.press('Control+c')
  await beginAnother(page, 'Move the dome’s computer')
  const step = await addStep(page, 'Look at the disk. ')
  await partOf(step, 'do').locator('.st-part-text').click()
  await expect(step.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Control+End')
  await page.keyboard.press('Control+v')
  await expect(step.locator('.cm-content')).toContainText(`Look at the disk. ${words}`)
  await page.keyboard.type(' Twice.')
  await page.keyboard.press('Escape')
  await expect(partOf(step, 'do')).toContainText(`Look at the disk. ${words} Twice.`)
  await expect(partOf(step, 'do').getByText('quotes')).toBeVisible()

  // It is said of which procedure the old step is.
  await expect(partOf(step, 'do').locator('.st-from-words')).toHaveText(
    /^Expect of step 2, Move the root file system/,
  )

  // From the new step back to the old one, and on to what that came from.
  await step.focus()
  await page.keyboard.press('Alt+t')
  await expect(shown(page).locator('.st-hop').first()).toContainText('Expect of step 2')
  await expect(shown(page).locator('.st-hop').first()).toContainText(title!)

  // From there more of it can be carried, without going there.
  await shown(page)
    .getByRole('button', { name: /^Carry these words: Expect of step 2/ })
    .click()
  await page.getByRole('option', { name: /^New step after 1: expect/ }).click()
  await expect(steps(page)).toHaveCount(2)
  await expect(partOf(steps(page).nth(1), 'expect').getByText('quotes')).toBeVisible()
  await page.locator('.st-topbar').getByRole('button', { name: /^Undo/ }).click()
  await expect(steps(page)).toHaveCount(1)
  if ((await trace(page).count()) > 0) await trace(page).getByRole('button', { name: 'Close trace' }).click()

  // What came of the old step is the new one.
  await showProcedure(page, title!)
  await partOf(steps(page).nth(1), 'expect').locator('.st-part-read').focus()
  await page.keyboard.press('Alt+t')
  await tab(page, 'What came of it').click()
  await expect(shown(page)).toContainText('Do of step 1')
  await shown(page)
    .getByRole('button', { name: /^Go there: Do of step 1/ })
    .click()
  await expect(pane(page, 'Procedure').locator('.st-procedure')).toHaveAttribute(
    'aria-label',
    'Move the dome’s computer',
  )
  await expect(partOf(steps(page).first(), 'do').locator('mark').first()).toContainText(
    'The size of the new disk',
  )
  await trace(page).getByRole('button', { name: 'Close trace' }).click()

  // Undo takes words and link together.
  const undo = page.locator('.st-topbar').getByRole('button', { name: /^Undo/ })
  for (let presses = 0; presses < 4; presses++) {
    if ((await partOf(steps(page).first(), 'do').getByText('quotes').count()) === 0) break
    await undo.click()
    await page.waitForTimeout(300)
  }
  await expect(partOf(steps(page).first(), 'do')).not.toContainText('The size of the new disk')
  expect(program.complaints).toEqual([])
})

test('words that are pasted into a procedure of another project lead back to it', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const words = 'The size of the new disk, and no partition table.'
  await selectWords(page, partOf(steps(page).nth(1), 'expect').locator('.st-part-read'), words)
  await page.keyboard.press('Control+c')
  await beginAnotherProject(page, 'The dome gets a disk')
  await beginProcedure(page, 'Fit the disk')
  const step = await addStep(page, 'Look first. ')
  await partOf(step, 'do').locator('.st-part-text').click()
  await expect(step.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Control+End')
  await page.keyboard.press('Control+v')
  await expect(step.locator('.cm-content')).toContainText(words)
  await page.keyboard.press('Escape')

  // The other project's part is not here: the button shows the way, and from there it is one more press.
  const from = partOf(step, 'do').getByRole('button', { name: /^From quotes The size of the new disk/ })
  await expect(partOf(step, 'do').locator('mark')).toContainText(words)
  await from.press('Enter')
  await expect(shown(page).locator('.st-hop').first()).toContainText('Expect of step 2')
  const there = shown(page).getByRole('button', { name: 'Go there: Expect of step 2' })
  await there.focus()
  await page.keyboard.press('Enter')
  await expect(page.locator('.st-topbar')).toContainText(thread.project)
  await expect(partOf(steps(page).nth(1), 'expect').locator('mark').first()).toContainText(
    'The size of the new',
  )
  expect(program.complaints).toEqual([])
})

test('a row of the list of sources and an entry are traced by a key where they stand', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await sourceRow(page, thread.source).focus()
  await page.keyboard.press('Alt+t')
  await expect(trace(page)).toContainText(thread.source)
  await expect(status(page)).toHaveText('3 links forward.')
  await page.keyboard.press('Escape')
  await expect(trace(page)).toHaveCount(0)
  await expect(sourceRow(page, thread.source)).toBeFocused()

  const entry = entryWith(page, 'A copy on the same disk helps')
  await entry.focus()
  await page.keyboard.press('Alt+t')
  await expect(tab(page, 'Where from')).toHaveAttribute('aria-selected', 'true')
  await expect(shown(page)).toContainText('What a nightly copy must survive')
  await tab(page, 'If wrong').click()
  await expect(status(page)).toContainText('1 step rests on it')
  await expect(shown(page).getByRole('button', { name: /^Step 12/ })).toBeVisible()
  expect(await violationsIn(page)).toEqual([])
  expect(program.complaints).toEqual([])
})

test('a procedure is traced as a whole', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await chooseInMenu(
    page,
    page.getByRole('button', { name: 'More for the procedure' }),
    'Trace it as a whole',
  )
  await expect(trace(page)).toContainText('The procedure as a whole')
  await expect(status(page)).toContainText('links back.')
  const starts = await shown(page)
    .locator('.st-hops')
    .first()
    .locator(':scope > li > .st-hop-start')
    .allTextContents()
  expect(starts.length).toBeGreaterThan(20)
  // A fix is told with the problem that it ended, in that one's words.
  await expect(shown(page)).toContainText('The database is malformed.')

  // In the order of the steps.
  const numbers = starts.map((words) => Number(/step (\d+)/.exec(words)?.[1] ?? 0))
  expect(numbers).toEqual([...numbers].sort((a, b) => a - b))
  await tab(page, 'What came of it').click()
  await expect(status(page)).toContainText('Nothing was carried from it yet.')
  expect(program.complaints).toEqual([])
})

test('a version is traced by what was there when it was marked', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const more = page.getByRole('button', { name: 'More for the procedure' })
  await chooseInMenu(page, page.getByRole('button', { name: 'Add…' }), /^Version…/)
  const versions = page.getByRole('dialog', { name: 'Versions' })
  await versions.getByLabel('What it is, in one line').fill('As it was done in October')
  await versions.getByRole('button', { name: 'Mark it as version 1' }).click()
  await versions.getByRole('button', { name: 'Read version 1' }).click()
  await page.getByRole('button', { name: 'Trace this version' }).click()
  await expect(trace(page)).toContainText('Version 1')
  await expect(trace(page)).toContainText('As it was done in October')
  const before = await status(page).textContent()
  expect(before).toMatch(/^\d+ links back\.$/)
  await expect(shown(page).locator('.st-hop-start').first()).toContainText('of step 1')
  await trace(page).getByRole('button', { name: 'Close trace' }).click()

  // What is carried after it was marked is no part of it.
  await selectWords(page, partOf(steps(page).nth(1), 'expect').locator('.st-part-read'), 'no partition table')
  await page.keyboard.press('Control+c')
  await partOf(steps(page).nth(1), 'if it fails').locator('.st-part-text').click()
  await page.keyboard.press('Control+End')
  await page.keyboard.press('Control+v')
  await page.keyboard.press('Escape')
  await expect(partOf(steps(page).nth(1), 'if it fails').getByText('quotes')).toBeVisible()
  await chooseInMenu(page, more, 'Trace it as a whole')
  const links = Number.parseInt(before!)
  await expect(status(page)).not.toHaveText(before!)
  expect(Number.parseInt((await status(page).textContent())!)).toBeGreaterThan(links)
  await trace(page).getByRole('button', { name: 'Close trace' }).click()
  await pane(page, 'Procedure').locator('.st-version-line').click()
  await versions.getByRole('button', { name: 'Read version 1' }).click()
  await page.getByRole('button', { name: 'Trace this version' }).click()
  await expect(status(page)).toHaveText(before!)
  expect(program.complaints).toEqual([])
})
