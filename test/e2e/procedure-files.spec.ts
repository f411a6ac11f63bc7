/** The files that steps set down leave the program as files of their own, also with the values of another host. */
import { readFileSync } from 'node:fs'
import { unzipSync } from 'fflate'
import { violationsInBoth } from './support/axe.ts'
import { addStep, beginProcedure, beginProject, chooseInMenu, pane, partOf, steps } from './support/panes.ts'
import { addParameter } from './support/printing.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

function unpack(path: string): Record<string, string> {
  const files = unzipSync(readFileSync(path))
  return Object.fromEntries(
    Object.entries(files).map(([name, bytes]) => [name, new TextDecoder().decode(bytes)]),
  )
}

test('an archive holds each file under its path, a difference with its ending, and a manifest', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
  await addStep(page, 'Set the name.')
  await addStep(page, 'Set the clock.')
  const procedure = pane(page, 'Procedure')
  const addFile = async (at: number, path: string, fence: string): Promise<void> => {
    const step = steps(page).nth(at)
    await chooseInMenu(page, step.getByRole('button', { name: /^More for step/ }), 'Add file')
    const form = page.getByRole('form', { name: 'Which file it is' })
    await form.getByLabel('Path').fill(path)
    await form.getByLabel('Owner').fill('root')
    await form.getByLabel('Mode').fill('0644')
    await form.getByRole('button', { name: 'Keep' }).click()
    const text = partOf(step, 'file').locator('.cm-content')
    await expect(text).toBeFocused()
    // The editor itself deletes; what a browser puts over a selection has styles of the browser's own.
    await page.keyboard.press('Control+A')
    await page.keyboard.press('Backspace')
    await page.keyboard.insertText(fence)
    await page.keyboard.press('Escape')
    await expect(text).toHaveCount(0)
  }
  await procedure.getByRole('button', { name: 'Export…' }).click()
  await page.getByRole('radio', { name: 'Files of their own' }).check()
  await expect(page.getByText('No step sets down a file.')).toBeVisible()
  await page.getByRole('button', { name: 'Close', exact: true }).click()
  await addFile(0, '/etc/⁅host⁆/name', '```\nname = ⁅host⁆\n```')
  await addFile(
    1,
    '/../etc/chrony/chrony.conf',
    '```diff\n--- a/chrony.conf\n+++ b/chrony.conf\n@@ -1 +1 @@\n-pool a\n+pool ⁅host⁆\n```',
  )
  await addParameter(page, 'host', 'host name', 'logger.example.org')

  await procedure.getByRole('button', { name: 'Export…' }).click()
  await page.getByRole('radio', { name: 'Files of their own' }).check()
  expect(await violationsInBoth(page)).toEqual([])
  const plain = unpack(
    await catchSavedFile(program, () => page.getByRole('button', { name: 'Write archive' }).click()),
  )
  expect(Object.keys(plain).sort()).toEqual(['MANIFEST.md', 'etc/chrony/chrony.conf.diff', 'etc/⁅host⁆/name'])
  expect(plain['etc/⁅host⁆/name']).toBe('name = ⁅host⁆\n')
  expect(plain['MANIFEST.md']).toContain('still waits for host.')
  await expect(page.locator('.st-notices')).toContainText('2 files and a manifest were written')

  await page.getByRole('button', { name: 'Made for another host…' }).click()
  const panel = page.getByRole('dialog', { name: 'Made for another host' })
  await panel.getByLabel('host', { exact: true }).fill('dome.example.org')
  const filled = unpack(
    await catchSavedFile(program, () => panel.getByRole('button', { name: 'Export the files…' }).click()),
  )
  expect(filled['etc/dome.example.org/name']).toBe('name = dome.example.org\n')
  expect(filled['etc/chrony/chrony.conf.diff']).toContain('+pool dome.example.org')
  expect(filled['MANIFEST.md']).not.toContain('still waits')
  expect(filled['MANIFEST.md']).toContain('`/etc/dome.example.org/name` | root | 0644')
  expect(program.complaints).toEqual([])
})
