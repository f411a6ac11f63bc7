/** Cutting, splitting and joining in a procedure: words keep their links, by keys, by menus, and through undo and redo. */
import type { Locator, Page } from '@playwright/test'
import { chooseInMenu, openSample, pane, partOf, redoButton, steps, undoButton } from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const whyWords = 'A copy made during a write can hold half of a change.'
const expectWords = 'The size of the new disk, and no partition table.'
const quotes = (part: Locator): Locator => part.getByText('quotes', { exact: true })
const stepCount = (page: Page): Locator =>
  pane(page, 'Procedure').locator('.st-pane-count [aria-hidden="true"]')

/** Opens a part for typing and waits until the keys go there. */
async function open(part: Locator): Promise<Locator> {
  await part.locator('.st-part-read').press('Enter')
  await expect(part.locator('.cm-content')).toBeFocused()
  return part.locator('.cm-content')
}

test('words that are cut and pasted in another step take their link along, and undo brings it back', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const from = partOf(steps(page).nth(2), 'why')
  const to = partOf(steps(page).nth(3), 'do')
  await expect(quotes(from)).toHaveCount(1)
  const before = await to.locator('.st-from').count()
  const words = await open(from)
  await selectWords(page, words, 'can hold half of a change')
  await page.keyboard.press('Control+x')
  await expect(words).not.toContainText('can hold half of a change')
  await open(to)
  await page.keyboard.press('Control+Home')
  await page.keyboard.press('Control+v')
  await expect(to.locator('.cm-content')).toContainText('can hold half of a change')
  // The cursor stands behind what came in.
  await page.keyboard.type('; ')
  await page.keyboard.press('Escape')
  await expect(to).toContainText(/^.*can hold half of a change; /su)
  await expect(to.locator('.st-from')).toHaveCount(before + 1)
  // A part of the words is left where they were, so both are linked.
  await expect(from.locator('.st-from')).toHaveCount(1)

  await undoButton(page).click()
  await undoButton(page).click()
  await expect(to.locator('.st-from')).toHaveCount(before)
  await expect(to).not.toContainText('can hold half of a change')
  await redoButton(page).click()
  await expect(to.locator('.st-from')).toHaveCount(before + 1)
  await undoButton(page).click()
  await expect(to.locator('.st-from')).toHaveCount(before)
  await undoButton(page).click()
  await expect(from).toContainText(whyWords)
  await expect(quotes(from)).toHaveCount(1)
  expect(program.complaints).toEqual([])
})

test('a step is split at the cursor and joined again by keys and by menus, with its links', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const count = Number(await stepCount(page).innerText())
  const whole = steps(page).nth(2)
  const part = partOf(whole, 'why')
  const words = await open(part)
  await selectWords(page, words, ' can hold half of a change.')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('Alt+Enter')
  await expect(stepCount(page)).toHaveText(String(count + 1))
  const rest = steps(page).nth(3)
  // Typing goes on at the start of the new step.
  await expect(rest.locator('.cm-content')).toBeFocused()
  await page.keyboard.type('Half ')
  await page.keyboard.press('Escape')
  await expect(partOf(rest, 'why')).toContainText('Half can hold half of a change.')
  await expect(partOf(whole, 'why')).toContainText('A copy made during a write')
  await expect(partOf(whole, 'why').locator('.st-from')).toHaveCount(1)
  await expect(partOf(rest, 'why').locator('.st-from')).toHaveCount(1)

  // Joined by a key, from the new step; the keyboard is on the joined one.
  await rest.focus()
  await page.keyboard.press('Alt+Shift+ArrowUp')
  await expect(stepCount(page)).toHaveText(String(count))
  await expect(steps(page).nth(2)).toBeFocused()
  await expect(partOf(steps(page).nth(2), 'why')).toContainText('Half can hold half of a change.')
  await expect(partOf(steps(page).nth(2), 'why').locator('.st-from')).toHaveCount(2)

  await undoButton(page).click()
  await expect(stepCount(page)).toHaveText(String(count + 1))
  await expect(partOf(steps(page).nth(3), 'why').locator('.st-from')).toHaveCount(1)
  await redoButton(page).click()
  await expect(stepCount(page)).toHaveText(String(count))

  // By pointer alone: the cursor by a click, the split by the menu, and the join by the menu of the row.
  const again = partOf(steps(page).nth(2), 'why')
  await again.locator('.st-part-read').click()
  await expect(again.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Control+End')
  await page.keyboard.press('ControlOrMeta+ArrowLeft')
  await chooseInMenu(page, again.getByRole('button', { name: 'Move words…' }), /^Split the step/)
  await expect(stepCount(page)).toHaveText(String(count + 1))
  await expect(steps(page).nth(3).locator('.cm-content')).toBeFocused()
  await chooseInMenu(
    page,
    steps(page).nth(2).getByRole('button', { name: 'More for step 3', exact: true }),
    /^Join with the step behind/,
  )
  await expect(stepCount(page)).toHaveText(String(count))
  expect(program.complaints).toEqual([])
})

