/** HTML that was copied in a browser is from a page; the shell finds which, and the button “Paste” may read the clipboard. */
import { beginProject, pane } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const page1 = 'https://docs.example.org/mast'

test('the shell names the page that a browser notes on the clipboard, and nothing that is no page', async ({
  program,
}) => {
  const ask = () =>
    program.page.evaluate(() =>
      (
        window as unknown as { stillroomHost: { findClipboardAddress(): Promise<unknown> } }
      ).stillroomHost.findClipboardAddress(),
    )
  const put = (text: string) =>
    program.shell!.evaluate(({ clipboard }, text) => {
      const older = clipboard as unknown as { writeBuffer(form: string, bytes: Uint8Array): void }
      older.writeBuffer('chromium/x-source-url', Buffer.from(text))
    }, text)
  await put(page1)
  expect(await ask()).toEqual({ ok: true, value: { address: page1 } })
  await put('app://stillroom/')
  expect(await ask()).toEqual({ ok: true, value: { address: null } })
})

test('what another program copied comes in by the button', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  await program.shell!.evaluate(({ clipboard }) => {
    const older = clipboard as unknown as { write(forms: { text: string; html: string }): void }
    older.write({ text: 'The mast leans.', html: '<h2>Report</h2><p>The mast leans.</p>' })
  })
  await page.getByRole('button', { name: 'Add a source', exact: true }).first().click()
  await page.getByRole('button', { name: 'Paste', exact: true }).click()
  await expect(pane(page, 'Sources').locator('.st-source-open')).toContainText('Report')
  expect(program.complaints).toEqual([])
})
