/** What the journal knows beside words: problems and their end, ticks, outcomes, places, times, files, machines, several projects. */
import type { Locator, Page } from '@playwright/test'
import type { Launched } from './support/launch.ts'
import { expect, test } from './support/test.ts'

const entries = (page: Page): Locator => page.locator('.st-entry')
const entryOf = (page: Page, words: string): Locator => entries(page).filter({ hasText: words })

async function begin({ page }: Launched, title = 'Move the mast UPS'): Promise<void> {
  await page.getByLabel('What do you want to do?').fill(title)
  await page.getByRole('button', { name: 'Start the project' }).click()
  await expect(page.getByRole('group', { name: 'New entry' })).toBeVisible()
}

/** @param keys the kind's own, for instance Alt+4 */
async function write(page: Page, keys: string, text: string): Promise<Locator> {
  const before = await entries(page).count()
  await page.keyboard.press(keys)
  await page.keyboard.insertText(text)
  await page.keyboard.press('Control+Enter')
  await expect(entries(page)).toHaveCount(before + 1)
  return entryOf(
    page,
    text
      .split('\n')
      .at(-1)!
      .replace(/^- \[.\] /, ''),
  )
}

async function fromJournalMenu(page: Page, name: RegExp): Promise<void> {
  await page.getByRole('button', { name: 'More for the journal' }).click()
  await page.getByRole('menuitem', { name }).click()
}

test('a problem stays in sight until its fix, and both lists say what ended it and how long it took', async ({
  program,
}) => {
  await begin(program)
  const { page } = program
  await page.clock.install()
  const problem = await write(page, 'Alt+4', 'The UPS does not answer.')
  const strip = page.getByRole('group', { name: 'Open problems' })
  await expect(strip).toContainText('1 open problem')
  await page.clock.fastForward('01:12:00')
  await expect(strip).toContainText('1 open problem, 1 h 12 min')
  await problem.getByRole('button', { name: 'Write its fix' }).click()
  await expect(page.getByRole('radio', { name: 'Fix' })).toHaveAttribute('aria-checked', 'true')
  await page.keyboard.insertText('Moved its cable to the other port.')
  await page.keyboard.press('Control+Enter')
  await expect(strip).toHaveCount(0)
  await expect(problem.getByText(/Ended by the fix of .*, after 1 h 12 min/)).toBeVisible()
  // A second problem is answered by a decision that was written before anybody saw that it did.
  await write(page, 'Alt+4', 'The log fills the disk.')
  const decision = await write(page, 'Alt+6', 'Logs are kept for a week.')
  await decision.getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /Answers the problem of/ }).click()
  await expect(strip).toHaveCount(0)
  await fromJournalMenu(page, /Problems/)
  const list = page.getByRole('dialog', { name: 'Problems' })
  await expect(list.getByRole('heading', { name: 'Ended, 2' })).toBeVisible()
  await expect(list.getByText(/took 1 h 12 min/)).toBeVisible()
  await list.getByRole('button', { name: 'All of the lab' }).click()
  await list.getByRole('button', { name: 'Moved its cable' }).click()
  await expect(entryOf(page, 'Moved its cable')).toHaveClass(/st-entry--chosen/)
  expect(program.complaints).toEqual([])
})

test('items of a list are ticked one by one, by pointer and by key; undo, an amendment and a restart keep it right', async ({
  program,
}) => {
  await begin(program)
  const { page } = program
  await write(page, 'Alt+8', 'Before the mast:\n\n- [ ] helmet on\n  - [x] strap closed\n- [ ] second person')
  const box = (name: string): Locator => program.page.getByRole('checkbox', { name })
  await expect(box('strap closed')).toBeChecked()
  await box('helmet on').click()
  await expect(box('helmet on')).toBeChecked()
  await box('second person').focus()
  await page.keyboard.press('Space')
  await expect(box('second person')).toBeChecked()
  await page.getByRole('button', { name: /^Undo: tick an item/ }).click()
  await expect(box('second person')).not.toBeChecked()
  await entryOf(page, 'helmet on').getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: 'Amend' }).click()
  await page.keyboard.press('Control+Home')
  await page.keyboard.insertText('- [ ] wind under 8 m/s\n\n')
  await page.keyboard.press('Control+Enter')
  await expect(box('wind under 8 m/s')).not.toBeChecked()
  await expect(box('helmet on')).toBeChecked()
  await program.restart()
  await expect(box('helmet on')).toBeChecked()
  await expect(box('second person')).not.toBeChecked()
  expect(program.complaints).toEqual([])
})

