/** What is broken, hostile or too large: a sentence that names it, nothing run, nothing lost, and the journal stays open. */
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { dropOn, paste, type BroughtFile } from './support/arriving.ts'
import { elsewhere } from './support/reach.ts'
import {
  beginProject,
  composer,
  dismissNotices,
  pane,
  reader,
  sourceRow,
  writeEntry,
} from './support/panes.ts'
import { chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const encode = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Bytes without a signature that no text consists of. */
const noise = Uint8Array.from({ length: 4000 }, (_, at) => (at * 7919 + (at >> 3)) % 256)
const refusedFiles: readonly BroughtFile[] = [
  { name: 'readings.html', bytes: noise, type: 'text/html' },
  {
    name: 'front-panel.htm',
    bytes: Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0),
    type: 'text/html',
  },
  { name: 'manual.md', bytes: encode('%PDF-1.7\n%âãÏÓ\n1 0 obj\n<< /Type /Catalog >>\nendobj\n') },
  { name: 'rotated.log', bytes: Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3, 75, 4) },
  { name: 'nothing.txt', bytes: new Uint8Array() },
]

/** UTF-16 that ends in the middle of a unit, and a text with zero bytes: readable, with a note of what was replaced. */
const torn = Uint8Array.from([0xff, 0xfe, ...Buffer.from('The mast leans a little', 'utf16le'), 0x41])
const withNuls = encode('first reading\0\0\nsecond reading\n')

const hostile = `<!doctype html><html><head><title>Mast report</title>
<meta http-equiv="refresh" content="0; url=${elsewhere}/refresh">
<script>window.wasRun = 'script'</script><script src="${elsewhere}/x.js"></script>
<link rel="stylesheet" href="${elsewhere}/x.css"><style>@import "${elsewhere}/y.css"; body { display: none }</style>
<base href="${elsewhere}/"></head>
<body onload="window.wasRun = 'onload'" style="background: url(${elsewhere}/bg.png)">
<h1>Mast report</h1><p onclick="window.wasRun = 'click'" onmouseover="window.wasRun = 'hover'">The mast leans.</p>
<p><a href="javascript:window.wasRun='link'">a script link</a> <a href="data:text/html,<script>parent.wasRun=1</script>">a data link</a>
<a href="${elsewhere}/far">a far link</a></p>
<img src="${elsewhere}/i.png" onerror="window.wasRun = 'onerror'"><svg onload="window.wasRun = 'svg'"><script>window.wasRun = 'svg script'</script></svg>
<iframe src="${elsewhere}/f" srcdoc="<script>parent.wasRun = 'frame'</script>"></iframe><object data="${elsewhere}/o"></object>
<video src="${elsewhere}/v" autoplay></video><form action="${elsewhere}/form"><input autofocus onfocus="window.wasRun = 'focus'"><button>Send</button></form>
<math><mtext><img src=x onerror="window.wasRun = 'math'"></mtext></math><template><img src=x onerror="window.wasRun = 'template'"></template>
<p>The last line is whole.</p></body></html>`

const hostileMarkdown = `The guy wire is slack.

<script>window.wasRun = 'markdown script'</script>

<img src="${elsewhere}/m.png" onerror="window.wasRun = 'markdown image'"> <svg onload="window.wasRun = 'svg'"></svg>

![remote](${elsewhere}/md.png) [script](javascript:window.wasRun='md') [data](data:text/html,x) [auto](vbscript:x)

<details open ontoggle="window.wasRun = 'toggle'"><summary>more</summary>inside</details>`

const wasRun = (page: Page): Promise<unknown> =>
  page.evaluate(() => (window as { wasRun?: unknown }).wasRun ?? null)
const problems = (page: Page) => page.getByRole('list', { name: 'What could not be added' })

