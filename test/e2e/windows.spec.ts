/** Two windows on one lab: whatever is done in both at once, both show the same in the end and nothing is lost. */
import type { Page } from '@playwright/test'
import type { Launched } from './support/launch.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  carryEntry,
  composer,
  entries,
  entryWith,
  partOf,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

/** A second window on the same lab: by the menu in Electron, as a second tab in a browser. */
async function openSecond(program: Launched): Promise<Page> {
  const { shell, page, address } = program
  if (shell === null) {
    const second = await page.context().newPage()
    await second.goto(address)
    return second
  }
  const [second] = await Promise.all([
    shell.waitForEvent('window'),
    shell.evaluate(({ Menu, BrowserWindow }) => {
      const file = Menu.getApplicationMenu()?.items.find(({ label }) => label === 'File')
      const item = file?.submenu?.items.find(({ label }) => label === 'New window')
      item?.click(undefined, BrowserWindow.getAllWindows()[0])
    }),
  ])
  await second.waitForLoadState('load')
  return second
}

const doOf = (page: Page) => partOf(steps(page).first(), 'do')
const textOf = async (page: Page): Promise<string> =>
  (await doOf(page).locator('.st-part-text.st-prose, .cm-content').innerText()).replace(/\s+/g, '')

async function typeIn(page: Page, at: 'Control+Home' | 'Control+End'): Promise<void> {
  await doOf(page).locator('.st-part-text').click()
  await expect(doOf(page).locator('.cm-content')).toBeFocused()
  await page.keyboard.press(at)
}

/** Whether all signs of one text stand in another in their order. */
function isWithin(part: string, whole: string): boolean {
  let at = -1
  return [...part].every((sign) => (at = whole.indexOf(sign, at + 1)) >= 0)
}

test('two windows that write, carry and undo at once lose no character and agree in the end', async ({
  program,
}) => {
  const first = program.page
  const complaints: string[] = []
  await beginProject(first, 'Straighten the mast')
  await writeEntry(first, 'The turnbuckle turned freely')
  await beginProcedure(first, 'Straighten a mast')
  await addStep(first, '=MIDDLE=')
  const second = await openSecond(program)
  second.on('pageerror', (error) => complaints.push(String(error)))
  await expect(doOf(second)).toContainText('=MIDDLE=')

  // An entry of one appears in the other.
  await writeEntry(second, 'Written in the second window', 3)
  await expect(entryWith(first, 'Written in the second window')).toBeVisible()
  await writeEntry(first, 'Written in the first window', 6)
  await expect(entryWith(second, 'Written in the first window')).toBeVisible()
  await expect(entries(second)).toHaveCount(3)

  // The same part, both at once.
  await typeIn(first, 'Control+Home')
  await typeIn(second, 'Control+End')
  const [left, right] = ['abcdefghijklmnopqrstuvwxyz'.repeat(3), '0123456789'.repeat(8)]
  await Promise.all([first.keyboard.type(left, { delay: 45 }), second.keyboard.type(right, { delay: 45 })])
  for (const page of [first, second]) {
    await expect.poll(() => textOf(page), { timeout: 15_000 }).toContain(right.slice(-5))
    await expect.poll(() => textOf(page), { timeout: 15_000 }).toContain(left.slice(0, 5))
  }
  await expect
    .poll(async () => (await textOf(first)) === (await textOf(second)), { timeout: 15_000 })
    .toBe(true)
  const both = await textOf(first)
  expect(isWithin(left, both) && isWithin(right, both) && both.includes('=MIDDLE=')).toBe(true)
  expect(both.length).toBe(left.length + right.length + '=MIDDLE='.length)

  // While one goes on typing, the other carries onto the same part, and takes the carry back.
  const further = 'QRSTUVWXYZ'.repeat(7)
  const typing = second.keyboard.type(further, { delay: 60 })
  await first.keyboard.press('Escape')
  await carryEntry(first, entryWith(first, 'The turnbuckle turned freely'), 'Do of step 1')
  await expect(doOf(second)).toContainText('The turnbuckle turned freely')
  await expect(undoButton(first)).toHaveAccessibleName(/carry/)
  await undoButton(first).click()
  await expect(doOf(first)).not.toContainText('The turnbuckle turned freely')
  await typing
  await second.keyboard.press('Escape')
  for (const page of [first, second]) {
    await expect(doOf(page)).not.toContainText('The turnbuckle turned freely')
    await expect.poll(async () => isWithin(further, await textOf(page)), { timeout: 15_000 }).toBe(true)
    expect(isWithin(left, await textOf(page)) && isWithin(right, await textOf(page))).toBe(true)
    await expect(doOf(page).locator('.st-from')).toHaveCount(0)
  }
  expect(await textOf(first)).toBe(await textOf(second))

  // Each window has a composer of its own, and both drafts outlive the program.
  await composer(first).click()
  await first.keyboard.type('Half a thought here')
  await composer(second).click()
  await second.keyboard.type('Another half there')
  await expect(composer(first)).not.toContainText('Another half there')
  await first.waitForTimeout(1000)
  await program.killAndRestart()
  await expect(composer(program.page)).toContainText('Half a thought here')
  await expect(composer(program.page)).toContainText('Another half there')
  await expect(doOf(program.page)).toContainText('=MIDDLE=')
  expect(complaints).toEqual([])
  expect(program.complaints.filter((words) => !words.includes('crash'))).toEqual([])
})
