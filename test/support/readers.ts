/** What other programs read in a file: the yardstick for what we read in it. */
import { execFileSync } from 'node:child_process'
import { pathToFileURL } from 'node:url'
import type { Browser } from '@playwright/test'

const most = 256 * 1024 * 1024

/** A PDF's text in reading order, as poppler's pdftotext(1) gives it. */
export function readByPdftotext(path: string): string {
  return execFileSync('pdftotext', ['-enc', 'UTF-8', path, '-'], { encoding: 'utf8', maxBuffer: most })
}

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
  // eslint-disable-next-line no-control-regex -- backspaces are what is looked for
  const lines = text
    .replace(/.\u0008/gu, '')
    .trim()
    .split('\n')
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