test('a broken file is refused by its name, however it comes in, and nothing is added', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  await dropOn(page.locator('.st-sources'), { files: refusedFiles })
  for (const { name } of refusedFiles)
    await expect(
      problems(page)
        .getByRole('alert')
        .filter({ hasText: `“${name}”` }),
    ).toHaveCount(1)
  for (const alert of await problems(page).getByRole('alert').all())
    await expect(alert).toContainText(/unchanged|Nothing was added/)
  await expect(page.locator('.st-source-open')).toHaveCount(0)
  for (const alert of await problems(page).getByRole('alert').all()) {
    await problems(page).getByRole('button', { name: 'Dismiss' }).first().click()
    void alert
  }
  await expect(problems(page)).toHaveCount(0)

  // The same by the dialog.
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-broken-'))
  const paths = refusedFiles.map(({ name, bytes }) => {
    writeFileSync(join(folder, name), bytes)
    return join(folder, name)
  })
  await page.getByRole('button', { name: 'Add a source' }).first().click()
  await chooseFiles(program, paths, () => page.getByRole('button', { name: 'Choose files…' }).click())
  for (const { name } of refusedFiles)
    await expect(
      problems(page)
        .getByRole('alert')
        .filter({ hasText: `“${name}”` }),
    ).toHaveCount(1)
  await expect(page.locator('.st-source-open')).toHaveCount(0)

  // And on the composer: what is typed there stays, the file is named.
  await composer(page).click()
  await page.keyboard.type('The mast leans by two')
  await dropOn(composer(page), { files: [refusedFiles[0]!] })
  await expect(page.locator('.st-notices')).toContainText('“readings.html”')
  await expect(composer(page)).toHaveText('The mast leans by two')
  expect(program.complaints).toEqual([])
})

test('a torn UTF-16 text and a text with zero bytes are readable, with a note of what was replaced', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  await dropOn(page.locator('.st-sources'), {
    files: [
      { name: 'torn.txt', bytes: torn },
      { name: 'zeroes.txt', bytes: withNuls },
    ],
  })
  await expect(page.locator('.st-source-open')).toHaveCount(2)
  await expect(page.locator('.st-notices')).toContainText(/torn.*(replaced|encoding|\ufffd)/i)
  await expect(page.locator('.st-notices')).toContainText(/zero bytes were replaced/)
  await sourceRow(page, 'torn').click()
  await expect(reader(page)).toContainText('The mast leans a little')
  await page.getByRole('button', { name: 'All sources' }).click()
  await sourceRow(page, 'zeroes').click()
  await expect(reader(page)).toContainText('second reading')

  // A text with zero bytes that is pasted into the journal is kept as well.
  await writeEntry(page, 'level\0reading')
  await program.restart()
  await expect(program.page.locator('article.st-entry')).toContainText('reading')
  expect(program.complaints).toEqual([])
})

test('nothing in a page or a text is ever run or fetched, pasted, dropped or opened', async ({ program }) => {
  const { page } = program
  const dialogs: string[] = []
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message())
    void dialog.dismiss()
  })
  const asked: string[] = []
  page.on('request', (request) => {
    if (!request.url().startsWith(program.address) && !/^(data|blob):/.test(request.url()))
      asked.push(request.url())
  })
  await beginProject(page, 'Straighten the mast')

  await page.locator('.st-sources').focus()
  await paste(page, { 'text/html': hostile, 'text/plain': 'The mast leans.' })
  await expect(page.locator('.st-source-open')).toHaveCount(1)
  await dropOn(page.locator('.st-sources'), {
    forms: {
      'text/html': hostile.replaceAll('Mast report', 'Dropped report'),
      'text/plain': 'The mast leans.',
    },
  })
  await dropOn(page.locator('.st-sources'), {
    files: [
      {
        name: 'mast.html',
        bytes: encode(hostile.replaceAll('Mast report', 'File report')),
        type: 'text/html',
      },
    ],
  })
  await expect(page.locator('.st-source-open')).toHaveCount(3)
  // A link whose name comes as markup.
  await dropOn(page.locator('.st-sources'), {
    forms: {
      'text/uri-list': 'https://mast.example.org/',
      'text/html': `<a href="https://mast.example.org/">Far mast</a><script>window.wasRun = 'name'</script><img src=x onerror="window.wasRun = 'name image'">`,
    },
  })
  await expect(page.locator('.st-source-open')).toHaveCount(4)
  await expect(sourceRow(page, 'Far mast')).not.toContainText('wasRun')
  for (const title of ['Mast report', 'Dropped report', 'File report']) {
    await sourceRow(page, title).click()
    await expect(reader(page)).toContainText('The mast leans.')
    await expect(reader(page)).toContainText('The last line is whole.')
    await expect(reader(page)).not.toContainText('wasRun')
    await page.getByRole('button', { name: 'All sources' }).click()
  }
  await dismissNotices(page)

  // As an entry, shown as it was written, and carried into a step.
  const entry = await writeEntry(page, hostileMarkdown)
  await expect(entry).toContainText('The guy wire is slack.')
  for (const link of await entry.locator('a, summary').all()) await link.click({ force: true })
  await composer(page).click()
  await paste(page, { 'text/html': hostile, 'text/plain': 'The mast leans.' })
  await page.keyboard.press('Control+Enter')
  await entry.getByRole('button', { name: 'Carry this entry' }).click()
  await page
    .getByRole('option')
    .filter({ hasText: /step|procedure/i })
    .first()
    .click()
  const procedure = pane(page, 'Procedure')
  await expect(procedure).toContainText('The guy wire is slack.')
  for (const link of await procedure.locator('.st-part-read a').all()) await link.click({ force: true })

  await page.waitForTimeout(500)
  expect(page.url()).toBe(program.address)
  expect(await wasRun(page)).toBeNull()
  expect(dialogs).toEqual([])
  expect(asked).toEqual([])
  const shown = page.locator('.st-prose')
  await expect(
    shown.locator('script, iframe, object, embed, svg[onload], form, style, link, meta'),
  ).toHaveCount(0)
  expect(
    await shown.evaluateAll((all) =>
      all.flatMap((one) =>
        [...one.querySelectorAll('*')].flatMap((element) =>
          element.getAttributeNames().filter((name) => name.startsWith('on') || name === 'srcdoc'),
        ),
      ),
    ),
  ).toEqual([])
  await program.restart()
  await expect(entryTexts(program.page).first()).toContainText('The guy wire is slack.')
  expect(await wasRun(program.page)).toBeNull()
  expect(program.complaints).toEqual([])
})

