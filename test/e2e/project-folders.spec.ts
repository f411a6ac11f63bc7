/** Folders for projects are made, named, moved and removed by hand, and undo takes each back. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  beginAnotherProject,
  beginProject,
  chooseInMenu,
  dismissNotices,
  projectButton,
  undoButton,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const panel = (page: Page): Locator => page.getByRole('dialog', { name: 'Projects and folders' })

async function openPanel(page: Page): Promise<void> {
  const projects = projectButton(page)
  await chooseInMenu(page, projects, 'Projects and folders')
  await expect(panel(page)).toBeVisible()
}

async function makeFolder(page: Page, name: string): Promise<void> {
  await page.getByLabel(/^Name of the new folder/).fill(name)
  await page.keyboard.press('Enter')
  await expect(page.getByRole('button', { name: `More for the folder ${name}` })).toBeVisible()
}

/** The names of what is shown, in order, each with as many dots before it as folders that it lies in. */
function lines(page: Page): Promise<string[]> {
  return panel(page)
    .locator('.st-project-name, .st-project-folder')
    .evaluateAll((all) =>
      all.map((one) => {
        let depth = -1
        for (let at: Element | null = one; at; at = at.parentElement)
          if (at.matches('.st-project-folders')) depth += 1
        return '.'.repeat(depth) + one.textContent.trim()
      }),
    )
}

test('folders are made, nested, renamed, moved and removed by menu and keys, and each act has its undo', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Mast')
  await beginAnotherProject(page, 'Rack')
  await openPanel(page)
  const more = (name: string): Locator => panel(page).getByRole('button', { name: `More for ${name}` })
  await panel(page).getByRole('button', { name: 'New folder' }).click()
  await makeFolder(page, 'Dome')
  await chooseInMenu(page, more('the folder Dome'), /^New folder in it/)
  await makeFolder(page, 'Roof')
  await more('Mast').click()
  await page.getByRole('menuitemradio', { name: 'Dome / Roof' }).click()
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Dome', '.Roof', '..Mast'])
  await dismissNotices(page)
  expect(await violationsInBoth(page)).toEqual([])

  // By keyboard alone, and a name that is taken is refused with a sentence.
  await more('the folder Dome').focus()
  await page.keyboard.press('Enter')
  await page.getByRole('menuitem', { name: /^Rename/ }).focus()
  await page.keyboard.press('Enter')
  await expect(page.getByLabel('Name of “Dome”')).toBeFocused()
  await page.keyboard.press('Control+A')
  await page.keyboard.insertText('a/b')
  await page.keyboard.press('Enter')
  await expect(page.getByText(/A slash parts folders/)).toBeVisible()
  await page.keyboard.press('Control+A')
  await page.keyboard.insertText('Observatory')
  await page.keyboard.press('Enter')
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Observatory', '.Roof', '..Mast'])

  await more('the folder Roof').click()
  await page.getByRole('menuitemradio', { name: 'To the top' }).click()
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Observatory', 'Roof', '.Mast'])
  await undoButton(page).click()
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Observatory', '.Roof', '..Mast'])

  await chooseInMenu(page, more('the folder Roof'), /^Remove the folder/)
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Observatory', '.Mast'])
  await undoButton(page).click()
  await expect.poll(() => lines(page)).toEqual(['Rack', 'Observatory', '.Roof', '..Mast'])

  await program.restart()
  await openPanel(program.page)
  await expect.poll(() => lines(program.page)).toEqual(['Rack', 'Observatory', '.Roof', '..Mast'])
  await panel(program.page).getByRole('button', { name: 'Mast', exact: true }).click()
  await expect(projectButton(program.page)).toContainText('Mast')
  expect(program.complaints).toEqual([])
})
