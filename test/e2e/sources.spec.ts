/** Every way for a source to come in, and where the keyboard is afterwards. */
import { dropOn, paste } from './support/arriving.ts'
import {
  beginProject,
  chooseInMenu,
  composer,
  dismissNotices,
  pane,
  reader,
  sourceRow,
  undoButton,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const rows = '.st-source-open'

test('sources come in by address, paste and drop, are read and found by keys, and the keyboard is never lost', async ({
  program,
}) => {
  const { page } = program
  const press = (key: string) => page.keyboard.press(key)
  await beginProject(page, 'Straighten the mast')
  const sources = pane(page, 'Sources')

  // By address: a wrong one is refused beside the field and stays in it, a whole one becomes a source.
  await sources.getByRole('button', { name: 'Add a source' }).first().click()
  await expect(page.getByLabel('Address')).toBeFocused()
  await page.keyboard.type('mast manual')
  await press('Enter')
  await expect(page.getByText('This is not a whole web address.', { exact: false })).toBeVisible()
  await expect(page.getByLabel('Address')).toHaveValue('mast manual')
  // What was begun survives closing the form and the end of the program.
  await page.getByLabel('Title').fill('Mast manual')
  await sources.getByRole('button', { name: 'Add a source' }).first().click()
  await expect(page.getByLabel('Address')).toHaveCount(0)
  // What was typed is written down within a second; a browser does not wait when it is closed before.
  await page.waitForTimeout(1000)
  await program.restart()
  await sourcesTest(program.page)
  expect(program.complaints).toEqual([])

  async function sourcesTest(page: typeof program.page): Promise<void> {
    const press = (key: string) => page.keyboard.press(key)
    const sources = pane(page, 'Sources')
    await expect(page.getByLabel('Address')).toHaveValue('mast manual')
    await page.getByLabel('Address').fill('https://mast.example.org/manual?page=2#wires')
    await press('Enter')
    await expect(page.locator(rows)).toHaveCount(1)
    await expect(sourceRow(page, 'Mast manual')).toContainText('mast.example.org')
    await expect(page.getByLabel('Address')).toHaveCount(0)

    // A text and a page by paste, while the keyboard is in the pane.
    await sourceRow(page, 'Mast manual').focus()
    await paste(page, { 'text/plain': 'Guy wires in short\n\nEach wire takes 4 kN.\n' })
    await expect(page.locator(rows)).toHaveCount(2)
    await expect(sourceRow(page, 'Mast manual')).toBeFocused()
    await paste(page, {
      'text/html':
        '<h2>Turnbuckles</h2><p>Never <strong>less</strong> than 8 turns. See <a href="https://mast.example.org/t">the table</a>.</p><ul><li>left thread<li>right thread</ul>',
      'text/plain': 'Turnbuckles',
    })
    await expect(page.locator(rows)).toHaveCount(3)
    // An address that is pasted is a link.
    await paste(page, { 'text/plain': 'http://192.0.2.40/tension' })
    await expect(page.locator(rows)).toHaveCount(4)
    // Pasting into the composer makes no source.
    await composer(page).click()
    await paste(page, { 'text/plain': 'only for the journal' })
    await expect(composer(page)).toHaveText('only for the journal')
    await expect(page.locator(rows)).toHaveCount(4)
    await press('Control+a')
    await press('Backspace')

    // Files by a drop.
    const encode = (text: string) => new TextEncoder().encode(text)
    await dropOn(page.locator('.st-sources'), {
      files: [
        { name: 'anchors.md', bytes: encode('# Anchors\n\nSet 1.2 m deep, `M16`.\n') },
        { name: 'wind.txt', bytes: encode('2026-05-02 gusts 17 m/s\r\nmast still\r\n') },
        {
          name: 'survey.html',
          bytes: encode('<title>Survey</title><main><h1>Survey</h1><p>Plumb within 3 mm.</p></main>'),
        },
      ],
    })
    await expect(page.locator(rows)).toHaveCount(7)
    await expect(sourceRow(page, 'Anchors')).toBeVisible()
    await expect(sourceRow(page, 'Survey')).toBeVisible()

    // Read them: a page is Markdown, a text is as it was.
    await sourceRow(page, 'Turnbuckles').click()
    await expect(reader(page)).toContainText('Never less than 8 turns. See the table')
    await expect(reader(page)).toBeFocused()
    await press('Escape')
    await expect(sourceRow(page, 'Turnbuckles')).toBeFocused()
    await sourceRow(page, 'wind').click()
    await expect(reader(page)).toContainText('mast still')
    await reader(page).focus()
    await page.keyboard.type('this cannot be typed')
    await expect(reader(page)).not.toContainText('typed')
    await press('Escape')

    // An address leads nowhere; it is shown whole.
    await sourceRow(page, 'Mast manual').click()
    await page.getByRole('button', { name: 'Address: https://mast.example.org/manual?page=2#wires' }).click()
    await expect(page.locator('.st-address-whole')).toContainText(
      'https://mast.example.org/manual?page=2#wires',
    )
    await expect(page.getByText('Only the address of', { exact: false })).toBeVisible()
    await page.getByRole('button', { name: 'All sources' }).click()

    // Filter by words; arrows move; Escape shows all.
    await page.getByLabel('Filter sources by words').fill('anchors')
    await expect(page.locator(rows)).toHaveCount(1)
    await press('ArrowDown')
    await expect(sourceRow(page, 'Anchors')).toBeFocused()
    await page.getByLabel('Filter sources by words').press('Escape')
    await expect(page.locator(rows)).toHaveCount(7)
    await page.locator(rows).first().focus()
    await press('End')
    await expect(page.locator(rows).last()).toBeFocused()

    // Rename, take out, undo.
    const menuOf = (title: string) => page.getByRole('button', { name: `Carry or change “${title}”` })
    await chooseInMenu(page, menuOf('wind'), 'Rename or change its address')
    await page.getByRole('region', { name: 'Sources', exact: true }).getByLabel('Title').fill('Wind of May')
    await press('Enter')
    await expect(sourceRow(page, 'Wind of May')).toBeVisible()
    await dismissNotices(page)
    await chooseInMenu(page, menuOf('Wind of May'), 'Take out of this project')
    await expect(page.locator(rows)).toHaveCount(6)
    await undoButton(page).click()
    await expect(page.locator(rows)).toHaveCount(7)
    await expect(sources.locator('.st-pane-count')).toContainText('7')
  }
})
