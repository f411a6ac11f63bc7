/** Following logs of terminals as a person does it. */
import { expect, type Locator, type Page } from '@playwright/test'
import type { Launched } from './launch.ts'

export async function openLogs(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'More for the journal' }).click()
  await page.getByRole('menuitem', { name: /Terminal logs/ }).click()
  return page.getByRole('dialog', { name: 'Terminal logs' })
}

/** Makes the dialog for a file answer with this one, as a person would choose it. */
export async function answerWith(program: Launched, path: string): Promise<void> {
  await program.shell?.evaluate(({ dialog }, file) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [file] })
  }, path)
}

/** Follows the log at a path, which the dialog is made to answer. @returns its part of the panel, once it has caught up */
export async function followLog(program: Launched, panel: Locator, path: string): Promise<Locator> {
  await answerWith(program, path)
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
