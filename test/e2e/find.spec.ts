/** Finding anything from one box: by one key from any pane, to the words, by keys alone; and carrying what was found. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  beginAnotherProject,
  beginProcedure,
  beginProject,
  addStep,
  chooseInMenu,
  composer,
  entries,
  entryCount,
  openSample,
  pane,
  partOf,
  sourceRow,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'
import { dumpStore } from './support/wholeStore.ts'
import { selectWords } from './support/words.ts'

const box = (page: Page): Locator => page.getByRole('dialog', { name: 'Find', exact: true })
const field = (page: Page): Locator => box(page).getByRole('combobox', { name: 'Find anything' })
const rows = (page: Page): Locator => box(page).getByRole('option')
const active = (page: Page): Locator => box(page).getByRole('option', { selected: true })
const group = (page: Page, name: string): Locator => box(page).getByRole('group', { name })
const markWith = (within: Locator, words: string): Locator =>
  within.locator(':is(mark, .st-mark)', { hasText: words })

/** Opens the box by its key and types; ends when what was typed is answered. */
async function find(page: Page, words: string): Promise<void> {
  await page.keyboard.press('Alt+f')
  await expect(field(page)).toBeFocused()
  await page.keyboard.type(words)
  await expect(rows(page).first()).toBeVisible()
}

/** Brings the keyboard to a row by the arrows alone. */
async function goTo(page: Page, words: string | RegExp): Promise<void> {
  const wanted = rows(page).filter({ hasText: words }).first()
  await expect(wanted).toBeVisible()
  for (let n = 0; n < 60; n += 1) {
    if ((await wanted.getAttribute('aria-selected')) === 'true') return
    await page.keyboard.press('ArrowDown')
  }
  throw new Error('the row was not reached')
}

/** Begins to type in the first part of a step. */
async function typeIn(step: Locator): Promise<Locator> {
  await partOf(step, 'do').locator('.st-part-read').click()
  const editor = step.locator('.cm-content')
  await expect(editor).toBeFocused()
  return editor
}

test('from any pane one key, words and Enter lead to the words, in view and marked', async ({ program }) => {
  const { page } = program
  await openSample(page)

  // From the composer to a source.
  await composer(page).focus()
  await find(page, 'thing:source "adds one row"')
  await expect(markWith(active(page), 'adds one row').first()).toBeVisible()
  await page.keyboard.press('Enter')
  await expect(box(page)).toHaveCount(0)
  await expect(markWith(pane(page, 'Sources'), 'adds one row').first()).toBeInViewport()

  // From a text that is read to an entry; half a word is enough.
  await page.locator('.st-reading .cm-content').focus()
  await find(page, 'thing:entry four weeks without a fau')
  await page.keyboard.press('Enter')
  await expect(markWith(pane(page, 'Journal'), 'fault').first()).toBeInViewport()

  // Far down in a long one.
  await writeEntry(
    page,
    `Lines of the log.\n\n${'a line\n\n'.repeat(60)}the zenith\n\n${'a line\n\n'.repeat(60)}`,
  )
  await find(page, 'zenith')
  await page.keyboard.press('Enter')
  await expect(markWith(pane(page, 'Journal'), 'zenith')).toBeInViewport()

  // From an entry to a step, in a pane that is folded.
  await entries(page).last().focus()
  await pane(page, 'Procedure').getByRole('button', { name: /^Fold/ }).click()
  await entries(page).last().focus()
  await find(page, 'thing:step wipefs')
  await page.keyboard.press('Enter')
  await expect(markWith(pane(page, 'Procedure'), 'wipefs').first()).toBeInViewport()

  // From a step to a command.
  await steps(page).first().focus()
  await find(page, 'systemctl list-t')
  await expect(group(page, 'Commands').getByRole('option').first()).toHaveAttribute('aria-selected', 'true')
  await page.keyboard.press('Enter')
  await expect(markWith(pane(page, 'Journal'), thread.actionWords).first()).toBeInViewport()

  // From the list of sources to an act of the program.
  await pane(page, 'Sources').getByRole('button', { name: 'All sources' }).click()
  await sourceRow(page, 'House rules').first().focus()
  await find(page, 'coverage')
  await goTo(page, 'What is missing')
  await page.keyboard.press('Enter')
  await expect(page.getByRole('dialog', { name: 'What is missing' })).toBeVisible()
  await page.keyboard.press('Escape')

  // From wherever that leads to another project.
  await find(page, 'thing:step chrony iburst')
  await expect(active(page)).toContainText('One time for the whole network')
  await page.keyboard.press('Enter')
  await expect(page.locator('.st-topbar-where')).toContainText('One time for the whole network')
  await expect(markWith(pane(page, 'Procedure'), 'iburst').first()).toBeInViewport()
  expect(program.complaints).toEqual([])
})

