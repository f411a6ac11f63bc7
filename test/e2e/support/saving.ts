/** Catches the file that the program saves: a download in Chromium, the save dialog's answer in Electron. */
import { mkdtempSync, readdirSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect } from '@playwright/test'
import type { Launched } from './launch.ts'

/** Does what saves a file, and gives the path that it was written to. */
export async function catchSavedFile(program: Launched, save: () => Promise<void>): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-saved-'))
  if (program.shell === null) {
    const [download] = await Promise.all([program.page.waitForEvent('download'), save()])
    const path = join(folder, download.suggestedFilename())
    await download.saveAs(path)
    return path
  }
  // The dialog is the system's own and out of a test's reach; its answer is what the person would have chosen.
  await program.shell.evaluate(({ dialog }, into) => {
    dialog.showSaveDialog = (...given: unknown[]) => {
      const { defaultPath = 'file' } = given.at(-1) as { defaultPath?: string }
      const name = defaultPath.split('/').at(-1) ?? 'file'
      return Promise.resolve({ canceled: false, filePath: `${into}/${name}` })
    }
  }, folder)
  await save()
  // A file is written under a hidden name first and renamed once it is whole.
  const names = (): string[] => readdirSync(folder).filter((name) => !name.startsWith('.'))
  await expect.poll(() => names().length === 1 && statSync(join(folder, names()[0]!)).size > 0).toBe(true)
  return join(folder, names()[0]!)
}

/** Answers the next open dialog with these files, in either runtime. */
export async function chooseFiles(
  program: Launched,
  paths: readonly string[],
  open: () => Promise<void>,
): Promise<void> {
  if (program.shell === null) {
    const [chooser] = await Promise.all([program.page.waitForEvent('filechooser'), open()])
    await chooser.setFiles([...paths])
    return
  }
  await program.shell.evaluate(
    ({ dialog }, filePaths) => {
      dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths })
    },
    [...paths],
  )
  await open()
}
