/** A procedure is begun, written, put in order and taken apart again; what was typed survives all of it. */
import {
  addStep,
  beginAnotherProject,
  beginProcedure,
  beginProject,
  carryEntry,
  chooseInMenu,
  composer,
  dismissNotices,
  pane,
  partOf,
  steps,
  switchProject,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { dragFrom } from './support/words.ts'

test('steps are added, moved by keys, by menu and by drag, removed, and brought back with their links', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  const order = async () =>
    (await steps(page).locator('.st-part--do .st-part-read').allInnerTexts()).map((text) => text.trim())
  await beginProject(page, 'Straighten the mast')
  const entry = await writeEntry(page, 'Loosen the east wire', 1)
  await beginProcedure(page, 'Straighten a mast')
  await addStep(page, 'one')
  await addStep(page, 'two')
  await addStep(page, 'three')
  await expect.poll(order).toEqual(['one', 'two', 'three'])

  // By keys: the keyboard stays on the step, and the new place is said.
  await steps(page).nth(2).focus()
  await press('Alt+ArrowUp')
  await expect.poll(order).toEqual(['one', 'three', 'two'])
  await expect(steps(page).nth(1)).toBeFocused()
  await expect(page.getByText('Moved. It is step 2 of 3 now.')).toBeAttached()
  await press('Alt+ArrowUp')
  await expect.poll(order).toEqual(['three', 'one', 'two'])
  await press('Alt+ArrowUp')
  await expect.poll(order).toEqual(['three', 'one', 'two'])
  await press('ArrowDown')
  await expect(steps(page).nth(1)).toBeFocused()
  // By menu.
  await chooseInMenu(page, steps(page).nth(0).getByRole('button', { name: 'Move step 1' }), 'Move to the end')
  await expect.poll(order).toEqual(['one', 'two', 'three'])
  // By drag: the last one onto the upper half of the first.
  const handle = (await steps(page).nth(2).getByRole('button', { name: 'Move step 3' }).boundingBox())!
  const first = (await steps(page).nth(0).boundingBox())!
  await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2)
  await page.mouse.down()
  await page.mouse.move(handle.x + 4, handle.y - 8, { steps: 4 })
  await page.mouse.move(first.x + 60, first.y + 6, { steps: 10 })
  await expect(steps(page).nth(0)).toHaveAttribute('data-line', 'above')
  await page.mouse.up()
  await expect.poll(order).toEqual(['three', 'one', 'two'])
  await undoButton(page).click()
  await expect.poll(order).toEqual(['one', 'two', 'three'])

  // Parts by the menu, typed, and one that rests on an entry.
  await chooseInMenu(page, steps(page).nth(0).getByRole('button', { name: 'More for step 1' }), 'Add caution')
  await expect(partOf(steps(page).nth(0), 'caution').locator('.cm-content')).toBeFocused()
  await page.keyboard.type('The mast may fall: nobody stands below it.')
  await press('Escape')
  await expect(partOf(steps(page).nth(0), 'caution')).toContainText('nobody stands below it.')
  await carryEntry(page, entry, /of step 1/)
  const rest = steps(page).nth(0).locator('.st-from')
  await expect(rest).toHaveCount(1)
  const whole = await steps(page).nth(0).innerText()

  // Removing the step takes its links from what is shown; undo brings text and links back together.
  await dismissNotices(page)
  await expect(entry.getByRole('button', { name: /what came of it/ })).toHaveCount(1)
  await chooseInMenu(page, steps(page).nth(0).getByRole('button', { name: 'More for step 1' }), 'Remove step')
  await expect(steps(page)).toHaveCount(2)
  await expect(steps(page).nth(0)).toBeFocused()
  await expect(entry.getByRole('button', { name: /what came of it/ })).toHaveCount(0)
  await undoButton(page).click()
  await expect(steps(page)).toHaveCount(3)
  await expect(rest).toHaveCount(1)
  expect(await steps(page).nth(0).innerText()).toBe(whole)
  await expect(entry.getByRole('button', { name: /what came of it/ })).toHaveCount(1)
  // The same with a part alone.
  const carried = steps(page)
    .nth(0)
    .locator('.st-part', { has: page.locator('.st-from') })
  await dismissNotices(page)
  await chooseInMenu(page, carried.getByRole('button', { name: /^More for/ }), 'Remove part')
  await expect(rest).toHaveCount(0)
  await undoButton(page).click()
  await expect(rest).toHaveCount(1)
  await expect(rest).toContainText('quotes')

  // A step after another, and one that is dragged in between from the journal.
  await chooseInMenu(
    page,
    steps(page).nth(0).getByRole('button', { name: 'More for step 1' }),
    'Add a step after this',
  )
  await expect(steps(page).nth(1).locator('.cm-content')).toBeFocused()
  await page.keyboard.type('one and a half')
  await press('Control+Enter')
  await expect.poll(order).toEqual([expect.stringContaining('one'), 'one and a half', 'two', 'three'])
  await dismissNotices(page)
  const grip = (await entry.getByRole('button', { name: 'Carry this entry' }).boundingBox())!
  await dragFrom(page, { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 }, () =>
    page.getByText(/^New step after 2: /),
  )
  await expect(steps(page)).toHaveCount(5)
  await expect(steps(page).nth(2)).toContainText('Loosen the east wire')
  expect(program.complaints).toEqual([])
})

