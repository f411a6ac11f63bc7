/** The journal under the hands of someone who works: kinds, writing, amending, taking back, finding again. */
import {
  beginProject,
  chooseInMenu,
  composer,
  dismissNotices,
  entries,
  entryCount,
  entryWith,
  pane,
  undoButton,
  redoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const kinds = ['Action', 'Output', 'Observation', 'Problem', 'Fix', 'Decision'] as const

test('entries are written, amended, taken back and filtered by keys, and what stood before stays readable', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  await beginProject(page, 'Straighten the mast')

  // One key for each kind, from anywhere, also while something else has the keyboard.
  for (const [at, kind] of kinds.entries()) {
    await pane(page, 'Sources').getByRole('button', { name: 'Add a source' }).first().focus()
    await press(`Alt+${at + 1}`)
    await expect(composer(page)).toBeFocused()
    await expect(page.getByRole('radio', { name: kind, exact: true })).toHaveAttribute('aria-checked', 'true')
    await page.keyboard.type(`Turn ${at + 1} of the screw`)
    await press('Control+Enter')
    await expect(entryCount(page)).toHaveText(String(at + 1))
    await expect(composer(page)).toBeFocused()
    await expect(composer(page)).not.toContainText('Turn')
  }
  for (const [at, kind] of kinds.entries())
    await expect(entries(page).nth(at)).toHaveAccessibleName(new RegExp(`^${kind}, \\d\\d:\\d\\d`))
  // Changing the kind while typing keeps the words; Alt+J leads here too; an empty entry is none.
  await page.keyboard.type('It holds')
  await press('Alt+3')
  await expect(composer(page)).toHaveText('It holds')
  await pane(page, 'Procedure').getByRole('button', { name: 'Begin a procedure' }).focus()
  await press('Alt+j')
  await expect(composer(page)).toBeFocused()
  await press('Control+a')
  await press('Backspace')
  await press('Control+Enter')
  await expect(entryCount(page)).toHaveText('6')

  // With the switch, Enter alone writes, and Shift+Enter makes a line.
  await page.getByRole('button', { name: 'Enter writes' }).click()
  await composer(page).click()
  await page.keyboard.type('first line')
  await press('Shift+Enter')
  await page.keyboard.type('second line')
  await press('Enter')
  await expect(entryCount(page)).toHaveText('7')
  await expect(entries(page).last()).toContainText('second line')
  await page.getByRole('button', { name: 'Enter writes' }).click()

  // Amend: by keys, saved by Ctrl+Enter; what stood before is behind a button, with the difference.
  const entry = entryWith(page, 'Turn 2 of the screw')
  const id = await entry.getAttribute('data-entry')
  const same = page.locator(`article[data-entry="${id}"]`)
  await same.focus()
  await press('Enter')
  await page.getByRole('menuitem', { name: 'Amend' }).press('Enter')
  await expect(same.locator('.cm-content')).toBeFocused()
  await press('Control+a')
  await page.keyboard.type('Turn 2 of the bolt')
  await press('Control+Enter')
  // Saving takes the keyboard from nobody who goes on elsewhere at once.
  await press('Alt+3')
  await page.keyboard.type('and at once the next thought', { delay: 10 })
  await expect(composer(page)).toHaveText('and at once the next thought')
  await press('Control+a')
  await press('Backspace')
  await expect(same.locator('.st-prose')).toHaveText('Turn 2 of the bolt')
  await same.getByRole('button', { name: /^Amended/ }).click()
  const before = same.getByRole('region', { name: 'What stood before' })
  await expect(before.locator('del')).toHaveText(['screw'])
  await expect(before.locator('ins')).toHaveText(['bolt'])
  await before.getByRole('button', { name: 'As it stood' }).click()
  await expect(before).toContainText('Turn 2 of the screw')
  // An amendment that is given up asks once, and changes nothing.
  await chooseInMenu(page, same.getByRole('button', { name: 'More for this entry' }), 'Amend')
  await expect(same.locator('.cm-content')).toBeFocused()
  await page.keyboard.type('never ')
  await press('Escape')
  await expect(same).toContainText('Cancel once more')
  await press('Escape')
  await expect(same.locator('.st-prose')).toHaveText('Turn 2 of the bolt')
  // Undo takes an amendment back, redo brings it again.
  await dismissNotices(page)
  await undoButton(page).click()
  await expect(same.locator('.st-prose')).toHaveText('Turn 2 of the screw')
  await redoButton(page).click()
  await expect(same.locator('.st-prose')).toHaveText('Turn 2 of the bolt')

  // Undo of a new entry gives its text back to the composer; the entry stays readable as withdrawn.
  const slip = await writeEntry(page, 'Turn 8 of the wrong screw', 4)
  await dismissNotices(page)
  await undoButton(page).click()
  await expect(slip).toContainText('Withdrawn')
  await expect(composer(page)).toHaveText('Turn 8 of the wrong screw')
  await expect(page.getByRole('radio', { name: 'Problem', exact: true })).toHaveAttribute(
    'aria-checked',
    'true',
  )
  await slip.getByRole('button', { name: 'Show its text' }).click()
  await expect(slip.locator('.st-prose')).toHaveText('Turn 8 of the wrong screw')
  await expect(slip.getByRole('button', { name: 'Carry this entry' })).toBeVisible()
  await chooseInMenu(page, slip.getByRole('button', { name: 'More for this entry' }), 'Bring back')
  await expect(slip).not.toContainText('Withdrawn')
  await chooseInMenu(page, slip.getByRole('button', { name: 'More for this entry' }), 'Withdraw')
  await expect(slip).toContainText('Withdrawn')
  await expect(entryCount(page)).toHaveText('8')

  // Filter by words and by kind, and back by Escape.
  await page.getByRole('button', { name: 'Filter the journal' }).click()
  await page.keyboard.type('bolt')
  await expect(page.getByRole('search').getByText('1 of 8 entries')).toBeVisible()
  await expect(entries(page)).toHaveCount(1)
  await press('Control+a')
  await press('Backspace')
  await page.getByRole('search').getByRole('button', { name: 'Fix' }).click()
  await expect(entries(page)).toHaveCount(1)
  await expect(entries(page).first()).toHaveAccessibleName(/^Fix/)
  await press('Escape')
  await expect(entries(page)).toHaveCount(8)
  await program.restart()
  await expect(entries(program.page)).toHaveCount(8)
  await expect(composer(program.page)).toHaveText('Turn 8 of the wrong screw')
  await expect(entryWith(program.page, 'Turn 2 of the bolt')).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('a long entry is in view once it is written, though the composer grew and shrinks again', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Replace the weather logger')
  const lines = (name: string): string => Array.from({ length: 60 }, (_, i) => `${name} ${i}`).join('\n\n')
  for (const name of ['First', 'Second', 'Third']) {
    await page.keyboard.press('Alt+3')
    await page.keyboard.insertText(lines(name))
    await page.keyboard.press('Control+Enter')
    const end = entries(page).last().getByText(`${name} 59`)
    await expect(end).toBeInViewport()
    await page.waitForTimeout(500)
    await expect(end).toBeInViewport()
    await expect(page.getByRole('button', { name: 'To the newest' })).toHaveCount(0)
  }
})
