/** A value entered for a secret parameter is in no byte of the profile folder, also when the program is killed right then. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { searchFolder } from '../support/leveldb/search.ts'
import { addStep, beginProcedure, beginProject, chooseInMenu, pane, writeEntry } from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { killAllOf, pidsOf } from './support/wholeStore.ts'

/** Of the same kind as the secret, and stored: in an entry, and as the default of a parameter. */
const IN_AN_ENTRY = 'Merlin4Spindle9Quartz'
const AS_A_DEFAULT = 'Plover8Gasket2Lantern'
const SECRET = 'Quillon7Marten3Sprocket'

async function addParameter(page: Page, name: string, type: string, preset: string | null): Promise<void> {
  await chooseInMenu(page, pane(page, 'Procedure').getByRole('button', { name: 'Add…' }), /^Parameter…/)
  const form = page.getByRole('dialog', { name: 'Add a parameter' })
  await form.getByLabel('Name').fill(name)
  await form.getByLabel('Type').selectOption(type)
  if (preset !== null) await form.getByLabel('Default').fill(preset)
  await form.getByRole('button', { name: 'Add it' }).click()
  await expect(form).toHaveCount(0)
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms))

async function endAll(profile: string): Promise<void> {
  for (let quiet = 0; quiet < 5; await pause(50)) {
    quiet = pidsOf(profile).length === 0 ? quiet + 1 : 0
    killAllOf(profile)
  }
}

const filesWith = (profile: string, words: string): string[] =>
  searchFolder(profile, words).hits.map(({ file }) => file)

test('what is entered for a secret is in no byte of the profile, while the same kind of value that was stored is found', async ({
  start,
}) => {
  const profile = mkdtempSync(join(tmpdir(), 'stillroom-secret-'))
  const program = await start({ profile })
  const { page } = program
  await beginProject(page, 'Move the weather logger')
  await writeEntry(page, `The console's login is ${IN_AN_ENTRY}`)
  await beginProcedure(page, 'Bring a logger into the rack')
  await addStep(page, '```sh\nlogin ⁅user⁆ ⁅pass-phrase⁆\n```')
  await addParameter(page, 'user', 'free text', AS_A_DEFAULT)
  await addParameter(page, 'pass-phrase', 'secret', null)
  await program.restart()
  // The search would find it: what was stored is there.
  expect(filesWith(profile, IN_AN_ENTRY).length).toBeGreaterThan(0)
  expect(filesWith(profile, AS_A_DEFAULT).length).toBeGreaterThan(0)

  await program.page.getByRole('button', { name: 'Made for another host…' }).click()
  const panel = program.page.getByRole('dialog', { name: 'Made for another host' })
  const field = panel.getByLabel('pass-phrase')
  await expect(field).toHaveAttribute('type', 'password')
  await field.pressSequentially(SECRET)
  await expect(panel.getByRole('status')).toHaveText('Every value is there.')
  await expect(panel.locator('.st-placeholder--given')).toHaveText('⁅pass-phrase⁆')
  expect(await program.page.locator('body').innerText()).not.toContain(SECRET)
  expect(await program.page.title()).not.toContain(SECRET)
  // Also where it goes into what is copied, and something else is written down meanwhile.
  await panel.getByRole('checkbox').check()
  await panel.getByRole('button', { name: 'Copy all' }).click()
  await expect(program.page.locator('.st-notices')).toContainText('Copied.')
  await writeEntry(program.page, 'The values are entered')
  // Longer than a draft, a revision and what is kept of places wait.
  await pause(4000)
  await endAll(profile)
  expect(
    filesWith(profile, 'The values are entered').length,
    'what was written last is there',
  ).toBeGreaterThan(0)
  expect(filesWith(profile, SECRET)).toEqual([])

  await program.close().catch(() => undefined)
  const again = await start({ profile })
  await again.page.getByRole('button', { name: 'Made for another host…' }).click()
  await expect(again.page.getByLabel('pass-phrase', { exact: true })).toHaveValue('')
  await again.close()
  expect(filesWith(profile, SECRET)).toEqual([])
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
})