test('words are carried into the procedure’s own parts, by the list and by dragging, and lead back', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  const entry = await writeEntry(page, 'The key of the mast hut hangs in the rack', 3)
  await beginProcedure(page, 'Straighten a mast')
  const own = (label: string) =>
    pane(page, 'Procedure').locator('.st-own-part', { has: page.getByRole('heading', { name: label }) })
  await carryEntry(page, entry, 'Of the procedure itself: Access')
  await expect(own('Access')).toContainText('The key of the mast hut hangs in the rack')
  await expect(own('Access').locator('.st-from')).toContainText('quotes')
  await dismissNotices(page)
  const grip = (await entry.getByRole('button', { name: 'Carry this entry' }).boundingBox())!
  await dragFrom(page, { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 }, () =>
    page.getByRole('button', { name: /^Parts and tools: / }),
  )
  await expect(own('Parts and tools').locator('.st-from')).toContainText('quotes')
  await undoButton(page).click()
  await expect(own('Parts and tools')).toHaveCount(0)
  await expect(own('Access')).toHaveCount(1)
  expect(program.complaints).toEqual([])
})

test('title, purpose and parts keep what was typed over leaving them, other projects and the end of the program', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  await beginProject(page, 'Straighten the mast')
  await beginProcedure(page, 'Straighten')
  const procedure = pane(page, 'Procedure')
  const title = procedure.locator('.st-procedure-title')
  const purpose = procedure.locator('.st-procedure-purpose')

  // A title is one line: Enter leaves it.
  await title.click()
  await expect(title.locator('.cm-content')).toBeFocused()
  await press('Control+End')
  await page.keyboard.type(' a mast')
  await press('Enter')
  await expect(title.locator('.cm-content')).toHaveCount(0)
  await expect(title).toHaveText('Straighten a mast')
  await expect(procedure.getByRole('article', { name: 'Straighten a mast' })).toBeVisible()
  await purpose.click()
  await expect(purpose.locator('.cm-content')).toBeFocused()
  await page.keyboard.type('After each storm, and **before** the antenna goes up.')
  // Leaving it by a key and going on in the journal at once keeps both.
  await press('Escape')
  await press('Alt+2')
  await page.keyboard.type('no gusts today', { delay: 10 })
  await expect(composer(page)).toHaveText('no gusts today')
  await press('Control+a')
  await press('Backspace')
  await expect(purpose.locator('.cm-content')).toHaveCount(0)
  await expect(purpose.locator('strong')).toHaveText('before')

  // Straight into another project while a part is being typed, without leaving it first.
  await addStep(page, 'Look along the mast')
  await beginAnotherProject(page, 'Paint the dome')
  await expect(procedure).not.toContainText('Straighten')
  await switchProject(page, 'Straighten the mast')
  await partOf(steps(page).first(), 'do').locator('.st-part-text').click()
  await expect(partOf(steps(page).first(), 'do').locator('.cm-content')).toBeFocused()
  await press('Control+End')
  await page.keyboard.type(' from two sides')
  await composer(page).click()
  await page.keyboard.type('Half an entry')
  await partOf(steps(page).first(), 'do').locator('.st-part-text').click()
  await expect(partOf(steps(page).first(), 'do').locator('.cm-content')).toBeFocused()
  await press('Control+End')
  await page.keyboard.type(', in daylight')
  await switchProject(page, 'Paint the dome')
  await expect(composer(page)).not.toContainText('Half an entry')
  await switchProject(page, 'Straighten the mast')
  await expect(partOf(steps(page).first(), 'do')).toContainText(
    'Look along the mast from two sides, in daylight',
  )
  await expect(composer(page)).toContainText('Half an entry')

  // Ended while a text is open for typing. Electron waits until it is written down; a browser does not wait at all.
  await partOf(steps(page).first(), 'do').locator('.st-part-text').click()
  await expect(partOf(steps(page).first(), 'do').locator('.cm-content')).toBeFocused()
  await press('Control+End')
  await page.keyboard.type(' only')
  if (program.kind === 'chromium') await page.waitForTimeout(1000)
  await program.restart()
  await expect(partOf(steps(program.page).first(), 'do')).toContainText('in daylight only')
  await expect(composer(program.page)).toContainText('Half an entry')
  await expect(pane(program.page, 'Procedure')).toContainText('After each storm')

  // Undo walks back through the typing, one revision after the other, and never loses the rest.
  await expect(undoButton(program.page)).toBeEnabled()
  await undoButton(program.page).click()
  await expect(partOf(steps(program.page).first(), 'do')).not.toContainText('only')
  await expect(partOf(steps(program.page).first(), 'do')).toContainText('Look along the mast')
  expect(program.complaints).toEqual([])
})
