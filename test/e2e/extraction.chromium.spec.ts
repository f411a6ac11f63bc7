/**
 * The main content of pages that fourteen programs made, as Chromium shows it: all code blocks, tables and headings in it come
 * through word for word, and at most two in a hundred words are from outside it. The selectors were fixed beforehand
 * (test/bench/support/extraction.ts).
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { chromium, type Browser } from '@playwright/test'
import { diffArrays } from 'diff'
import { maybeChromium } from '../../build/programs.mjs'
import { intakeHtml } from '../../shared/intake/html.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import {
  codesOf,
  headingsOf,
  keptInOrder,
  keptWithin,
  pages,
  squeeze,
  wordsOfMarkdown,
  type PageOfTable,
} from '../bench/support/extraction.ts'
import { expect, test } from './support/test.ts'

const docs = process.env['DOCS_DIR']

interface Shown {
  readonly codes: readonly string[]
  readonly tables: readonly string[]
  readonly headings: readonly string[]
  readonly words: string
}

/** What Chromium shows of a page's main content, with its style sheets and without scripts. */
async function show(browser: Browser, path: string, { main, without = '' }: PageOfTable): Promise<Shown> {
  const context = await browser.newContext({ javaScriptEnabled: false })
  try {
    const page = await context.newPage()
    await page.goto(pathToFileURL(path).href, { waitUntil: 'domcontentloaded' })
    return await page.locator('body').evaluate(
      (body, { main, without }) => {
        // What is off the screen may be left unlaid, and then has no text that is shown.
        const style = body.ownerDocument.createElement('style')
        style.textContent = '* { content-visibility: visible !important }'
        body.append(style)
        // What can be unfolded belongs to what the page says.
        for (const one of body.querySelectorAll('details')) one.open = true
        if (without !== '') for (const one of body.querySelectorAll(without)) one.remove()
        // The sign behind a heading that leads to itself is no part of it.
        for (const one of body.querySelectorAll('a'))
          if (/^[\s¶#§🔗\p{Co}]*$/u.test(one.innerText) && one.querySelector('img') === null) one.remove()
        const mains = [...body.ownerDocument.querySelectorAll<HTMLElement>(main)]
        const textsOf = (names: string): string[] =>
          mains
            .flatMap((one) => [...one.querySelectorAll<HTMLElement>(names)])
            .filter((one) => one.parentElement?.closest(names) === null && one.checkVisibility())
            .map((one) => one.innerText)
            .filter((text) => text.trim() !== '')
        return {
          codes: textsOf('pre'),
          tables: textsOf('table'),
          headings: textsOf('h1, h2, h3, h4, h5, h6'),
          words: mains.map((one) => one.innerText).join('\n'),
        }
      },
      { main, without },
    )
  } finally {
    await context.close()
  }
}

const wordsIn = (text: string): string[] => text.split(/\s+/u).filter((word) => word !== '')

test('all code blocks, tables and headings come through as Chromium shows them, and hardly a word from outside', async () => {
  const program = maybeChromium()
  test.skip(docs === undefined, 'no documentation packages are here (DOCS_DIR names none)')
  const there = pages.filter(({ path }) => existsSync(join(docs!, path)))
  expect(there.length).toBeGreaterThanOrEqual(20)
  expect(new Set(there.map(({ generator }) => generator)).size).toBeGreaterThanOrEqual(6)
  const browser = await chromium.launch({ executablePath: program!, args: ['--no-sandbox'] })
  try {
    for (const page of there) {
      const path = join(docs!, page.path)
      const shown = await show(browser, path, page)
      const intake = intakeHtml(page.path, readFileSync(path))
      if (!intake.ok) throw new Error(intake.sentence)
      const tree = parseMarkdown(intake.text)
      const text = wordsOfMarkdown(tree)
      const lines = (code: string): string => code.replace(/[^\S\n]+$/gmu, '').trimEnd()
      const lost = {
        codes: keptInOrder(shown.codes.map(lines), codesOf(tree).map(lines)).lost,
        headings: keptInOrder(shown.headings.map(squeeze), headingsOf(tree)).lost,
        tables: keptWithin(shown.tables.map(squeeze), squeeze(text)).lost,
      }
      expect.soft(lost, page.path).toEqual({ codes: [], headings: [], tables: [] })
      const got = wordsIn(text)
      const added = diffArrays(wordsIn(shown.words), got)
        .filter((part) => part.added)
        .reduce((sum, part) => sum + part.value.length, 0)
      expect.soft(added / got.length, `${page.path}: words from outside`).toBeLessThanOrEqual(0.02)
    }
  } finally {
    await browser.close()
  }
})
