/**
 * PDFs of Debian's documentation packages (made by TeX, FOP, groff, Word, Distiller and others), drawn by a fixed seed: at
 * least 98 of a hundred words that poppler's pdftotext(1) reads on a page must be on that page in the same order, and nearly
 * all must be there at all. PDFs are looked for where DOCS_DIR says.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { maybeProgram } from '../../build/programs.mjs'
import { intakeAnyFile } from '../../shared/intake/any-file.ts'
import type { TakenIn } from '../../shared/intake/taken.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import { wordsOfMarkdown } from '../bench/support/extraction.ts'
import { draw, seededNumbers } from '../support/drawing.ts'
import { comparedWords, shareOfPages } from '../support/inOrder.ts'
import { readPagesByPdftotext } from '../support/readers.ts'

const docs = process.env['DOCS_DIR']
const isThere = docs !== undefined && maybeProgram('pdftotext') !== null
const tables = join(dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')), 'cmaps')

/** Leaflets in columns of small tables are left out: pdftotext mixes their boxes in either of its orders. */
const isComparable = (path: string): boolean => !path.includes('debian-refcard')

function drawn(count: number): string[] {
  const all = readdirSync(docs!, { recursive: true, encoding: 'utf8' }).filter(
    (path) => /\.pdf(?:\.gz)?$/.test(path) && isComparable(path) && statSync(join(docs!, path)).size > 1000,
  )
  return draw(all.sort(), count, seededNumbers(7))
}

async function take(name: string, bytes: Uint8Array): Promise<TakenIn> {
  const readTable = async (file: string): Promise<Uint8Array> =>
    new Uint8Array(await readFile(join(tables, file)))
  const intake = await intakeAnyFile(name, bytes, { readTable })
  if (!intake.ok) throw new Error(intake.sentence)
  if (intake.kind === 'bookmarks') throw new Error('taken for bookmarks')
  return intake
}

function shareAtAll(wanted: readonly string[], got: readonly string[]): number {
  const left = new Map<string, number>()
  for (const word of got) left.set(word, (left.get(word) ?? 0) + 1)
  const found = wanted.filter((word) => {
    const count = left.get(word) ?? 0
    left.set(word, count - 1)
    return count > 0
  })
  return wanted.length === 0 ? 1 : found.length / wanted.length
}

describe('PDFs of documentation packages (skipped where they or pdftotext are not at hand)', () => {
  test.skipIf(!isThere)(
    'keep their words, in order, on their pages: at least 29 of 30',
    { timeout: 600_000 },
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'stillroom-pdf-'))
      const poor: string[] = []
      try {
        for (const path of drawn(30)) {
          const packed = readFileSync(join(docs!, path))
          const bytes = path.endsWith('.gz') ? gunzipSync(packed) : packed
          const file = join(folder, 'one.pdf')
          writeFileSync(file, bytes)
          const { text, pages } = await take(basename(path), new Uint8Array(bytes))
          const plain = pages.map(({ start }, i) =>
            wordsOfMarkdown(parseMarkdown(text.slice(start, pages[i + 1]?.start))),
          )
          const orders = readPagesByPdftotext(file)
          const inOrder = shareOfPages(orders, plain)
          const atAll = shareAtAll(comparedWords(orders[0]!.join('\n')), comparedWords(plain.join('\n')))
          if (inOrder < 0.98 || atAll < 0.985)
            poor.push(
              `${path}: ${(inOrder * 100).toFixed(1)} % in order, ${(atAll * 100).toFixed(1)} % at all`,
            )
        }
      } finally {
        rmSync(folder, { recursive: true, force: true })
      }
      if (poor.length > 0) console.log(poor.join('\n'))
      expect(poor.length).toBeLessThanOrEqual(1)
    },
  )
})
