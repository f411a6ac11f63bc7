/** A password that was pasted by mistake: out of every pane and every record, for good. */
import { readFileSync } from 'node:fs'
import { strFromU8, unzipSync } from 'fflate'
import type { Page } from '@playwright/test'
import { paste } from './support/arriving.ts'
import type { Launched } from './support/launch.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  carryEntry,
  chooseInMenu,
  composer,
  dismissNotices,
  entryWith,
  pane,
  partOf,
  reader,
  sourceRow,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const secret = 'Kestrel-over-41-masts!'

/** The files of the whole lab that hold the secret, or any long piece of it. */
async function filesWithSecret(program: Launched): Promise<string[]> {
  const path = await catchSavedFile(program, () =>
    chooseInMenu(
      program.page,
      program.page.locator('.st-topbar-where').getByRole('button').first(),
      'Save the whole lab to a file',
    ),
  )
  const files = Object.entries(unzipSync(readFileSync(path)))
  expect(files.length).toBeGreaterThan(10)
  return files
    .filter(
      ([, bytes]) =>
        /Kestrel-over|41-masts!/.test(strFromU8(bytes)) || strFromU8(bytes, true).includes(secret),
    )
    .map(([name]) => name)
}

async function strike(page: Page): Promise<void> {
  const entry = entryWith(page, 'mosquitto')
  await selectWords(page, entry, secret)
  await entry.getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /Strike out…/ }).click()
  const dialog = page.getByRole('dialog', { name: 'Strike out' })
  await expect(dialog.locator('pre')).toHaveText(secret)
  await expect(dialog).toContainText('It stands in 3 texts of this lab.')
  await expect(dialog).toContainText('change it wherever it is used')
  // It does not stand in the way of the journal.
  await composer(page).click()
  await page.keyboard.press('Control+End')
  await page.keyboard.type(' and more')
  await dialog.getByLabel('Reason').fill('A password, pasted by mistake')
  await dialog.getByRole('button', { name: 'Strike out…' }).click()
  await dialog.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(dialog).toHaveCount(0)
}

test('a password is struck out of entry, step, source, drafts, earlier wordings and the lab file, and no undo brings it back', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Readings for the public page')
  await page.locator('.st-sources').focus()
  await paste(page, {
    'text/html': `<h1>Broker page</h1><p>User mast, password <b>${secret}</b>, port 8883.</p>`,
    'text/plain': `Broker page ${secret}`,
  })
  await expect(sourceRow(page, 'Broker page')).toBeVisible()
  const entry = await writeEntry(
    page,
    `Tried \`mosquitto_pub -u mast -P ${secret} -t wind -m 3\`: it answered`,
  )
  await beginProcedure(page, 'Publish the readings')
  await addStep(page, 'Look at the broker first')
  await carryEntry(page, entry, 'New step after 1')
  await expect(steps(page).nth(1)).toContainText(secret)
  await expect(steps(page).nth(1).getByText('quotes')).toBeVisible()
  // An amendment, so that it stands in an earlier wording too.
  await chooseInMenu(page, entry.getByRole('button', { name: 'More for this entry' }), 'Amend')
  await expect(entry.locator('.cm-content')).toBeFocused()
  await page.keyboard.press('Control+End')
  await page.keyboard.type(', at once')
  await page.keyboard.press('Control+Enter')
  await expect(entry).toContainText('at once')
  // And in what is being typed.
  await composer(page).click()
  await page.keyboard.type(`The password ${secret} works`)
  await page.waitForTimeout(700)
  await dismissNotices(page)
  // The control: before, the file does hold it, in several places.
  expect((await filesWithSecret(program)).length).toBeGreaterThan(4)
  const time = await entry.locator('time').innerText()
  await dismissNotices(page)

  await strike(page)
  await expect(page.locator('.st-notices')).toContainText('Struck out in the whole lab.')
  // The bytes on the disk: the way to be rid of them is offered at once.
  await page.locator('.st-notices').getByRole('button', { name: 'Rewrite the store…' }).click()
  const seal = page.getByRole('dialog', { name: 'The seal' })
  await expect(seal.getByRole('button', { name: 'Rewrite the store…' })).toBeVisible()
  await seal.getByRole('button', { name: 'Close the seal' }).click()
  const body = page.locator('body')
  await expect(body).not.toContainText(secret)
  await sourceRow(page, 'Broker page').click()
  await expect(reader(page)).toContainText('port 8883')
  await expect(body).not.toContainText('Kestrel')

  // The place stays: the entry with its time, the step with its link, the rest of the words, what was being typed.
  await expect(entryWith(page, 'mosquitto_pub').locator('time')).toHaveText(time)
  await expect(entryWith(page, 'mosquitto_pub')).toContainText('at once')
  await expect(
    partOf(steps(page).nth(1), 'why')
      .or(partOf(steps(page).nth(1), 'do'))
      .first(),
  ).toContainText('mosquitto_pub')
  await expect(steps(page).nth(1).locator('.st-from')).toHaveCount(1)
  await expect(composer(page)).toContainText(/The password .* works and more/)
  await page.waitForTimeout(700)
  await dismissNotices(page)
  expect(await filesWithSecret(program)).toEqual([])

  // Earlier wordings, undo as far as it goes, redo, a restart.
  await entryWith(page, 'mosquitto_pub')
    .getByRole('button', { name: /^Amended/ })
    .click()
  await expect(page.getByRole('region', { name: 'What stood before' })).toBeVisible()
  await expect(body).not.toContainText('Kestrel')
  for (let presses = 0; presses < 12 && (await undoButton(page).isEnabled()); presses++) {
    await undoButton(page).click()
    await page.waitForTimeout(150)
    await expect(body).not.toContainText('Kestrel')
  }
  await composer(page).click()
  for (let presses = 0; presses < 5; presses++) await page.keyboard.press('Control+z')
  await expect(body).not.toContainText('Kestrel')
  await dismissNotices(page)
  expect(await filesWithSecret(program)).toEqual([])
  await program.restart()
  await expect(pane(program.page, 'Journal')).toBeVisible()
  await expect(program.page.locator('body')).not.toContainText('Kestrel')
  expect(program.complaints).toEqual([])
})