test('Escape gives the keyboard back to a text that is being typed, as it was, and what was looked for is in no store', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const step = steps(page).nth(1)
  const editor = await typeIn(step)
  await page.keyboard.press('Control+End')
  await page.keyboard.type(' One')
  await find(page, 'logger quixotically')
  await page.keyboard.press('Escape')
  await expect(editor).toBeFocused()
  await page.keyboard.type(' two')
  await expect(editor).toContainText('One two')
  // Of the session it is known, and stands there to be typed over.
  await page.keyboard.press('Alt+f')
  await expect(field(page)).toHaveValue('logger quixotically')
  await page.keyboard.type('x')
  await expect(field(page)).toHaveValue('x')
  // A quick hand loses no letter: the keys go to the box at once.
  await page.keyboard.press('Escape')
  await expect(editor).toBeFocused()
  await page.evaluate(() => {
    const press = (key: string, init: KeyboardEventInit) =>
      document.activeElement!.dispatchEvent(
        new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...init }),
      )
    press('f', { code: 'KeyF', altKey: true })
    document.execCommand('insertText', false, 'disk')
  })
  await expect(field(page)).toHaveValue('disk')
  // Who goes on elsewhere has left both.
  await composer(page).click()
  await expect(box(page)).toHaveCount(0)
  await expect(step.locator('.cm-content')).toHaveCount(0)
  await expect(step).toContainText('One two')
  const stored = JSON.stringify(await dumpStore(page))
  expect(stored).toContain('One two')
  expect(stored).not.toContain('quixotically')
  expect(program.complaints).toEqual([])
})

test('a second key carries what was found to where the person is writing, with its link and one undo', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)

  // A source into the journal.
  const before = Number(await entryCount(page).innerText())
  await composer(page).focus()
  await find(page, 'thing:source "adds one row"')
  await page.keyboard.press('Control+Enter')
  await expect(entryCount(page)).toHaveText(String(before + 1))
  await expect(entries(page).last()).toContainText(thread.sourceWords)
  await expect(entries(page).last()).toContainText(thread.source)
  await expect(composer(page)).toBeFocused()
  await undoButton(page).click()
  await expect(entries(page).last()).toContainText('Withdrawn')

  // An entry does not go there, and that is said.
  await composer(page).focus()
  await find(page, 'thing:entry "four weeks without"')
  await page.keyboard.press('Control+Enter')
  await expect(page.locator('.st-notices')).toContainText('which takes words from sources')
  await page.keyboard.press('Escape')

  // It goes into a step that is being typed, at the cursor.
  const step = steps(page).nth(1)
  const editor = await typeIn(step)
  await page.keyboard.press('Control+End')
  const links = await step.locator('.st-from').count()
  await find(page, 'thing:entry "four weeks without"')
  await page.keyboard.press('Control+Enter')
  await expect(editor).toContainText('Four weeks without a fault')
  await expect(editor).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(step.locator('.st-from')).toHaveCount(links + 1)
  await undoButton(page).click()
  await expect(step).not.toContainText('Four weeks without a fault')
  await expect(step.locator('.st-from')).toHaveCount(links)

  // A step of one procedure goes into a step of another project's.
  await beginAnotherProject(page, 'The second rack')
  await beginProcedure(page, 'Set up the second rack')
  const own = await addStep(page, 'Begin here.')
  await own.focus()
  await find(page, 'thing:step wipefs')
  await page.keyboard.press('Control+Enter')
  await expect(own).toContainText('wipefs')
  await expect(own.locator('.st-from').first()).toBeVisible()

  // Where nobody writes nothing is carried; a place can be chosen.
  await page
    .locator('.st-topbar')
    .getByRole('button', { name: /^Theme/ })
    .focus()
  await find(page, 'thing:source "adds one row"')
  await page.keyboard.press('Control+Enter')
  const notice = page.locator('.st-notice', { hasText: 'You were not writing anywhere' })
  await notice.getByRole('button', { name: 'Choose a place' }).click()
  await expect(page.getByRole('dialog', { name: 'Carry' })).toContainText(thread.sourceWords)
  expect(program.complaints).toEqual([])
})

