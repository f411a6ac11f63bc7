/** Several rows are chosen by keys and by the pointer, and moved or removed together by one act with one undo. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  chooseInMenu,
  pane,
  steps,
  undoButton,
} from './support/panes.ts'
import { holdDatabase } from './support/busyDatabase.ts'
import { longProcedureFile } from '../support/long-procedure.ts'
import type { Launched } from './support/launch.ts'
import { chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const rows = (page: Page): Locator => pane(page, 'Procedure').locator('.st-steps li[data-step]')
const picked = (page: Page): Locator => pane(page, 'Procedure').locator('.st-step--picked')
const bar = (page: Page): Locator => page.getByRole('group', { name: 'The chosen rows' })
/** The first words of each row, sections in brackets. */
const words = (page: Page): Promise<string[]> =>
  rows(page).evaluateAll((all) =>
    all.map((row) => {
      const text = row.querySelector('.st-part-read, .st-section-words')?.textContent?.trim() ?? ''
      return row.classList.contains('st-row-section') ? `[${text}]` : text
    }),
  )

async function addSection(page: Page, text: string): Promise<void> {
  await chooseInMenu(
    page,
    pane(page, 'Procedure').getByRole('button', { name: 'Add…', exact: true }),
    /^Section/,
  )
  await expect(pane(page, 'Procedure').locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText(text)
  await page.keyboard.press('Escape')
  await expect(pane(page, 'Procedure').locator('.cm-content')).toHaveCount(0)
}

/** Begins with a procedure of many rows, of which only some are drawn. */
async function openLong(program: Launched): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-rows-'))
  try {
    const path = join(folder, 'long.zip')
    writeFileSync(path, await longProcedureFile(150))
    await chooseFiles(program, [path], () =>
      program.page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await expect(steps(program.page).first()).toBeVisible()
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Turns the wheel until a row is drawn. */
async function scrollTo(page: Page, row: Locator): Promise<void> {
  for (let turns = 0; turns < 100 && (await row.count()) === 0; turns++) {
    await page.mouse.wheel(0, 900)
    await page.waitForTimeout(30)
  }
}

test('fifty steps are chosen at once, moved and removed, and one undo brings each back', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await beginProject(page, 'Move the logger')
  await beginProcedure(page, 'Move the logger')
  const names = Array.from({ length: 50 }, (_, i) => `Look at lamp ${i + 1}`)
  for (const name of names) await addStep(page, name)
  await addSection(page, 'The end')
  const before = [...names, '[The end]']
  expect(await words(page)).toEqual(before)

  await steps(page).first().focus()
  await steps(page)
    .nth(49)
    .locator('.st-step-number')
    .click({ modifiers: ['Shift'] })
  await expect(bar(page)).toContainText('50 rows, step 1 to step 50')
  await expect(picked(page)).toHaveCount(50)
  await expect(steps(page).nth(49)).toBeFocused()
  await page.keyboard.press('Alt+ArrowDown')
  await expect.poll(() => words(page)).toEqual(['[The end]', ...names])
  await expect(picked(page)).toHaveCount(50)
  await undoButton(page).click()
  await expect.poll(() => words(page)).toEqual(before)

  // With the section too, there is no other place; removing them is one act.
  await steps(page).first().focus()
  await page.keyboard.press('Control+a')
  await expect(bar(page)).toContainText('51 rows')
  await expect(bar(page).getByRole('button', { name: 'Move down' })).toHaveAttribute('aria-disabled', 'true')
  await page.keyboard.press('Delete')
  await expect(rows(page)).toHaveCount(0)
  await expect(page.locator('.st-notices')).toContainText('51 rows removed.')
  await undoButton(page).click()
  await expect.poll(() => words(page)).toEqual(before)
  expect(program.complaints).toEqual([])
})

test('rows are chosen by Shift and arrows with all under them, by clicks, and by dragging one of them', async ({
  start,
}) => {
  // So high that all rows are in view while one is dragged.
  const program = await start({ size: { width: 1280, height: 1300 } })
  const { page } = program
  await beginProject(page, 'Move the logger')
  await beginProcedure(page, 'Move the logger')
  for (const name of ['A', 'B', 'C', 'D', 'E']) await addStep(page, name)
  await steps(page).nth(2).focus()
  await page.keyboard.press('Alt+ArrowRight')
  await expect(steps(page).nth(2).locator('.st-step-number')).toHaveText('2.1')

  // A and B take C along, which is a sub-step of B.
  await steps(page).first().focus()
  await page.keyboard.press('Shift+ArrowDown')
  await expect(bar(page)).toContainText('3 rows, step 1 to step 2.1')
  await expect(page.getByText('3 rows, step 1 to step 2.1 chosen.')).toBeAttached()
  await expect(steps(page).nth(1)).toHaveAccessibleName('Step 2, chosen')
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Alt+ArrowDown')
  await expect.poll(() => words(page)).toEqual(['D', 'A', 'B', 'C', 'E'])
  await expect(steps(page).nth(2)).toBeFocused()
  await page.keyboard.press('Alt+ArrowDown')
  await expect.poll(() => words(page)).toEqual(['D', 'E', 'A', 'B', 'C'])
  await page.keyboard.press('Alt+ArrowDown')
  await expect(page.getByText('They stand at the end.')).toBeAttached()
  await bar(page).getByRole('button', { name: 'Move up' }).click()
  await expect.poll(() => words(page)).toEqual(['D', 'A', 'B', 'C', 'E'])

  // An arrow alone and Escape choose nothing any more; what is chosen is no concern of a text.
  await steps(page).nth(1).focus()
  await page.keyboard.press('Escape')
  await expect(bar(page)).toHaveCount(0)
  await page.keyboard.press('Delete')
  await expect(rows(page)).toHaveCount(5)
  await page.keyboard.press('Shift+ArrowUp')
  await expect(bar(page)).toContainText('2 rows')
  await page.keyboard.press('ArrowDown')
  await expect(bar(page)).toHaveCount(0)

  // The handle with Shift chooses, and dragged it takes all chosen rows along.
  await steps(page).first().focus()
  await steps(page)
    .nth(1)
    .getByRole('button', { name: 'Move step 2', exact: true })
    .click({ modifiers: ['Shift'] })
  await expect(bar(page)).toContainText('2 rows, step 1 to step 2')
  const last = steps(page).nth(4)
  const { height } = (await last.boundingBox())!
  await steps(page)
    .first()
    .locator('.st-handle')
    .dragTo(last, { targetPosition: { x: 60, y: height - 6 } })
  await expect.poll(() => words(page)).toEqual(['B', 'C', 'E', 'D', 'A'])
  await undoButton(page).click()
  await expect.poll(() => words(page)).toEqual(['D', 'A', 'B', 'C', 'E'])
  expect(program.complaints).toEqual([])
})

test('of a long procedure only what is near the view is drawn, and every row is reached', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await openLong(program)
  const row = (gauge: number): Locator => steps(page).filter({ hasText: `Read gauge ${gauge}:` })
  expect(await steps(page).count()).toBeLessThan(60)
  // 150 steps in eight sections; the gauges are numbered through all rows.
  await expect(row(1)).toHaveAttribute('aria-setsize', '158')

  await row(1).focus()
  await page.keyboard.press('End')
  await expect(row(157)).toBeFocused()
  await expect(row(157)).toBeInViewport()
  await expect(row(157)).toHaveAttribute('aria-posinset', '158')
  // Moved from block to block, it keeps the keyboard.
  for (let moves = 1; moves <= 10; moves++) {
    const before = await row(157).getAttribute('aria-posinset')
    await page.keyboard.press('Alt+ArrowUp')
    await expect(row(157)).not.toHaveAttribute('aria-posinset', before!)
    await expect(row(157)).toBeFocused()
  }
  // Who goes on before a move is written is not brought back by it. The first row is the first section's heading.
  const said = page.getByText(/^Moved\. It is step/)
  const before = (await said.textContent())!
  await page.keyboard.press('Alt+ArrowUp')
  await page.keyboard.press('Home')
  await expect(said).not.toHaveText(before)
  await expect(rows(page).first()).toBeFocused()
  await expect(rows(page).first()).toBeInViewport()
  await expect(row(157)).toHaveCount(0)

  // What is typed stays open far from the view, with what was typed.
  await row(1).locator('.st-part-read').first().click()
  await page.keyboard.press('Control+Home')
  await page.keyboard.insertText('Soon: ')
  await row(1).hover()
  await scrollTo(page, row(100))
  await expect(row(100)).toBeVisible()
  await expect(row(1).locator('.cm-content')).toContainText('Soon: Read gauge 1')
  await expect(row(12)).toHaveCount(0)
})

test('what is typed into the forms of a row stays there while the person is far from it', async ({
  program,
}) => {
  const { page } = program
  await openLong(program)
  const row = (gauge: number): Locator => steps(page).filter({ hasText: `Read gauge ${gauge}:` })
  await row(1).focus()
  await page.keyboard.press('Alt+r')
  await page.keyboard.type('Look twice')
  await page.keyboard.press('Control+Enter')
  await row(1).getByRole('button', { name: 'Change this remark' }).click()
  await page.keyboard.press('Control+End')
  await page.keyboard.type(' at it')
  await row(2).focus()
  await page.keyboard.press('Alt+p')
  await expect(row(2).locator('form')).toBeVisible()
  const place = row(2).getByRole('textbox').first()
  await place.fill('At the rack')

  await row(2).hover()
  await scrollTo(page, row(50))
  await row(50).focus()
  await scrollTo(page, row(100))
  await expect(row(100)).toBeVisible()
  await expect(row(20)).toHaveCount(0)
  await expect(row(1).getByLabel('Remark', { exact: true })).toHaveValue('Look twice at it')
  await expect(place).toHaveValue('At the rack')
  expect(program.complaints).toEqual([])
})

test('a row of a long procedure keeps the keyboard at every moment while it is moved and moved back', async ({
  program,
}) => {
  const { page } = program
  await openLong(program)
  const row = steps(page).filter({ hasText: 'gauge 1:' })
  await row.focus()
  // Looked at as soon as the page has changed, before any key can come.
  await row.evaluate((one) => {
    new MutationObserver(() => {
      if (document.activeElement !== one) one.setAttribute('data-lost', '')
    }).observe(one.closest('.st-procedure')!, { childList: true, subtree: true })
  })
  for (const keys of ['Alt+ArrowDown', 'Control+z', 'Control+y', 'Alt+ArrowUp', 'Alt+ArrowDown'])
    for (let moves = 1; moves <= 9; moves++) {
      const before = (await row.getAttribute('aria-posinset'))!
      await page.keyboard.press(keys)
      await expect(row).not.toHaveAttribute('aria-posinset', before)
    }
  await expect(row).toBeFocused()
  await expect(row).not.toHaveAttribute('data-lost')
  expect(program.complaints).toEqual([])
})

test('who begins to type in a row of a long procedure before its move is written goes on where they were', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await openLong(program)
  const id = (await steps(page).filter({ hasText: 'gauge 1:' }).getAttribute('data-step'))!
  const row = page.locator(`[data-step="${id}"]`)
  const letters = 'abcdefghijklmnopqrstuvwxyz'
  let wanted = 'Read gauge'
  const ways = [...Array<string>(9).fill('Alt+ArrowDown'), ...Array<string>(9).fill('Alt+ArrowUp')]
  for (const isSlow of [false, true])
    for (const way of ways) {
      await row.focus()
      const place = await row.getAttribute('aria-posinset')
      const letGo = isSlow ? await holdDatabase(page) : null
      for (const key of [way, 'Enter', 'Control+Home']) await page.keyboard.press(key)
      // Into the middle of the text, for as long as it takes to write the move; or all before it is.
      await page.keyboard.type(letters, { delay: isSlow ? 0 : 4 })
      if (isSlow) await expect(row).toHaveAttribute('aria-posinset', place!)
      await letGo?.()
      await expect(row).not.toHaveAttribute('aria-posinset', place!)
      await page.keyboard.type('!')
      wanted = `${letters}!${wanted}`
      await page.keyboard.press('Escape')
      await expect(row.locator('.cm-content')).toHaveCount(0)
      await expect(row.locator('.st-part-read').first()).toContainText(wanted)
    }
  expect(program.complaints).toEqual([])
})
