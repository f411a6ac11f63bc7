/** A whole folder of files on its way in, and what the lab then holds of them. */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { expect, type Page } from '@playwright/test'
import type { Launched } from './launch.ts'

/** Chooses a folder to be taken in, as a person does by the button, in either runtime. */
export async function chooseFolder(program: Launched, folder: string): Promise<void> {
  const { page } = program
  const button = page.getByRole('button', { name: 'Choose a folder…' })
  if (!(await button.isVisible())) await page.getByRole('button', { name: 'Add a source' }).first().click()
  if (program.shell === null) {
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button.click()])
    await chooser.setFiles(folder)
    return
  }
  await program.shell.evaluate(({ dialog }, path) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [path] })
  }, folder)
  await button.click()
}

/** The report at the end of a run of many files. */
export const runReport = (page: Page) => page.getByRole('region', { name: 'What came in' })

/** Waits until everything that was chosen is through. */
export async function waitUntilThrough(page: Page, milliseconds: number): Promise<string> {
  await expect(runReport(page)).toBeVisible({ timeout: milliseconds })
  await expect(page.locator('.st-intake-now')).toHaveCount(0)
  return runReport(page).innerText()
}

/** Lower-case hex SHA-256 of a file. */
export function sha256OfFile(path: string): string {
  return createHash('sha256').update(readFileSync(path)).digest('hex')
}

/** How many records some tables of the open lab hold. */
export function countRecords(page: Page, tables: readonly string[]): Promise<Record<string, number>> {
  return page.evaluate(async (names) => {
    const lab = await openLab()
    const counts: Record<string, number> = {}
    for (const name of names) counts[name] = await ask(lab.transaction(name).objectStore(name).count())
    lab.close()
    return counts

    async function openLab(): Promise<IDBDatabase> {
      const found = (await indexedDB.databases()).find(({ name }) => name?.startsWith('stillroom-lab-'))
      return ask(indexedDB.open(found!.name!))
    }
    function ask<T>(request: IDBRequest<T>): Promise<T> {
      return new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error ?? new Error('the lab did not answer'))
      })
    }
  }, tables)
}

export interface TextOfCapture {
  readonly text: string
  readonly pages: readonly { readonly start: number }[]
}

/** The texts of captures by the SHA-256 of the bytes that they came from. Digests that the lab has not are absent. */
export function textsByDigest(
  page: Page,
  digests: readonly string[],
): Promise<Record<string, TextOfCapture>> {
  return page.evaluate(async (wanted) => {
    const found = (await indexedDB.databases()).find(({ name }) => name?.startsWith('stillroom-lab-'))
    const lab = await ask(indexedDB.open(found!.name!))
    const index = lab.transaction('captures').objectStore('captures').index('sha256')
    const texts: Record<string, TextOfCapture> = {}
    for (const digest of wanted) {
      const capture = (await ask(index.get(digest))) as TextOfCapture | undefined
      if (capture) texts[digest] = { text: capture.text, pages: capture.pages }
    }
    lab.close()
    return texts

    function ask<T>(request: IDBRequest<T>): Promise<T> {
      return new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error ?? new Error('the lab did not answer'))
      })
    }
  }, digests)
}
