/** Scrollback that is pasted in one piece: offered as commands and outputs, and taken whole, in part, or left as it is. */
import type { Locator, Page } from '@playwright/test'
import { paste } from './support/arriving.ts'
import { beginProject, composer, entries, entryWith, undoButton } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const scrollback = [
  'mira@weather:~$ systemctl is-active logger',
  'inactive',
  'mira@weather:~$ cd /srv/logger',
  'mira@weather:/srv/logger$ python3 check.py 6',
  '2 of 4',
  'gusts: 9',
  'mira@weather:/srv/logger$ ',
].join('\n')

async function pasteIt(page: Page): Promise<Locator> {
  await composer(page).click()
  await paste(page, { 'text/plain': scrollback })
  await page.getByRole('button', { name: 'Make entries of it' }).click()
  return page.getByRole('region', { name: 'Pasted text' })
}

test('pasted scrollback is offered as commands with their outputs and places, and taken whole', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Mend the logger')
  const offered = await pasteIt(page)
  await expect(offered.locator('.st-offer-command')).toHaveText([
    'systemctl is-active logger',
    'cd /srv/logger',
    'python3 check.py 6',
  ])
  await expect(offered.getByRole('listitem').nth(2)).toContainText('/srv/logger')
  await expect(composer(page)).toContainText('2 of 4')
  await offered.getByRole('button', { name: 'Take all' }).click()
  await expect(offered).toHaveCount(0)
  await expect(entries(page)).toHaveCount(5)
  const kinds = await entries(page).evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')))
  expect(kinds.map((label) => label?.split(/[\s,:]/)[0])).toEqual([
    'Action',
    'Output',
    'Action',
    'Action',
    'Output',
  ])
  await expect(entryWith(page, 'gusts: 9')).toContainText('2 of 4')
  await expect(entryWith(page, 'gusts: 9')).not.toContainText('$')
  await expect(composer(page)).not.toContainText('2 of 4')
  expect(program.complaints).toEqual([])
})

test('pasted scrollback is taken in part, and stays where it was pasted until the rest is decided', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Mend the logger')
  const offered = await pasteIt(page)
  await offered.getByRole('button', { name: /^python3 check\.py 6: choose/ }).click()
  await offered.getByRole('button', { name: 'Take 1 chosen' }).click()
  await expect(entries(page)).toHaveCount(2)
  await expect(composer(page)).toContainText('systemctl is-active logger')
  await expect(offered.getByRole('listitem')).toHaveCount(2)
  await offered.getByRole('button', { name: 'Fold all away' }).click()
  await expect(offered).toHaveCount(0)
  await expect(entries(page)).toHaveCount(2)
  await expect(composer(page)).not.toContainText('systemctl')
  await page.keyboard.press('Escape')
  await undoButton(page).click()
  await expect(page.locator('.st-entry').filter({ hasText: 'withdrawn' })).toHaveCount(2)
  expect(program.complaints).toEqual([])
})

test('pasted scrollback that is left as one text is written as it was pasted', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Mend the logger')
  await composer(page).click()
  await paste(page, { 'text/plain': scrollback })
  await expect(page.getByRole('button', { name: 'Make entries of it' })).toBeVisible()
  await composer(page).press('Control+Enter')
  await expect(entries(page)).toHaveCount(1)
  await expect(entries(page).first()).toContainText('$ systemctl is-active logger')
  await expect(entries(page).first()).toContainText('gusts: 9')
  expect(program.complaints).toEqual([])
})
