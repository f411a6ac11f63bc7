/** What opens over the panes lies over all of them: each pane and bar paints apart, so nothing may be kept under another. */
import type { Locator, Page } from '@playwright/test'
import { chooseInMenu, entryWith, openSample, projectButton, reader, sourceRow } from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

/** The share of points, spread evenly over an element, at which the pointer meets it and nothing over it. */
async function shareOnTop(element: Locator): Promise<number> {
  return element.evaluate((box) => {
    const { left, top, width, height } = box.getBoundingClientRect()
    const shares = [0.02, 0.25, 0.5, 0.75, 0.98]
    const points = shares.flatMap((x) => shares.map((y) => [left + x * width, top + y * height] as const))
    const met = points.filter(([x, y]) => box.contains(document.elementFromPoint(x, y)))
    return met.length / points.length
  })
}

async function openProjectDialog(page: Page): Promise<Locator> {
  await chooseInMenu(page, projectButton(page), 'Start another project')
  return page.getByRole('dialog', { name: 'Start another project' })
}

test('a dialog, begun in a bar or in a pane, lies over all panes', async ({ program }) => {
  const { page } = program
  await page.setViewportSize({ width: 1280, height: 800 })
  await openSample(page)

  const project = await openProjectDialog(page)
  await expect(project).toBeVisible()
  expect(await shareOnTop(project)).toBe(1)
  await page.keyboard.press('Escape')
  await expect(project).toHaveCount(0)

  const entry = entryWith(page, thread.actionWords)
  await selectWords(page, entry, thread.actionWords)
  await entry.getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /Strike out…/ }).click()
  const strike = page.getByRole('dialog', { name: 'Strike out' })
  await expect(strike).toBeVisible()
  expect(await shareOnTop(strike)).toBe(1)
})

test('the bar beside words at the edge of a source lies over the next pane', async ({ program }) => {
  const { page } = program
  await page.setViewportSize({ width: 1280, height: 800 })
  await openSample(page)
  await sourceRow(page, thread.source).click()
  await reader(page).waitFor()
  await selectWords(page, reader(page), thread.sourceWords)
  const bar = page.getByRole('toolbar', { name: 'Selected words' })
  await expect(bar).toBeVisible()
  expect(await shareOnTop(bar)).toBe(1)
})
