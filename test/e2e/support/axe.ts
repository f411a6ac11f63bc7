/** Rules of WCAG 2.2 A and AA that a program can check (axe-core), on what is shown. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults } from 'axe-core'
import type { Page } from '@playwright/test'
import { expect } from './test.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** What breaks a rule in what is shown now: the rule, the element, and why. */
export async function violationsIn(page: Page): Promise<string[]> {
  if (!(await page.evaluate('"axe" in globalThis'))) await page.evaluate(axe)
  const found: AxeResults = await page.evaluate(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(rules)} }, resultTypes: ['violations'] })`,
  )
  expect(found.passes.length, 'rules were checked').toBeGreaterThan(5)
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map(
      (node) => `${id}: ${node.html.slice(0, 160)} – ${(node.failureSummary ?? '').replace(/\s+/g, ' ')}`,
    ),
  )
}

export async function setFace(page: Page, button: 'Theme' | 'Text size', wanted: string): Promise<void> {
  const cycle = page.getByRole('button', { name: new RegExp(`^${button}: `) })
  while ((await cycle.getAttribute('aria-label')) !== `${button}: ${wanted}`) await cycle.click()
  await page.mouse.move(640, 790)
}

/** Colours that are on their way from one theme to the other are nobody's. */
async function colorsSettled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const turning = document.getAnimations().filter((one) => one instanceof CSSTransition)
    await Promise.allSettled(turning.map(({ finished }) => finished))
  })
}

/** Looks at one place in the light and in the dark, and says what breaks a rule in either. The theme must follow the system. */
export async function violationsInBoth(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: theme })
    await expect(page.locator('html')).toHaveCSS('color-scheme', theme)
    await colorsSettled(page)
    found.push(...(await violationsIn(page)).map((one) => `${theme}: ${one}`))
  }
  return found
}