test('a reference to a step that is joined away leads to the joined step', async ({ program }) => {
  const { page } = program
  await openSample(page)
  const count = Number(await stepCount(page).innerText())
  const fifth = partOf(steps(page).nth(4), 'do')
  await open(fifth)
  await page.keyboard.press('Control+End')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Enter')
  await chooseInMenu(page, fifth.getByRole('button', { name: 'Go to step…' }), /^Step 2/)
  await page.keyboard.press('Escape')
  await expect(fifth.getByText('step 2', { exact: true })).toBeVisible()
  await steps(page).nth(0).focus()
  await page.keyboard.press('Alt+Shift+ArrowDown')
  await expect(stepCount(page)).toHaveText(String(count - 1))
  await expect(partOf(steps(page).nth(3), 'do').getByText('step 1', { exact: true })).toBeVisible()
  await undoButton(page).click()
  await expect(partOf(steps(page).nth(4), 'do').getByText('step 2', { exact: true })).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('rows and parts are cut and put elsewhere, by keys and by menus, with their links', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const second = await steps(page).nth(1).getAttribute('data-step')
  const row = page.locator(`[data-step="${second}"]`)
  const links = await row.locator('.st-from').count()
  await row.focus()
  await page.keyboard.press('Control+x')
  await expect(page.getByRole('group', { name: 'What is cut' })).toContainText('Step 2 cut.')
  await steps(page).nth(3).focus()
  await page.keyboard.press('Control+v')
  await expect(steps(page).nth(3)).toHaveAttribute('data-step', second!)
  await expect(page.getByRole('group', { name: 'What is cut' })).toHaveCount(0)
  await expect(row.locator('.st-from')).toHaveCount(links)
  await undoButton(page).click()
  await expect(steps(page).nth(1)).toHaveAttribute('data-step', second!)

  // A part goes behind the text of its kind.
  const part = partOf(row, 'expect')
  const target = steps(page).nth(0)
  await chooseInMenu(page, part.getByRole('button', { name: 'More for expect of step 2' }), /^Cut/)
  await expect(page.getByRole('group', { name: 'What is cut' })).toContainText('Expect of step 2 cut.')
  await chooseInMenu(page, target.getByRole('button', { name: 'More for step 1', exact: true }), /^Put here/)
  await expect(partOf(target, 'expect')).toContainText(expectWords)
  await expect(quotes(partOf(target, 'expect')).last()).toBeVisible()
  await expect(part).toHaveCount(0)
  await undoButton(page).click()
  await expect(partOf(row, 'expect')).toContainText(expectWords)
  await expect(quotes(partOf(row, 'expect'))).toHaveCount(1)
  await redoButton(page).click()
  await expect(partOf(target, 'expect')).toContainText(expectWords)

  // What is cut can be left where it is.
  await steps(page).nth(0).focus()
  await page.keyboard.press('Control+x')
  await page.keyboard.press('Escape')
  await expect(page.getByRole('group', { name: 'What is cut' })).toHaveCount(0)
  expect(program.complaints).toEqual([])
})
