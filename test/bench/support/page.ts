/** Runs a script of the project in a page of real Chromium, with a profile of its own and no network. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Page } from '@playwright/test'
import { build } from 'esbuild'
import { isSuperuser, maybeChromium } from '../../../build/programs.mjs'

const ORIGIN = 'http://localhost:1/'

/**
 * Bundles a script, opens it in a page and measures there.
 * @param script path of a module that puts what `measure` calls on `globalThis`
 * @throws Error where no Chromium is on this machine
 */
export async function inPage<T>(
  script: string,
  measure: (page: Page, profile: string) => Promise<T>,
): Promise<T> {
  const program = maybeChromium()
  if (program === null) throw new Error('no Chromium is here (PLAYWRIGHT_CHROMIUM names none)')
  const { outputFiles } = await build({
    entryPoints: [script],
    bundle: true,
    write: false,
    format: 'esm',
    target: 'chrome114',
  })
  const profile = mkdtempSync(join(tmpdir(), 'stillroom-bench-'))
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: program,
    headless: true,
    args: isSuperuser() ? ['--no-sandbox'] : [],
  })
  try {
    await context.route('**/*', (route) => {
      const isScript = route.request().url().endsWith('/script.js')
      const body = isScript
        ? outputFiles[0]!.text
        : '<!doctype html><script type="module" src="/script.js"></script>'
      return route.fulfill({ body, contentType: isScript ? 'text/javascript' : 'text/html' })
    })
    const page = await context.newPage()
    await page.goto(ORIGIN)
    return await measure(page, profile)
  } finally {
    await context.close()
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  }
}

/** What a profile's IndexedDB takes on the disk, in bytes as the file system counts them. */
export function databaseBytes(profile: string): number {
  const said = execFileSync('du', ['--summarize', '--bytes', join(profile, 'Default/IndexedDB')], {
    encoding: 'utf8',
  })
  return Number(said.split('\t')[0])
}