test('an action has its outcome by one key, its place until that is changed, and a late entry both its times', async ({
  program,
}) => {
  await begin(program)
  const { page } = program
  await page.getByRole('button', { name: 'Set the place' }).click()
  await page.getByLabel('Machine', { exact: true }).fill('gate')
  await page.getByLabel('User').fill('root')
  await page.getByRole('button', { name: 'Keep the place' }).click()
  await page.keyboard.press('Alt+1')
  await page.keyboard.insertText('`upsc mast`')
  await page.keyboard.press('Control+Enter')
  const action = entryOf(page, 'upsc mast')
  await expect(action.getByRole('button', { name: 'unknown: outcome' })).toBeVisible()
  await action.focus()
  await page.keyboard.press('f')
  await expect(action.getByRole('button', { name: 'failed: outcome' })).toBeVisible()
  await expect(action.getByRole('button', { name: /gate, root: where it happened/ })).toBeVisible()
  const second = await write(page, 'Alt+1', 'upsdrvctl start')
  await expect(second.getByRole('button', { name: /where it happened/ })).toHaveCount(0)
  await page.getByRole('button', { name: /Now: when it happens/ }).click()
  await page.getByLabel('Day').fill('2026-03-01')
  await page.getByLabel(/^Time/).fill('02:30:00')
  await page.getByRole('button', { name: 'Keep the time' }).click()
  const late = await write(page, 'Alt+3', 'The lights flickered.')
  await expect(late.locator('time')).toHaveText('02:30')
  await expect(late.getByText(/^written \d{4}-/)).toBeVisible()
  await expect(entries(page).first()).toContainText('The lights flickered.')
  await action.focus()
  await page.keyboard.press('a')
  await page.keyboard.insertText('Its cable was loose.')
  await page.keyboard.press('Control+Enter')
  const added = page.getByRole('article', { name: /added to action/ })
  await expect(added).toContainText('Its cable was loose.')
  await page.getByRole('button', { name: 'Filter the journal' }).click()
  await page.getByLabel('Outcome of actions').selectOption('failed')
  await expect(entries(page)).toHaveCount(1)
  await page.getByRole('button', { name: 'Show all' }).first().click()
  await fromJournalMenu(page, /Machines/)
  const machines = page.getByRole('dialog', { name: 'Machines' })
  await machines.getByRole('button', { name: /^gate, 4 entries/ }).click()
  const gate = page.getByRole('dialog', { name: 'gate' })
  await gate.getByLabel('Addresses').fill('192.0.2.1')
  await gate.getByLabel('Name', { exact: true }).focus()
  await expect(gate.getByText('What happened on it, 4')).toBeVisible()
  await program.restart()
  await fromJournalMenu(program.page, /Machines/)
  await expect(
    program.page.getByRole('dialog', { name: 'Machines' }).getByText('192.0.2.1, 4 entries'),
  ).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('two states of a file show the difference as diff -u gives it', async ({ program }) => {
  await begin(program)
  const { page } = program
  const file = async (text: string): Promise<void> => {
    await page.keyboard.press('Alt+7')
    await page.getByRole('button', { name: /Which file/ }).click()
    await page.getByLabel('Path').fill('/etc/nut/ups.conf')
    await page.getByLabel('Mode').fill('rw-r-----')
    await page.getByRole('button', { name: 'Keep', exact: true }).click()
    await page.keyboard.insertText(text)
    await page.keyboard.press('Control+Enter')
    await expect(entryOf(page, text.split('\n').at(-1)!)).toBeVisible()
  }
  await file('[mast]\ndriver = usb')
  await file('[mast]\ndriver = usbhid-ups')
  const newer = page.getByRole('article', { name: /^File/ }).filter({ hasText: 'usbhid-ups' })
  await newer.getByRole('button', { name: '2 states' }).click()
  const panel = page.getByRole('dialog', { name: '/etc/nut/ups.conf' })
  await expect(panel.getByLabel('The difference')).toContainText(
    '@@ -1,2 +1,2 @@\n [mast]\n-driver = usb\n+driver = usbhid-ups',
  )
  await panel.getByLabel('Against').selectOption({ label: 'nothing: show the whole' })
  await expect(panel.locator('pre')).toHaveText('[mast]\ndriver = usbhid-ups\n')
  expect(program.complaints).toEqual([])
})

test('several projects are open; switching keeps the draft of each, and folders sort them', async ({
  program,
}) => {
  await begin(program, 'Mast')
  const { page } = program
  const projects = page.getByRole('button', { name: 'Mast', exact: true }).first()
  await projects.click()
  await page.getByRole('menuitem', { name: /Title, aim, status and folder/ }).click()
  await page.getByRole('combobox', { name: 'Folder' }).fill('Dome / Power')
  await page.getByRole('button', { name: 'Keep', exact: true }).click()
  await expect(page.getByRole('dialog')).toHaveCount(0)
  await page.keyboard.press('Alt+3')
  await page.keyboard.insertText('half a sentence of the mast')
  await projects.click()
  await expect(page.getByText('Dome / Power')).toBeVisible()
  await page.getByRole('menuitem', { name: 'Start another project' }).click()
  await page.getByLabel('What do you want to do?').fill('Rack')
  await page.getByRole('button', { name: 'Start the project' }).click()
  await expect(page.getByRole('dialog')).toHaveCount(0)
  const open = page.getByRole('navigation', { name: 'Open projects' })
  await expect(open.getByRole('button', { name: 'Rack', exact: true })).toHaveAttribute(
    'aria-current',
    'page',
  )
  await page.keyboard.press('Alt+J')
  await page.keyboard.insertText('words of the rack')
  await page.keyboard.press('Alt+PageUp')
  await expect(page.getByRole('textbox', { name: 'New entry' })).toContainText('half a sentence of the mast')
  await open.getByRole('button', { name: 'Rack', exact: true }).click()
  await expect(page.getByRole('textbox', { name: 'New entry' })).toContainText('words of the rack')
  await program.restart()
  const again = program.page.getByRole('navigation', { name: 'Open projects' })
  await expect(again.getByRole('button', { name: 'Mast', exact: true })).toBeVisible()
  await again.getByRole('button', { name: 'Put Mast away' }).click()
  await expect(again).toHaveCount(0)
  expect(program.complaints).toEqual([])
})
