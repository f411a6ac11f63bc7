/** Following logs of terminals as a person does it. */
import { expect, type Locator, type Page } from '@playwright/test'
import type { Launched } from './launch.ts'

/** Begins a project, whose journal is then open. */
export async function beginProject({ page }: Launched, title: string): Promise<void> {
  await page.getByLabel('What do you want to do?').fill(title)
  await page.getByRole('button', { name: 'Start the project' }).click()
  await expect(page.getByRole('group', { name: 'New entry' })).toBeVisible()
}

export async function openLogs(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'More for the journal' }).click()
  await page.getByRole('menuitem', { name: /Terminal logs/ }).click()
  return page.getByRole('dialog', { name: 'Terminal logs' })
}

/** Follows the log at a path, which the dialog is made to answer. @returns its part of the panel, once it has caught up */
export async function followLog(program: Launched, panel: Locator, path: string): Promise<Locator> {
  await program.shell?.evaluate(({ dialog }, file) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [file] })
  }, path)
  await panel.getByRole('button', { name: 'Follow a log…' }).click()
  const session = panel.getByRole('region', { name: path.slice(path.lastIndexOf('/') + 1) })
  await expect(session.getByText('following', { exact: true })).toBeVisible()
  return session
}

/** Says how wide the window was, where the log does not. */
export async function sayWidth(session: Locator, columns: number): Promise<void> {
  await session.getByLabel('How many columns wide was the window?').fill(String(columns))
  await session.getByRole('button', { name: 'Read it with this width' }).click()
}
