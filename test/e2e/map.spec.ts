/** The map of a project: opened, walked, lit up, filtered, read as a list and saved, by keys and by clicks. */
import { readFileSync } from 'node:fs'
import { DOMParser } from '@xmldom/xmldom'
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import { chooseInMenu, openSample, pane, projectButton, writeEntry } from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const panelOf = (page: Page): Locator => page.getByRole('dialog', { name: 'Map' })
const signs = (page: Page): Locator => panelOf(page).locator('[data-sign]')
const at = (page: Page): Locator => panelOf(page).locator('[data-sign]:focus')
const about = (page: Page): Locator => panelOf(page).getByRole('status')

async function openMap(page: Page): Promise<void> {
  await page.keyboard.press('Alt+v')
  await expect(at(page)).toHaveCount(1)
}

test('the map is opened, walked and lit up by keys, and leads to the thing', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await openMap(page)
  await expect(about(page)).toContainText(/\d+ sources?, \d+ entries and \d+ steps?, joined by \d+ links/)
  expect(await violationsInBoth(page)).toEqual([])

  const first = await at(page).getAttribute('data-sign')
  await page.keyboard.press('ArrowDown')
  await expect(at(page)).not.toHaveAttribute('data-sign', first!)
  await page.keyboard.press('ArrowUp')
  await expect(at(page)).toHaveAttribute('data-sign', first!)

  // Down the sources to one with a link, along it to the right, and back.
  const linked = panelOf(page).locator('[data-sign][aria-label*=" link"]').first()
  const wanted = await linked.getAttribute('data-sign')
  for (let n = 0; n < 40 && (await at(page).getAttribute('data-sign')) !== wanted; n += 1)
    await page.keyboard.press('ArrowDown')
  await expect(linked).toBeFocused()
  await page.keyboard.press('ArrowRight')
  await expect(linked).not.toBeFocused()
  await expect(at(page)).toHaveCount(1)

  await page.keyboard.press('Space')
  await expect(panelOf(page).locator('[data-sign][aria-pressed="true"]')).toHaveCount(1)
  await expect(about(page)).toContainText(/A chain of \d+ is lit up/)
  const lines = panelOf(page).locator('.st-map-line[data-lit]')
  await expect.poll(() => lines.count()).toBeGreaterThan(0)
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Space')
  await expect(lines).toHaveCount(0)

  await page.keyboard.press('Enter')
  await expect(panelOf(page)).toHaveCount(0)
  await expect(page.locator('[data-band] :focus')).toHaveCount(1)
  await openMap(page)
  await page.keyboard.press('Escape')
  await expect(panelOf(page)).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('filters leave what they ask for, and the list says the same as the picture', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await chooseInMenu(page, projectButton(page), 'Map of the project')
  await expect(signs(page).first()).toBeVisible()
  const whole = await about(page).innerText()
  const names = async (): Promise<string[]> =>
    (await signs(page).evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''))).sort()
  const from = panelOf(page).getByLabel('From', { exact: true })
  const last = await from.getAttribute('max')
  await from.fill(last!)
  await expect(about(page)).not.toHaveText(whole)
  const pictured = await names()
  await panelOf(page).getByRole('button', { name: 'As a list' }).click()
  const items = panelOf(page).locator('.st-map-list li')
  await expect(items).toHaveCount(pictured.length)
  expect(await violationsInBoth(page)).toEqual([])
  await panelOf(page).getByRole('button', { name: 'Show all' }).click()
  await expect(about(page)).toHaveText(whole)
  await expect.poll(() => items.count()).toBeGreaterThan(pictured.length)
  await expect(items.filter({ hasText: 'Came from:' }).first()).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('the map follows what is written while it is open', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await openMap(page)
  const before = Number(/(\d+) entries/.exec(await about(page).innerText())![1])
  await writeEntry(page, 'The humidity sensor on the mast reads 12 percent too high')
  await expect(about(page)).toContainText(`${before + 1} entries`)
  await expect(pane(page, 'Journal')).toContainText('humidity sensor on the mast')
  await panelOf(page).getByRole('button', { name: 'As a list' }).click()
  await expect(panelOf(page).locator('.st-map-list section').nth(1)).toContainText(
    /humidity sensor on|group of/,
  )
  expect(program.complaints).toEqual([])
})

test('it is saved as an SVG that stands alone and as a PNG of twice its size', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await openMap(page)
  const count = await signs(page).count()
  const click = (name: string) => () => panelOf(page).getByRole('button', { name }).click()
  const path = await catchSavedFile(program, click('Save as SVG'))
  expect(path).toMatch(/\.svg$/)
  const svg = readFileSync(path, 'utf8')
  const faults: string[] = []
  const document = new DOMParser({ onError: (_, message) => faults.push(message) }).parseFromString(
    svg,
    'image/svg+xml',
  )
  expect(faults).toEqual([])
  expect(document.getElementsByTagName('g').length).toBe(count)
  expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/href|url\(|var\(|<script|<style/)
  const root = document.documentElement!
  const size = ['width', 'height'].map((name) => Number(root.getAttribute(name)))

  const png = readFileSync(await catchSavedFile(program, click('Save as PNG')))
  // The signature and the first chunk, IHDR with width and height (W3C PNG, §5.2 and §11.2.1).
  expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10])
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual(size.map((side) => 2 * side))
  expect(program.complaints).toEqual([])
})
