/** The seal from outside: a journal that was worked in holds, says where something was struck out, and is checked by sha256sum alone. */
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { unzipSync } from 'fflate'
import { beginProject, entryWith, writeEntry } from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

test('a journal holds after amendments, ticks and striking out, and its export is checked by a shell script', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the mast UPS')
  await writeEntry(page, 'The login was larkspur-9 on the gate')
  await page.keyboard.press('Alt+8')
  await page.keyboard.insertText('- [ ] helmet on')
  await page.keyboard.press('Control+Enter')
  await page.getByRole('checkbox', { name: 'helmet on' }).click()
  await entryWith(page, 'larkspur-9').getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /Strike out/ }).click()
  const dialog = page.getByRole('dialog', { name: 'Strike out' })
  await dialog.getByRole('button', { name: 'Strike out…' }).click()
  await dialog.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(dialog).toHaveCount(0)
  await page.getByRole('button', { name: 'More for the journal' }).click()
  await page.getByRole('menuitem', { name: /The seal/ }).click()
  const panel = page.getByRole('dialog', { name: 'The seal' })
  await panel.getByRole('button', { name: 'Check the seal' }).click()
  await expect(panel.getByRole('status')).toContainText('Something was struck out of the text.')
  await panel.getByRole('button', { name: 'Note the head' }).click()
  const path = await catchSavedFile(program, () =>
    panel.getByRole('button', { name: 'Take out the sealed journal…' }).click(),
  )
  const folder = mkdtempSync(join(tmpdir(), 'sealed-'))
  const files = unzipSync(readFileSync(path))
  for (const [name, bytes] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true })
    writeFileSync(join(folder, name), bytes)
  }
  expect(execFileSync('sh', ['check.sh'], { cwd: folder, encoding: 'utf8' })).not.toBe('')
  expect(Buffer.concat(Object.values(files).map((bytes) => Buffer.from(bytes))).includes('larkspur')).toBe(
    false,
  )
  const [journal] = Object.keys(files).filter((name) => name.startsWith('texts/'))
  writeFileSync(join(folder, journal!), `${readFileSync(join(folder, journal!), 'utf8')} `)
  expect(() => execFileSync('sh', ['check.sh'], { cwd: folder, stdio: 'pipe' })).toThrow()
  expect(program.complaints).toEqual([])
})
