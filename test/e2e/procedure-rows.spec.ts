/** Sections, sub-steps, places and the parts of a procedure itself: added, moved and taken away by keys and by menus. */
import type { Locator, Page } from '@playwright/test'
import {
  addStep,
  beginProcedure,
  beginProject,
  chooseInMenu,
  dismissNotices,
  pane,
  partOf,
  steps,
  undoButton,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const rows = (page: Page): Locator => pane(page, 'Procedure').locator('.st-steps li[data-step]')
const section = (page: Page): Locator => pane(page, 'Procedure').locator('.st-row-section')
const numbers = (page: Page): Promise<string[]> => steps(page).locator('.st-step-number').allInnerTexts()
const doTexts = async (page: Page): Promise<string[]> =>
  (await steps(page).locator('.st-part--do .st-part-read').allInnerTexts()).map((text) => text.trim())

/** Opens the menu of a row and chooses a line of it. */
const chooseForRow = (page: Page, row: Locator, line: string | RegExp): Promise<void> =>
  chooseInMenu(page, row.getByRole('button', { name: /^More for (step|section)/ }).first(), line)

async function addToProcedure(page: Page, line: string | RegExp, text: string): Promise<void> {
  await chooseInMenu(page, pane(page, 'Procedure').getByRole('button', { name: 'Add…', exact: true }), line)
  await expect(pane(page, 'Procedure').locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText(text)
  await page.keyboard.press('Escape')
  await expect(pane(page, 'Procedure').locator('.cm-content')).toHaveCount(0)
}

test('sections and sub-steps are numbered through, and move and go with all under them', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the logger')
  await beginProcedure(page, 'Move the logger')
  await addToProcedure(page, /^Section/, 'Before')
  for (const text of ['Look at the clock', 'Stop the logger', 'Wait']) await addStep(page, text)
  await addToProcedure(page, /^Section/, 'The disk')
  for (const text of ['Copy', 'Compare']) await addStep(page, text)
  await expect.poll(() => numbers(page)).toEqual(['1', '2', '3', '4', '5'])

  // In and out by keys: the keyboard stays on the row, and what it is now is said.
  await steps(page).nth(2).focus()
  await page.keyboard.press('Alt+ArrowRight')
  await expect.poll(() => numbers(page)).toEqual(['1', '2', '2.1', '3', '4'])
  await expect(steps(page).nth(2)).toBeFocused()
  await expect(page.getByText('Moved. It is step 2.1 of 4 now.')).toBeAttached()
  await page.keyboard.press('Alt+ArrowLeft')
  await expect.poll(() => numbers(page)).toEqual(['1', '2', '3', '4', '5'])
  await page.keyboard.press('Alt+ArrowRight')
  await expect.poll(() => numbers(page)).toEqual(['1', '2', '2.1', '3', '4'])

  // A step takes its sub-steps along, a section all of its steps; one undo brings all back.
  await steps(page).nth(1).focus()
  await page.keyboard.press('Alt+ArrowUp')
  await expect
    .poll(() => doTexts(page))
    .toEqual(['Stop the logger', 'Wait', 'Look at the clock', 'Copy', 'Compare'])
  await expect.poll(() => numbers(page)).toEqual(['1', '1.1', '2', '3', '4'])
  await chooseForRow(page, section(page).nth(1), 'Move up')
  await expect
    .poll(() => doTexts(page))
    .toEqual(['Copy', 'Compare', 'Stop the logger', 'Wait', 'Look at the clock'])
  await expect(section(page).first()).toContainText('The disk')
  await undoButton(page).click()
  await expect
    .poll(() => doTexts(page))
    .toEqual(['Stop the logger', 'Wait', 'Look at the clock', 'Copy', 'Compare'])

  // Taken away with all under it, which the menu says beforehand.
  await dismissNotices(page)
  await chooseForRow(page, section(page).first(), 'Remove section with 3 steps')
  await expect(rows(page)).toHaveCount(3)
  await undoButton(page).click()
  await expect(rows(page)).toHaveCount(7)
  await chooseForRow(page, section(page).first(), 'Remove the heading alone')
  await expect(rows(page)).toHaveCount(6)
  await expect.poll(() => numbers(page)).toEqual(['1', '1.1', '2', '3', '4'])

  // A new sub-step by the menu, and a step behind: it comes behind the sub-steps.
  await chooseForRow(page, steps(page).first(), 'Add a sub-step')
  await expect(steps(page).nth(2).locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('Wait longer')
  await page.keyboard.press('Escape')
  await chooseForRow(page, steps(page).first(), 'Add a step after this')
  await expect(steps(page).nth(3).locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('Breathe')
  await page.keyboard.press('Escape')
  await expect.poll(() => numbers(page)).toEqual(['1', '1.1', '1.2', '2', '3', '4', '5'])
  expect(program.complaints).toEqual([])
})

test('a procedure says what it is made for, where its steps happen, and where no way leads back', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the logger')
  await beginProcedure(page, 'Move the logger')
  await addToProcedure(page, 'Made for', 'The logger on the roof.')
  await addToProcedure(page, 'Closing checks', 'A reading comes each minute.')
  await addStep(page, 'Stop it')
  await addStep(page, 'Wipe the disk')
  const article = pane(page, 'Procedure').getByRole('article')
  await expect(article).toContainText(
    /Made for\s*The logger on the roof\.[^]*Stop it[^]*Closing checks\s*A reading/,
  )

  // By key: the place shows at the step and holds until another is said.
  await steps(page).first().focus()
  await page.keyboard.press('Alt+p')
  const form = page.getByRole('form', { name: 'Where it happens' })
  await form.getByLabel('Machine').fill('logger')
  await form.getByLabel('User').fill('root')
  await form.getByLabel('Directory').fill('/etc')
  await form.getByRole('button', { name: 'Keep the place' }).click()
  await expect(steps(page).first()).toContainText('on logger, as root, in /etc')
  await expect(steps(page).first()).toBeFocused()
  await expect(steps(page).nth(1).locator('.st-place-line')).toHaveCount(0)
  await chooseForRow(page, steps(page).nth(1), 'Say its place…')
  await form.getByLabel('Directory').fill('/root')
  await form.getByRole('button', { name: 'Keep the place' }).click()
  await expect(steps(page).nth(1)).toContainText('on logger, as root, in /root')

  await chooseForRow(page, steps(page).nth(1), 'Make it the point of no return')
  await expect(steps(page).nth(1)).toContainText('Point of no return.')
  await chooseForRow(page, steps(page).nth(1), 'Add hold')
  await expect(partOf(steps(page).nth(1), 'hold').locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('A second person has read the serial number.')
  await page.keyboard.press('Escape')
  await expect(partOf(steps(page).nth(1), 'hold')).toContainText('Hold point')
  expect(program.complaints).toEqual([])
})
