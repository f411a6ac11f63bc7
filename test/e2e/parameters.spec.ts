/** Values of a procedure become parameters, everywhere by one act, and the procedure is made for another host. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  chooseInMenu,
  pane,
  partOf,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const ADDRESS = '192.0.2.10'

async function beginLogger(page: Page): Promise<void> {
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
  await addStep(page, `Ask the new address:\n\n\`\`\`sh\nping -c 3 ${ADDRESS}\n\`\`\``)
  await addStep(page, `\`\`\`sh\nssh root@${ADDRESS}\nscp clock.conf 192.0.2.101:/etc/\n\`\`\``)
  await addStep(page, `Write ${ADDRESS} on the label.`)
}

const doOf = (page: Page, n: number): Locator => partOf(steps(page).nth(n), 'do').locator('.st-part-read')

/** Selects a value as it is read, and makes a parameter of it by the part's menu. */
async function openForm(page: Page, n: number, value: string, kind = 'do'): Promise<Locator> {
  await selectWords(page, partOf(steps(page).nth(n), kind).locator('.st-part-read'), value)
  await chooseInMenu(
    page,
    partOf(steps(page).nth(n), kind).getByRole('button', { name: new RegExp(`^More for ${kind} of step`) }),
    `Make a parameter of ${value}…`,
  )
  return page.getByRole('dialog', { name: 'Make a parameter' })
}

const block = (page: Page): Locator => page.getByRole('region', { name: 'Parameters' })

