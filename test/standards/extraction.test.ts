/**
 * Pages of Debian's documentation packages, made by fourteen programs: all code blocks, tables and headings of the main
 * content must come through word for word, and at most two in a hundred words from around it. The pages and the selectors
 * of their main content stand in a table; what is expected is read from the page by parse5. Pages are looked for in
 * /usr/share, or where DOCS_DIR says, and skipped by name where their package is not installed.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { measureExtraction, pages } from '../bench/support/extraction.ts'

const folder = process.env['DOCS_DIR'] ?? '/usr/share'

describe('the main content of a page', () => {
  for (const page of pages) {
    const file = join(folder, page.path)
    test.skipIf(!existsSync(file))(
      `made by ${page.generator} comes through (${page.path}, package ${page.from})`,
      { timeout: 60_000 },
      () => {
        const { codes, tables, headings, outside, kept } = measureExtraction(page, readFileSync(file))
        expect({ codes: codes.lost, tables: tables.lost, headings: headings.lost }).toEqual({
          codes: [],
          tables: [],
          headings: [],
        })
        expect(codes.all + tables.all + headings.all).toBeGreaterThan(0)
        expect(outside).toBeLessThanOrEqual(0.02)
        expect(kept).toBeGreaterThanOrEqual(0.95)
      },
    )
  }
  test('is looked for on twenty pages and more, from at least six programs', () => {
    expect(pages.length).toBeGreaterThanOrEqual(20)
    expect(new Set(pages.map(({ generator }) => generator)).size).toBeGreaterThanOrEqual(6)
  })
})
