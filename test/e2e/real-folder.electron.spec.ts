/**
 * A folder of more than three hundred real files comes in within one run: pages, PDFs and manual pages of Debian's
 * documentation packages, pages that Chromium saved (MHTML), bookmarks that Chromium and Firefox exported. What is read in
 * them is held against what Chromium (innerText), pdftotext(1) and man(1) read.
 */
import { copyFileSync, mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium } from '@playwright/test'
import { maybeChromium, maybeProgram } from '../../build/programs.mjs'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import { wordsOfMarkdown } from '../bench/support/extraction.ts'
import { makeCorpus, type CorpusFile, type CorpusKind } from '../support/corpus.ts'
import { draw, seededNumbers } from '../support/drawing.ts'
import { comparedWords, shareInOrder, shareOfPages } from '../support/inOrder.ts'
import { readByChromium, readByMan, readPagesByPdftotext } from '../support/readers.ts'
import {
  chooseFolder,
  countRecords,
  runReport,
  sha256OfFile,
  textsByDigest,
  type TextOfCapture,
  waitUntilThrough,
} from './support/folderIn.ts'
import { beginProject } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const docs = process.env['DOCS_DIR']
const standards = process.env['STANDARDS_DIR'] ?? null
const size = { pages: 130, pdfs: 80, manuals: 110 }
const drawn = 30

test('more than three hundred real files come in within one run, readable, each once, and stay over a restart', async ({
  program,
}) => {
  test.skip(docs === undefined, 'no documentation packages are here (DOCS_DIR names none)')
  test.setTimeout(1_500_000)
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-real-'))
  const files = makeCorpus(docs!, standards, folder, size)
  const of = (kind: CorpusKind): CorpusFile[] => files.filter((file) => file.kind === kind)
  expect(files.length).toBeGreaterThanOrEqual(300)
  for (const kind of ['page', 'pdf', 'manual'] as const) expect(of(kind).length).toBeGreaterThanOrEqual(40)
  copyFileSync(of('page')[0]!.path, join(folder, 'the same page again.html'))

  await beginProject(program.page, 'Read all of it')
  await chooseFolder(program, folder)
  const report = await waitUntilThrough(program.page, 1_200_000)
  console.log(report.split('\n')[0])
  for (const line of await runReport(program.page)
    .getByRole('list', { name: 'Could not be read' })
    .locator('li')
    .allInnerTexts())
    console.log(`  ${line}`)

  // Bookmarks ask first, since nobody knows beforehand how many links they bring.
  for (const _file of of('bookmarks'))
    await program.page.getByRole('button', { name: 'Add them all' }).first().click()
  await expect(program.page.getByRole('button', { name: 'Add them all' })).toHaveCount(0)

  const documents = files.filter(({ kind }) => kind !== 'bookmarks')
  const digests = new Map(documents.map((file) => [file, sha256OfFile(file.path)]))
  const texts = await textsByDigest(program.page, [...new Set(digests.values())])
  for (const kind of ['page', 'pdf', 'manual', 'web archive'] as const) {
    const came = of(kind).filter((file) => texts[digests.get(file)!] !== undefined)
    console.log(`${kind}: ${came.length} of ${of(kind).length} came in`)
    expect(came.length / Math.max(1, of(kind).length), kind).toBeGreaterThanOrEqual(0.95)
  }

  const browserPath = maybeChromium()
  const browser =
    browserPath === null
      ? null
      : await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox'] })
  const plain = (text: string): string => wordsOfMarkdown(parseMarkdown(text))
  const inOrder = (wanted: string, { text }: TextOfCapture): number =>
    shareInOrder(comparedWords(wanted), comparedWords(plain(text)))
  const shareOf: Partial<
    Record<CorpusKind, (file: CorpusFile, capture: TextOfCapture) => Promise<number> | number>
  > = {
    ...(maybeProgram('pdftotext') === null
      ? {}
      : {
          pdf: ({ path }, { text, pages }) =>
            shareOfPages(
              readPagesByPdftotext(path),
              pages.map(({ start }, at) => plain(text.slice(start, pages[at + 1]?.start))),
            ),
        }),
    ...(maybeProgram('man') === null
      ? {}
      : { manual: ({ path }, capture) => inOrder(readByMan(path), capture) }),
    ...(browser === null
      ? {}
      : {
          page: async ({ path, main, without }, capture) =>
            inOrder(await readByChromium(browser, path, main!, without), capture),
          'web archive': async ({ path, from }, capture) =>
            inOrder(await readByChromium(browser, path, mainOfArchive(from)), capture),
        }),
  }
  try {
    for (const kind of ['page', 'pdf', 'manual', 'web archive'] as const) {
      const measure = shareOf[kind]
      if (!measure) {
        console.log(`${kind}: the program to hold it against is not here`)
        continue
      }
      const sample = draw(of(kind), drawn, seededNumbers(30))
      const poor: string[] = []
      for (const file of sample) {
        const capture = texts[digests.get(file)!]
        const share = capture ? await measure(file, capture) : 0
        if (share < 0.98) poor.push(`${file.from} keeps ${(100 * share).toFixed(1)} % of the words in order.`)
      }
      console.log(
        `${kind}: ${sample.length - poor.length} of ${sample.length} keep 98 % of the words in order`,
      )
      for (const line of poor) console.log(`  ${line}`)
      expect((sample.length - poor.length) / sample.length, kind).toBeGreaterThanOrEqual(0.95)
    }
  } finally {
    await browser?.close()
  }

  // Equal files are stored once, and a restart keeps everything.
  const tables = ['sources', 'captures', 'blobs', 'folders'] as const
  const before = await countRecords(program.page, tables)
  expect(before['blobs']).toBe(before['captures'])
  await program.restart()
  expect(await countRecords(program.page, tables)).toEqual(before)
  await expect(program.page.locator('.st-source-open').first()).toBeVisible()
  expect(program.complaints).toEqual([])
})

/** The main content of the pages that were saved is where the generators of the handbook and of the reference put it. */
function mainOfArchive(from: string): string {
  return from.includes('handbook') ? 'body > div.section, body > div.chapter' : 'div.chapter'
}