test('a selected value becomes a parameter in every place where it stands alone, by one act with one undo', async ({
  program,
}) => {
  const { page } = program
  await beginLogger(page)
  const form = await openForm(page, 0, ADDRESS)
  await expect(form.getByLabel('Type')).toHaveValue('IPv4 address')
  await expect(form.getByLabel('Name')).toHaveValue('address')
  const places = form.getByRole('checkbox')
  await expect(places).toHaveCount(4)
  expect(await places.evaluateAll((all) => all.map((one) => (one as HTMLInputElement).checked))).toEqual([
    true,
    true,
    false,
    true,
  ])
  await expect(form.getByRole('status')).toHaveText('3 of 4')
  await form.getByLabel('Name').fill('no name')
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(form.getByLabel('Name')).toHaveAccessibleDescription(/“no-name” would do/)
  await form.getByLabel('Name').fill('logger')
  await form.getByLabel('Help').fill('From the plan of the *rack*.')
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(form).toHaveCount(0)
  await expect(doOf(page, 0)).toContainText('ping -c 3 ⁅logger⁆')
  await expect(doOf(page, 1)).toContainText('root@⁅logger⁆')
  await expect(doOf(page, 1)).toContainText('192.0.2.101')
  await expect(doOf(page, 2).locator('.st-placeholder')).toHaveAttribute('title', /From the plan of the rack/)
  await expect(block(page)).toContainText('IPv4 address, for instance 192.0.2.10')
  await undoButton(page).click()
  await expect(doOf(page, 1)).toContainText(`root@${ADDRESS}`)
  await expect(block(page)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('a parameter is made by a key while typing, renamed everywhere, and its value put back', async ({
  program,
}) => {
  const { page } = program
  await beginLogger(page)
  await doOf(page, 2).click()
  const editor = partOf(steps(page).nth(2), 'do').locator('.cm-content')
  await expect(editor).toBeFocused()
  await page.keyboard.press('Home')
  for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowRight')
  for (let i = 0; i < ADDRESS.length; i++) await page.keyboard.press('Shift+ArrowRight')
  await page.keyboard.press('Alt+m')
  const form = page.getByRole('dialog', { name: 'Make a parameter' })
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(form).toHaveCount(0)
  await expect(doOf(page, 0)).toContainText('⁅address⁆')

  await doOf(page, 0).click()
  await expect(steps(page).nth(0).locator('.cm-content .st-placeholder')).toHaveText('⁅address⁆')
  await page.keyboard.press('Escape')
  const more = block(page).getByRole('button', { name: 'More for the parameter address' })
  await chooseInMenu(page, more, 'Change or rename…')
  const change = page.getByRole('dialog', { name: 'Change “address”' })
  await change.getByLabel('Name').fill('logger')
  await change.getByLabel('Default').fill('192.0.2.300')
  await change.getByRole('button', { name: 'Keep' }).click()
  await expect(change.getByLabel('Default')).toHaveAttribute('aria-invalid', 'true')
  await change.getByLabel('Default').fill('192.0.2.30')
  await change.getByRole('button', { name: 'Keep' }).click()
  await expect(change).toHaveCount(0)
  await expect(doOf(page, 1)).toContainText('root@⁅logger⁆')
  await chooseInMenu(
    page,
    block(page).getByRole('button', { name: 'More for the parameter logger' }),
    'Remove, with its value put back',
  )
  await expect(block(page)).toHaveCount(0)
  await expect(doOf(page, 1)).toContainText(`root@${ADDRESS}`)
  expect(program.complaints).toEqual([])
})

test('made for another host: values are checked as they are typed, defaults are there, what is missing stays marked', async ({
  program,
}) => {
  const { page } = program
  await beginLogger(page)
  const form = await openForm(page, 0, ADDRESS)
  await form.getByLabel('Default').fill('192.0.2.44')
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(form).toHaveCount(0)
  const second = await openForm(page, 1, 'clock.conf')
  await second.getByLabel('Name').fill('settings')
  await second.getByRole('button', { name: 'Make it a parameter' }).click()
  await expect(second).toHaveCount(0)
  await block(page).getByRole('button', { name: 'Made for another host…' }).click()
  const panel = page.getByRole('dialog', { name: 'Made for another host' })
  await expect(panel.getByLabel('address')).toHaveValue('192.0.2.44')
  await expect(panel.getByRole('status')).toContainText('“settings”')
  const filled = panel.getByRole('article')
  await expect(filled).toContainText('ssh root@192.0.2.44')
  await expect(filled.locator('.st-placeholder--missing')).toHaveText('⁅settings⁆')
  await panel.getByLabel('address').fill('192.0.2.256')
  await expect(panel.getByLabel('address')).toHaveAttribute('aria-invalid', 'true')
  await expect(filled).not.toContainText('192.0.2.256')
  await panel.getByLabel('address').fill('198.51.100.7')
  await panel.getByLabel('settings').fill('rack.conf')
  await expect(panel.getByRole('status')).toHaveText('Every value is there.')
  await expect(filled).toContainText('scp rack.conf 192.0.2.101:/etc/')
  await expect(filled.locator('.st-placeholder')).toHaveCount(0)
  expect(await violationsInBoth(page)).toEqual([])
  // The procedure itself is as it was.
  await panel.getByRole('button', { name: 'Close made for another host' }).click()
  await expect(doOf(page, 1)).toContainText('root@⁅address⁆')
  expect(program.complaints).toEqual([])
})

test('making a secret of words that stand in the journal offers to strike them out there', async ({
  program,
}) => {
  const { page } = program
  await beginLogger(page)
  const entry = await writeEntry(page, 'Logged in with Quillon7Marten')
  await addStep(page, 'Log in with Quillon7Marten at the console.')
  const form = await openForm(page, 3, 'Quillon7Marten')
  await form.getByLabel('Type').selectOption('secret')
  await expect(form.getByLabel('Example')).toHaveCount(0)
  await form.getByRole('button', { name: 'Make it a parameter' }).click()
  const left = page.getByRole('dialog', { name: 'The secret still stands elsewhere' })
  await expect(left).toContainText('It stands in 1 entry of this project’s journal, too.')
  expect(await violationsInBoth(page)).toEqual([])
  await left.getByRole('button', { name: 'Strike it out…' }).click()
  const strike = page.getByRole('dialog', { name: 'Strike out' })
  await strike.getByRole('button', { name: 'Strike out…' }).click()
  await strike.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(strike).toHaveCount(0)
  await expect(entry).not.toContainText('Quillon7Marten')
  await expect(doOf(page, 3)).toContainText('Log in with ⁅secret⁆ at the console.')
  await expect(pane(page, 'Procedure')).not.toContainText('Quillon7Marten')
  expect(program.complaints).toEqual([])
})
