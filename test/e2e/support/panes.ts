/** The three panes as a person finds them: what specs look at and do again and again. */
import type { Locator, Page } from '@playwright/test'
import { expect } from '@playwright/test'
import { thread } from './sampleThread.ts'

export const pane = (page: Page, name: 'Sources' | 'Journal' | 'Procedure'): Locator =>
  page.getByRole('region', { name, exact: true })
export const composer = (page: Page): Locator =>
  page.getByRole('group', { name: 'New entry' }).locator('.cm-content')
export const entries = (page: Page): Locator => page.locator('article.st-entry')
export const entryWith = (page: Page, words: string): Locator =>
  entries(page).filter({ hasText: words }).last()
export const steps = (page: Page): Locator => pane(page, 'Procedure').locator('.st-step')
export const partOf = (step: Locator, kind: string): Locator =>
  step.locator(`.st-part--${kind.replaceAll(' ', '-')}`)
export const reader = (page: Page): Locator => page.locator('.st-reading .cm-content')
export const sourceRow = (page: Page, title: string): Locator =>
  page.locator('.st-source-open', { hasText: title })
export const undoButton = (page: Page): Locator =>
  page.locator('.st-topbar').getByRole('button', { name: /^Undo/ })
export const redoButton = (page: Page): Locator =>
  page.locator('.st-topbar').getByRole('button', { name: /^Redo/ })

/** Loads the sample into the empty lab of a first start. */
export async function openSample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Load the sample' }).click()
  await page.getByRole('button', { name: thread.project, exact: false }).first().waitFor()
}

/** Begins the first project of an empty lab. */
export async function beginProject(page: Page, title: string): Promise<void> {
  await page.getByLabel('What do you want to do?').fill(title)
  await page.getByRole('button', { name: 'Start the project' }).click()
  await expect(composer(page)).toBeVisible()
}

/** The button that names the project on the screen. Its menu, also while it is closed, names all of them. */
export const projectButton = (page: Page): Locator =>
  page.locator('.st-topbar-where').getByRole('button').nth(1)

/** Begins a further project by the menu. */
export async function beginAnotherProject(page: Page, title: string): Promise<void> {
  await chooseInMenu(page, projectButton(page), 'Start another project')
  const dialog = page.getByRole('dialog', { name: 'Start another project' })
  await dialog.getByLabel('What do you want to do?').fill(title)
  await dialog.getByRole('button', { name: 'Start the project' }).click()
  await expect(projectButton(page)).toContainText(title)
}

export async function switchProject(page: Page, title: string): Promise<void> {
  await projectButton(page).click()
  await page.getByRole('menuitemradio', { name: title }).click()
  await expect(projectButton(page)).toContainText(title)
}

/** Begins the first procedure of a project. */
export async function beginProcedure(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'Begin a procedure' }).click()
  await page.getByLabel('Title of the procedure').fill(title)
  await page.keyboard.press('Enter')
  await expect(pane(page, 'Procedure')).toContainText(title)
}

/** How many entries the journal holds; only those near the screen are drawn. */
export const entryCount = (page: Page): Locator =>
  pane(page, 'Journal').locator('.st-pane-count [aria-hidden="true"]')

/** Writes an entry by keys, as a person does whose hand is on the keyboard. `digit` is the key of its kind. */
export async function writeEntry(page: Page, text: string, digit = 1): Promise<Locator> {
  const before = Number(await entryCount(page).innerText())
  await page.keyboard.press(`Alt+${digit}`)
  await expect(composer(page)).toBeFocused()
  await page.keyboard.insertText(text)
  await page.keyboard.press('Control+Enter')
  await expect(entryCount(page)).toHaveText(String(before + 1))
  const id = await entries(page).last().getAttribute('data-entry')
  return page.locator(`article[data-entry="${id}"]`)
}

/** Adds a step at the end and writes what to do in it. */
export async function addStep(page: Page, text: string): Promise<Locator> {
  const before = await steps(page).count()
  await pane(page, 'Procedure').getByRole('button', { name: 'Add a step', exact: true }).click()
  const step = steps(page).nth(before)
  await expect(step.locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText(text)
  await page.keyboard.press('Escape')
  await expect(step.locator('.cm-content')).toHaveCount(0)
  return step
}

/** Carries a whole entry to the place that goes by these words. */
export async function carryEntry(page: Page, entry: Locator, place: string | RegExp): Promise<void> {
  await entry.getByRole('button', { name: 'Carry this entry' }).click()
  await page.getByRole('option', { name: place }).first().click()
  await expect(page.getByRole('dialog', { name: 'Carry' })).toHaveCount(0)
}

/** Opens a menu by its button and chooses a line. */
export async function chooseInMenu(page: Page, button: Locator, line: string | RegExp): Promise<void> {
  await button.click()
  await page.getByRole('menuitem', { name: line }).click()
}

/** Takes the notices that lie over the panes away. */
export async function dismissNotices(page: Page): Promise<void> {
  const dismiss = page.locator('.st-notices').getByRole('button', { name: 'Dismiss' })
  while ((await dismiss.count()) > 0) await dismiss.first().click()
}
