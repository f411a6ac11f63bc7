/** What is missing in a procedure: seen, carried over by one key, left out with a reason, taken in again. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import { chooseInMenu, openSample, pane, partOf, steps, undoButton } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const panelOf = (page: Page): Locator => page.getByRole('dialog', { name: 'What is missing' })
const gaps = (page: Page): Locator => panelOf(page).locator('.st-lacking')
const listOf = (page: Page, name: string | RegExp): Locator => panelOf(page).getByRole('region', { name })
const gap = (page: Page, words: string): Locator =>
  listOf(page, /missing|not in the procedure/).locator('.st-lacking', { hasText: words })
const counted = (page: Page): Locator => panelOf(page).locator('figcaption')

/** Stands in one step of the sample alone. */
const words = 'tar -C / --one-file-system --numeric-owner -czf weather-root'
const stepWith = (page: Page): Locator => steps(page).filter({ hasText: words })

async function openPanel(page: Page): Promise<void> {
  await page.keyboard.press('Alt+g')
  await expect(gaps(page).first()).toBeFocused()
}

/** Brings the keyboard to a gap by the arrows alone. */
async function goTo(page: Page, wanted: Locator): Promise<void> {
  const key = await wanted.getAttribute('data-row')
  for (let n = 0; n < 60; n += 1) {
    if ((await page.locator(':focus').getAttribute('data-row')) === key) return
    await page.keyboard.press('ArrowDown')
  }
  throw new Error('the gap was not reached')
}

test('what a step held is missing once the step is gone, and comes back as a step by one key', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await expect(stepWith(page)).toHaveCount(1)
  await openPanel(page)
  const before = await counted(page).innerText()
  await expect(gap(page, words)).toHaveCount(0)
  await chooseInMenu(page, stepWith(page).getByRole('button', { name: /^More for step \d+$/ }), /^Remove/)
  await expect(gap(page, words)).toHaveCount(1)
  await expect(counted(page)).not.toHaveText(before)
  const without = await counted(page).innerText()

  await page.keyboard.press('Alt+g')
  await goTo(page, gap(page, words))
  await page.keyboard.press('c')
  await expect(gap(page, words)).toHaveCount(0)
  // The keyboard is at the next one.
  await expect(page.locator('.st-lacking:focus')).toHaveCount(1)
  await expect(stepWith(page)).toHaveCount(1)
  await expect(counted(page)).not.toHaveText(without)
  await expect(partOf(stepWith(page), 'do')).toContainText('12:13, fix')
  // What was done before it stands in the step before it.
  const texts = await steps(page).allTextContents()
  const at = texts.findIndex((one) => one.includes(words))
  expect(texts[at - 1]).toContain('systemctl stop weather-logger')
  expect(await violationsInBoth(page)).toEqual([])

  await undoButton(page).click()
  await expect(stepWith(page)).toHaveCount(0)
  await expect(gap(page, words)).toHaveCount(1)
  await expect(counted(page)).toHaveText(without)
  expect(program.complaints).toEqual([])
})

test('what is carried over is traced back to its entry', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await openPanel(page)
  const command = await gaps(page).first().locator('code').innerText()
  await page.keyboard.press('c')
  await expect(gap(page, command)).toHaveCount(0)
  const step = steps(page)
    .filter({ hasText: command.slice(0, 30) })
    .last()
  await panelOf(page).getByRole('button', { name: 'Close what is missing' }).click()
  await step.focus()
  await page.keyboard.press('Alt+t')
  const trace = page.getByRole('dialog', { name: 'Trace' })
  await expect(trace.locator('.st-hop').first()).toContainText(command.slice(0, 20))
  expect(program.complaints).toEqual([])
})

test('something is left out with a reason and taken in again, by keys alone', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await openPanel(page)
  const command = await gaps(page).first().locator('code').innerText()
  const second = await gaps(page).nth(1).getAttribute('data-row')
  const all = listOf(page, 'Left out').locator('.st-lacking')
  // The sample leaves some out already.
  const before = await all.count()
  await page.keyboard.press('l')
  await expect(page.getByRole('form', { name: 'Why it is left out' })).toBeVisible()
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowUp')
  await page.keyboard.press('Enter')
  const out = all.filter({ hasText: command.split('\n')[0]! })
  await expect(out).toHaveCount(1)
  await expect(all).toHaveCount(before + 1)
  await expect(out).toContainText('Done once, not part of this job.')
  await expect(gap(page, command)).toHaveCount(0)
  await expect(page.locator('.st-lacking:focus')).toHaveAttribute('data-row', second!)
  await expect(counted(page)).toContainText(`${before + 1} left out with a reason`)
  expect(await violationsInBoth(page)).toEqual([])
  await goTo(page, out)
  await page.keyboard.press('t')
  await expect(out).toHaveCount(0)
  await expect(gap(page, command)).toHaveCount(1)
  await undoButton(page).click()
  await expect(out).toHaveCount(1)

  // A reason in own words; empty ones are asked for.
  await gaps(page).first().getByRole('button', { name: 'Leave out…' }).click()
  const form = page.getByRole('form', { name: 'Why it is left out' })
  await form.getByRole('button', { name: 'Leave it out' }).click()
  await expect(form.getByLabel('Another reason')).toHaveAttribute('aria-invalid', 'true')
  await form.getByLabel('Another reason').fill('The stick is another job.')
  await page.keyboard.press('Enter')
  await expect(all).toHaveCount(before + 2)
  await expect(listOf(page, 'Left out')).toContainText('The stick is another job.')
  await page.keyboard.press('l')
  await page.keyboard.press('Escape')
  await expect(form).toHaveCount(0)
  await expect(page.locator('.st-lacking:focus')).toHaveCount(1)
  expect(program.complaints).toEqual([])
})

test('Enter leads to the entry, and from what nothing shows to have worked to its step', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await openPanel(page)
  const command = await gaps(page).first().locator('code').innerText()
  await page.keyboard.press('Enter')
  await expect(pane(page, 'Journal').locator('article.st-entry:focus')).toContainText(command.slice(0, 30))
  await page.keyboard.press('Alt+g')
  await expect(page.locator('.st-lacking:focus')).toHaveCount(1)
  const unproven = listOf(page, 'In the procedure and not shown to have worked')
    .locator('.st-lacking')
    .first()
  const number = (await unproven.locator('.st-lacking-facts').innerText()).replace('Step ', '')
  await unproven.focus()
  await page.keyboard.press('Enter')
  await expect(
    steps(page)
      .filter({ has: page.locator(':focus') })
      .locator('.st-step-number'),
  ).toHaveText(number)
  expect(program.complaints).toEqual([])
})
