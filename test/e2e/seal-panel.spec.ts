/** The seal's panel: by keys alone, what it says when something was changed past the program, and when the store cannot be rewritten. */
import type { Locator, Page } from '@playwright/test'
import { violationsIn } from './support/axe.ts'
import { beginProject, entryWith, writeEntry } from './support/panes.ts'
import { expect, test } from './support/test.ts'

/** Opens the panel with the keyboard. */
async function openByKeys(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'More for the journal' }).focus()
  await page.keyboard.press('Enter')
  await page.getByRole('menuitem', { name: /The seal/ }).focus()
  await page.keyboard.press('Enter')
  const panel = page.getByRole('dialog', { name: 'The seal' })
  await expect(panel.getByRole('button', { name: 'Check the seal' })).toBeFocused()
  return panel
}

async function tabTo(page: Page, wanted: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let presses = 0; presses < 30; presses++) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press(key)
  }
  await expect(wanted).toBeFocused()
}

/** Changes an entry in the database, as only something else than the program would. */
async function changeKind(page: Page, id: string): Promise<void> {
  await page.evaluate(async (key) => {
    const { name = '' } = (await indexedDB.databases()).find((one) => one.name?.includes('-lab-')) ?? {}
    const settled = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((resolve) => (request.onsuccess = () => resolve(request.result)))
    const database = await settled(indexedDB.open(name))
    const table = database.transaction('entries', 'readwrite').objectStore('entries')
    const entry = (await settled(table.get(key))) as object
    await settled(table.put({ ...entry, kind: 'decision' }))
    database.close()
  }, id)
}

test('the seal is checked, its head noted, a break named and led to, all by keys', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Grease the dome wheels')
  const first = await writeEntry(page, 'Jacked the north wheel up')
  await writeEntry(page, 'The bearing runs dry')
  const panel = await openByKeys(page)
  await page.keyboard.press('Enter')
  await expect(panel.getByRole('status')).toContainText('All 2 seals hold')
  await tabTo(page, panel.getByRole('button', { name: 'Note the head' }))
  await page.keyboard.press('Enter')
  await expect(page.locator('.st-notices')).toContainText('Copied the head')
  expect(await violationsIn(page)).toEqual([])

  // A head that was noted on paper and that this journal never had.
  await tabTo(page, panel.getByLabel('A head that was noted earlier'))
  await page.keyboard.type(`2 ${'ab'.repeat(32)}`)
  await page.keyboard.press('Enter')
  await tabTo(page, panel.getByRole('button', { name: 'Check the seal' }), 'Shift+Tab')
  await page.keyboard.press('Enter')
  await expect(panel.getByRole('alert')).toContainText('Seal 2 is not the one that was noted')
  expect(await violationsIn(page)).toEqual([])

  await changeKind(page, (await first.getAttribute('data-entry'))!)
  await page.keyboard.press('Enter')
  await expect(panel.getByRole('alert')).toContainText(
    'Seal 1 was put on an entry that says something else now',
  )
  await tabTo(page, panel.getByRole('button', { name: 'Go to that entry' }))
  await page.keyboard.press('Enter')
  await expect(entryWith(page, 'Jacked the north wheel up')).toBeInViewport()
  expect(program.complaints).toEqual([])
})

test('where the store cannot be rewritten, a sentence says why and how to go on, and nothing is touched', async ({
  program,
}) => {
  const { page, shell } = program
  await beginProject(page, 'Grease the dome wheels')
  await writeEntry(page, 'Jacked the north wheel up')
  if (shell) {
    const opened = shell.waitForEvent('window')
    await page.evaluate('stillroomHost.newWindow()')
    await (await opened).waitForLoadState('load')
  }
  const panel = await openByKeys(page)
  await tabTo(page, panel.getByRole('button', { name: 'Rewrite the store…' }))
  await page.keyboard.press('Enter')
  await expect(panel.getByRole('button', { name: 'Yes, rewrite it now' })).toBeFocused()
  expect(await violationsIn(page)).toEqual([])
  await page.keyboard.press('Enter')
  await expect(panel.getByRole('alert')).toContainText(
    shell ? 'Close the other windows and try again.' : 'save every lab to a file, clear the site’s data',
  )
  expect(await violationsIn(page)).toEqual([])
  await expect(entryWith(page, 'Jacked the north wheel up')).toBeVisible()
  expect(program.complaints).toEqual([])
})