test('filters are read, offered, shown as chips and taken away again, by keys alone', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await find(page, 'logger kind:fi')
  await expect(active(page)).toHaveText('kind:fix')
  await page.keyboard.press('Enter')
  await expect(field(page)).toHaveValue('logger kind:fix ')
  const chips = box(page).getByRole('list', { name: 'Filters that were read' }).getByRole('listitem')
  await expect(chips).toHaveText(['Kind: fix'])
  await expect(group(page, 'Sources')).toHaveCount(0)
  await page.keyboard.type('-card in:weather last year')
  await expect(chips).toHaveCount(4)
  await expect(box(page).getByRole('status')).toContainText('Nothing found. Take a filter away')
  // As words, what was a time is looked for.
  await chips
    .last()
    .getByRole('button', { name: /^as words/ })
    .focus()
  await page.keyboard.press('Enter')
  await expect(chips).toHaveCount(3)
  await expect(field(page)).toBeFocused()
  await expect(rows(page).first()).toBeVisible()
  await chips
    .first()
    .getByRole('button', { name: /^Take away/ })
    .focus()
  await page.keyboard.press('Enter')
  await expect(field(page)).toHaveValue('logger -card in:weather last year')

  await field(page).fill('logger')
  const narrow = box(page).getByRole('group', { name: 'Show one sort alone' })
  await narrow.getByRole('button', { name: /^Entries/ }).focus()
  await page.keyboard.press('Enter')
  await expect(box(page).getByRole('group', { name: /^(Sources|Steps)/ })).toHaveCount(0)
  expect(await rows(page).count()).toBeGreaterThan(5)
  await narrow.getByRole('button', { name: 'All' }).click()

  // All that touched a path, in the order in which it happened.
  await field(page).fill('/etc/fstab')
  await box(page).getByRole('button', { name: 'All that touched it, in order' }).click()
  await expect(group(page, 'In the order of time')).toBeVisible()
  const texts = await rows(page).filter({ hasText: '2026' }).allInnerTexts()
  const times = texts.map((text) =>
    Date.parse(/\d{1,2} \w{3} \d{4}, \d\d:\d\d/.exec(text)![0].replace(',', '')),
  )
  expect(times.length).toBeGreaterThan(1)
  expect(times).toEqual([...times].sort((one, other) => one - other))
  expect(await violationsInBoth(page)).toEqual([])
  expect(program.complaints).toEqual([])
})

test('a question is answered above what was found, and Enter leads to the words', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await find(page, 'why does the logger stop again and again?')
  const answers = group(page, 'Out of the lab’s own words')
  await expect(answers).toBeVisible()
  await expect(answers.getByRole('option').first()).toHaveAttribute('aria-selected', 'true')
  const words = await answers.locator('.st-finder-answer .st-mark').first().innerText()
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Enter')
  await expect(box(page)).toHaveCount(0)
  await expect(markWith(page.locator('.st-pane'), words).first()).toBeInViewport()
  expect(program.complaints).toEqual([])
})

test('a withdrawn entry is found behind the others and marked as one, and Enter shows its words', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the weather logger')
  await writeEntry(page, 'The rain gauge of the north dome drips.')
  await writeEntry(page, 'The rain gauge of the north dome drips no more since it was cleaned.')
  const first = entries(page).first()
  await chooseInMenu(page, first.getByRole('button', { name: 'More for this entry' }), 'Withdraw')
  await expect(first).toContainText('Withdrawn')
  await find(page, 'rain gauge')
  await expect(rows(page)).toHaveCount(2)
  await expect(rows(page).first()).not.toContainText('Withdrawn')
  await expect(rows(page).last()).toContainText('Withdrawn')
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.type(' is:w')
  await expect(active(page)).toHaveText('is:withdrawn')
  await page.keyboard.press('Enter')
  await expect(rows(page)).toHaveCount(1)
  await page.keyboard.press('Control+Enter')
  await expect(page.locator('.st-notices')).toContainText('This entry was withdrawn. Bring it back first')
  await page.keyboard.press('Enter')
  await expect(markWith(first, 'gauge')).toBeInViewport()
  expect(program.complaints).toEqual([])
})

test('a parameter is found by its value, a version by what it says, and both are shown with their words marked', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
  const step = await addStep(page, 'Write 192.0.2.10 on the label.')
  await selectWords(page, partOf(step, 'do').locator('.st-part-read'), '192.0.2.10')
  const more = partOf(step, 'do').getByRole('button', { name: /^More for do of step/ })
  await chooseInMenu(page, more, 'Make a parameter of 192.0.2.10…')
  const form = page.getByRole('dialog', { name: 'Make a parameter' })
  await form.getByLabel('Name').fill('logger')
  await form.getByLabel('Help').fill('From the *plan* of the rack.')
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(form).toHaveCount(0)
  const procedure = pane(page, 'Procedure')
  await chooseInMenu(page, procedure.getByRole('button', { name: 'Add…' }), /^Version…/)
  const panel = page.getByRole('dialog', { name: 'Versions' })
  await panel.getByLabel('What it is, in one line').fill('As done at the north dome')
  await panel.getByRole('button', { name: 'Mark it as version 1' }).click()
  await expect(panel.getByRole('listitem')).toContainText('As done')

  await find(page, '192.0.2.10')
  await goTo(page, 'Parameter')
  await page.keyboard.press('Enter')
  const parameters = page.getByRole('region', { name: 'Parameters' })
  await expect(panel).toHaveCount(0)
  await expect(markWith(parameters, '192.0.2.10')).toBeInViewport()
  await expect(parameters.getByRole('button', { name: 'More for the parameter logger' })).toBeFocused()

  await find(page, 'plan rack')
  await goTo(page, 'Parameter')
  await page.keyboard.press('Enter')
  await expect(markWith(parameters, 'plan')).toBeInViewport()

  await find(page, 'north dome')
  await goTo(page, 'Version 1')
  await page.keyboard.press('Enter')
  await expect(markWith(panel, 'north')).toBeInViewport()
  expect(await violationsInBoth(page)).toEqual([])
  expect(program.complaints).toEqual([])
})