const entryTexts = (page: Page) => page.locator('article.st-entry')

test('a text of 50 MB is refused with its name, its size and the limit, and the composer takes every key meanwhile', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Straighten the mast')
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-large-'))
  const large = join(folder, 'all-readings.txt')
  writeFileSync(large, 'wind 3.2 m/s from 240 degrees, gusts 5.1\n'.repeat(50_000_000 / 41))
  const refusal = () => problems(page).getByRole('alert').filter({ hasText: '“all-readings.txt”' })

  // Dropped as a file.
  await page.locator('.st-sources').evaluate((element) => {
    const dataTransfer = new DataTransfer()
    dataTransfer.items.add(new File(['x'.repeat(50_000_000)], 'all-readings.txt'))
    for (const type of ['dragover', 'drop'])
      element.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }))
  })
  await expect(refusal()).toContainText(/48 MiB.*16 MiB/)
  await problems(page).getByRole('button', { name: 'Dismiss' }).click()

  // Chosen in the dialog.
  await page.getByRole('button', { name: 'Add a source' }).first().click()
  await chooseFiles(program, [large], () => page.getByRole('button', { name: 'Choose files…' }).click())
  await expect(refusal()).toContainText(/48 MiB.*16 MiB/)
  await problems(page).getByRole('button', { name: 'Dismiss' }).click()

  // Pasted: it is refused too. While the page is busy with the largest text that is allowed, every key arrives in time.
  await page.evaluate(() => {
    const line = 'wind 3.2 m/s from 240 degrees, gusts 5.1\n'
    const forms: [string, number][] = [
      ['too much', 50_000_000],
      ['just right', 15_000_000],
    ]
    for (const [, size] of forms) {
      const dataTransfer = new DataTransfer()
      dataTransfer.setData('text/plain', line.repeat(size / line.length))
      const element = document.querySelector('.st-sources')!
      for (const type of ['dragover', 'drop'])
        element.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }))
    }
  })
  await composer(page).click()
  let slowest = 0
  let typed = ''
  for (let at = 0; at < 60; at++) {
    const sign = 'abcdefghij '[at % 11]!
    const begun = Date.now()
    await page.keyboard.type(sign)
    typed += sign
    await expect.poll(() => composer(page).textContent(), { intervals: [10] }).toBe(typed)
    slowest = Math.max(slowest, Date.now() - begun)
    await page.waitForTimeout(20)
  }
  expect(slowest).toBeLessThan(1500)
  await expect(problems(page).getByRole('alert')).toContainText(/48 MiB.*16 MiB/)
  await expect(page.locator('.st-source-open')).toHaveCount(1)
  await sourceRow(page, 'wind 3.2').click()
  await expect(reader(page)).toContainText('gusts 5.1')
  await composer(page).click()
  await page.keyboard.press('Control+Enter')
  await expect(entryTexts(page)).toContainText('abcdefghij')
  expect(program.complaints).toEqual([])
})
