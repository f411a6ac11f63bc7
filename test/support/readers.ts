/** What other programs read in a file: the yardstick for what we read in it. */
import { execFileSync } from 'node:child_process'
import { pathToFileURL } from 'node:url'
import type { Browser } from '@playwright/test'

const most = 256 * 1024 * 1024

/**
 * The pages of a PDF as poppler's pdftotext(1) reads them, in both of its orders: by its analysis of the page, and as the file
 * draws the words (`-raw`). Without what stands at the head or the foot of several pages, but for its numbers.
 */
export function readPagesByPdftotext(path: string): readonly (readonly string[])[] {
  return [[], ['-raw']].map((order) => {
    const words = ['-enc', 'UTF-8', ...order, path, '-']
    return withoutRunningLines(execFileSync('pdftotext', words, { encoding: 'utf8', maxBuffer: most }))
  })
}

function withoutRunningLines(text: string): readonly string[] {
  const pages = text
    .replace(/\f$/u, '')
    .split('\f')
    .map((page) => page.split('\n').filter((line) => line.trim() !== ''))
  const seen = new Map<string, number>()
  for (const page of pages)
    for (const line of new Set(page.filter((_line, at) => isAtEdge(at, page.length)).map(withoutNumbers)))
      seen.set(line, (seen.get(line) ?? 0) + 1)
  const isRepeated = (line: string): boolean => (seen.get(withoutNumbers(line)) ?? 0) >= 3
  return pages.map((page) =>
    page.filter((line, at) => !(isAtEdge(at, page.length) && isRepeated(line))).join('\n'),
  )
}

const isAtEdge = (at: number, lines: number): boolean => at < 2 || at >= lines - 2
const withoutNumbers = (line: string): string => line.trim().replace(/\d+|\b[ivxlc]+\b/gu, '0')

/**
 * A manual page as man(1) sets it on very long lines, without hyphens, spreading and the running head and foot. What is bold
 * or underlined is struck over; only the letters are left.
 */
export function readByMan(path: string): string {
  const text = execFileSync('man', ['-E', 'UTF-8', '--nh', '--nj', '-P', 'cat', '-l', path], {
    encoding: 'utf8',
    maxBuffer: most,
    env: { ...process.env, MANWIDTH: '1000', LC_ALL: 'C.UTF-8', MAN_KEEP_FORMATTING: '', GROFF_NO_SGR: '1' },
    stdio: ['ignore', 'pipe', 'ignore'],
  })
  const struckOver = new RegExp(`.${String.fromCharCode(8)}`, 'gu')
  const lines = text.replace(struckOver, '').trim().split('\n')
  return lines.slice(1, -1).join('\n')
}

/** The words of a page's main content as Chromium shows them (innerText), with its style sheets and without scripts. */
export async function readByChromium(
  browser: Browser,
  path: string,
  main: string,
  without = '',
): Promise<string> {
  const context = await browser.newContext({ javaScriptEnabled: false })
  try {
    const page = await context.newPage()
    await page.goto(pathToFileURL(path).href, { waitUntil: 'domcontentloaded' })
    return await page.locator('body').evaluate(
      (body, selectors) => {
        if (selectors.without !== '') for (const one of body.querySelectorAll(selectors.without)) one.remove()
        return [...body.ownerDocument.querySelectorAll<HTMLElement>(selectors.main)]
          .map(({ innerText }) => innerText)
          .join('\n')
      },
      { main, without },
    )
  } finally {
    await context.close()
  }
}
