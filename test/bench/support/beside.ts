/** A script of the project in another window of the browser that the program runs in, without network. */
import { fileURLToPath } from 'node:url'
import type { Page } from '@playwright/test'
import { build } from 'esbuild'

const ORIGIN = 'http://localhost:1/'

/** @param script a module @param hash what the address of its page ends in */
export async function openBeside(beside: Page, script: URL, hash = ''): Promise<Page> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(script)],
    bundle: true,
    write: false,
    format: 'esm',
    target: 'chrome114',
  })
  const page = await beside.context().newPage()
  await page.route(`${ORIGIN}**`, (route) => {
    const isScript = route.request().url().endsWith('/script.js')
    return route.fulfill({
      body: isScript
        ? outputFiles[0]!.text
        : '<!doctype html><script type="module" src="/script.js"></script>',
      contentType: isScript ? 'text/javascript' : 'text/html',
    })
  })
  await page.setViewportSize({ width: 1280, height: 800 })
  await page.goto(`${ORIGIN}#${hash}`)
  return page
}
