/** The main job, whole: from a source through the journal to an exported procedure, by drag, by keys, and by clicks. */
import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import { Parser } from 'commonmark'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'
import { dragWords, selectWords } from './support/words.ts'
import type { Launched } from './support/launch.ts'
import { thread } from './support/sampleThread.ts'

const entryWith = (page: Page, words: string): Locator =>
  page.locator('article.st-entry', { hasText: words }).last()
const steps = (page: Page): Locator => page.getByRole('region', { name: 'Procedure' }).locator('.st-step')
const partOf = (step: Locator, kind: string): Locator =>
  step.locator(`.st-part--${kind.replaceAll(' ', '-')}`)
const reader = (page: Page): Locator => page.locator('.st-reading .cm-content')

async function openSample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Load the sample' }).click()
  await page.getByRole('button', { name: thread.project, exact: false }).first().waitFor()
}

async function openSource(page: Page): Promise<void> {
  await page.locator('.st-source-open', { hasText: thread.source }).click()
  await expect(reader(page)).toContainText(thread.sourceWords)
}

/** The procedure as it was exported, as text. */
async function exportProcedure(program: Launched, withJournal: boolean): Promise<string> {
  const { page } = program
  await page.getByRole('button', { name: 'Export…' }).click()
  if (withJournal) await page.getByRole('checkbox', { name: /appendix/i }).check()
  const path = await catchSavedFile(program, () => page.getByRole('button', { name: 'Write file' }).click())
  return readFileSync(path, 'utf8')
}

/** What the reference parser of CommonMark sees: the literals of code blocks and the text of everything else. */
function parsed(markdown: string): { code: string[]; items: number; text: string } {
  const walker = new Parser().parse(markdown).walker()
  const code: string[] = []
  let items = 0
  let text = ''
  for (let event = walker.next(); event; event = walker.next()) {
    if (!event.entering) continue
    if (event.node.type === 'code_block') code.push(event.node.literal ?? '')
    if (
      event.node.type === 'item' &&
      event.node.listType === 'ordered' &&
      event.node.parent?.parent?.type === 'document'
    )
      items++
    text += event.node.literal ?? (event.node.type === 'softbreak' ? ' ' : '')
  }
  return { code, items, text }
}

async function checkLinks(page: Page, newStep: Locator): Promise<void> {
  await expect(partOf(newStep, 'do').getByText('quotes')).toBeVisible()
  await expect(partOf(newStep, 'expect').getByText('quotes')).toBeVisible()
  // Rewording makes a derivation of it; the other stays a quotation.
  await partOf(newStep, 'expect').locator('.st-part-text').click()
  const editor = partOf(newStep, 'expect').locator('.cm-content')
  await expect(editor).toBeFocused()
  await page.keyboard.press('Control+Home')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.type('About this: ')
  await page.keyboard.press('Control+End')
  await page.keyboard.press('ArrowUp')
  await page.keyboard.press('End')
  await page.keyboard.press('Backspace')
  await page.keyboard.press('Backspace')
  await page.keyboard.press('Escape')
  await expect(partOf(newStep, 'expect').getByText('derives')).toBeVisible()
  await expect(partOf(newStep, 'do').getByText('quotes')).toBeVisible()
}

test.describe('the thread', () => {
  test('by drag: from the words of a source to an exported procedure, over a restart, and back by undo', async ({
    program,
  }) => {
    let { page } = program
    await openSample(page)
    await openSource(page)
    const before = await steps(page).count()

    // Source → journal.
    await dragWords(page, reader(page), thread.sourceWords, () =>
      page.getByText('Entry in the journal: observation'),
    )
    const quoted = entryWith(page, thread.sourceWords)
    await expect(quoted.getByText(`from ${thread.source}`)).toBeVisible()
    await expect(quoted.getByText('quotes')).toBeVisible()

    // Journal → a new step, and → expect of the same step.
    await dragWords(page, quoted, thread.sourceWords, () => page.getByText(`New step after ${before}: why`))
    await expect(steps(page)).toHaveCount(before + 1)
    const action = entryWith(page, thread.actionWords)
    await action.scrollIntoViewIfNeeded()
    await dragWords(page, action, thread.actionWords, () => page.getByText(`Do of step ${before + 1}`))
    const newStep = steps(page).nth(before)
    await expect(partOf(newStep, 'do')).toContainText(thread.actionWords)
    const output = entryWith(page, thread.outputWords)
    await output.scrollIntoViewIfNeeded()
    await dragWords(page, output, thread.outputWords, () => page.getByText(`Expect of step ${before + 1}`))
    await expect(partOf(newStep, 'expect')).toContainText(thread.outputWords)
    await checkLinks(page, newStep)

    // Trace back to the words in the source.
    await page.getByRole('button', { name: 'All sources' }).click()
    await partOf(newStep, 'why').locator('.st-part-text').focus()
    await page.keyboard.press('Alt+t')
    const trace = page.getByRole('dialog', { name: /trace/i })
    await trace.getByRole('button', { name: new RegExp(`Go there: .*${thread.source}`) }).click()
    await expect(page.locator('.st-reading .st-mark')).toHaveText([thread.sourceWords])
    await trace.getByRole('button', { name: 'Close' }).click()

    // Export, read by the reference parser.
    const markdown = await exportProcedure(program, true)
    const { code, items, text } = parsed(markdown)
    expect(items).toBe(before + 1)
    expect(code.join('\n')).toContain(thread.actionWords)
    expect(text).toContain(thread.sourceWords)
    expect(text).toContain('About this:')
    expect(await exportProcedure(program, true)).toBe(markdown)

    // Restart: everything is there.
    await program.restart()
    ;({ page } = program)
    await expect(steps(page)).toHaveCount(before + 1)
    await expect(partOf(steps(page).nth(before), 'why').getByText('quotes')).toBeVisible()
    await expect(partOf(steps(page).nth(before), 'expect').getByText('derives')).toBeVisible()

    // Undo of the carries takes text and link together from what is shown.
    await page.locator('.st-frame').click({ position: { x: 5, y: 5 } })
    for (let presses = 0; presses < 12 && (await steps(page).count()) > before; presses++) {
      await page.getByRole('button', { name: /^Undo/ }).first().click()
      await page.waitForTimeout(250)
    }
    await expect(steps(page)).toHaveCount(before)
    const quotations = await quotedFrom(page).count()
    expect(quotations).toBeGreaterThan(0)
    await page.getByRole('button', { name: /^Undo/ }).first().click()
    await expect(page.locator('article.st-entry--withdrawn').last()).toBeVisible()
    await expect(quotedFrom(page)).toHaveCount(quotations - 1)
    expect(program.complaints).toEqual([])
  })

  test('by keys alone', async ({ program }) => {
    const { page } = program
    const press = (key: string) => page.keyboard.press(key)
    await tabTo(page, page.getByRole('button', { name: 'Load the sample' }))
    await press('Enter')
    await page.getByRole('button', { name: thread.project, exact: false }).first().waitFor()
    const before = await steps(page).count()

    await tabTo(page, page.locator('.st-source-open').first())
    await arrowTo(page, page.locator('.st-source-open', { hasText: thread.source }))
    await press('Enter')
    await expect(reader(page)).toContainText(thread.sourceWords)
    await tabTo(page, reader(page))
    await selectByKeys(page, thread.sourceWords)
    await press('Alt+c')
    await carryTo(page, 'Entry in the journal')
    const quoted = entryWith(page, thread.sourceWords)
    await expect(quoted.getByText('quotes')).toBeVisible()

    await expect(quoted).toBeFocused()
    await press('Alt+c')
    await carryTo(page, `New step after ${before}`)
    await expect(steps(page)).toHaveCount(before + 1)
    const newStep = steps(page).nth(before)
    await expect(partOf(newStep, 'why').getByText('quotes')).toBeVisible()

    // Reword it where the carry led.
    await expect(
      newStep
        .locator(':focus')
        .or(newStep.and(page.locator(':focus')))
        .first(),
    ).toBeVisible()
    await partOf(newStep, 'why').locator('.st-part-text').focus()
    await press('Enter')
    await expect(partOf(newStep, 'why').locator('.cm-content')).toBeFocused()
    await press('Control+End')
    for (let i = 0; i < 8; i++) await press('Backspace')
    await press('Escape')
    await expect(partOf(newStep, 'why').getByText('derives')).toBeVisible()
    await press('Alt+t')
    await expect(page.getByRole('dialog', { name: /trace/i })).toBeVisible()
    await tabTo(page, page.getByRole('button', { name: new RegExp(`Go there: .*${thread.source}`) }))
    await press('Enter')
    await expect(page.locator('.st-reading .st-mark')).toHaveText([thread.sourceWords])
    expect(program.complaints).toEqual([])
  })

  test('by clicks, without dragging (WCAG 2.2, 2.5.7)', async ({ program }) => {
    const { page } = program
    await openSample(page)
    await openSource(page)
    const before = await steps(page).count()
    await selectWords(page, reader(page), thread.sourceWords)
    await page.getByRole('button', { name: 'Carry…', exact: true }).first().click()
    await page.getByRole('option', { name: /Entry in the journal/ }).click()
    const quoted = entryWith(page, thread.sourceWords)
    await expect(quoted.getByText('quotes')).toBeVisible()

    await quoted.getByRole('button', { name: 'Carry this entry' }).click()
    await page.getByRole('option', { name: new RegExp(`New step after ${before}`) }).click()
    await expect(steps(page)).toHaveCount(before + 1)
    const newStep = steps(page).nth(before)
    const output = entryWith(page, thread.outputWords)
    await output.scrollIntoViewIfNeeded()
    await output.getByRole('button', { name: 'Carry this entry' }).click()
    await page.getByRole('option', { name: new RegExp(`Expect of step ${before + 1}`) }).click()
    await expect(partOf(newStep, 'expect').getByText('quotes')).toBeVisible()
    await page.getByRole('button', { name: /^Undo/ }).first().click()
    await expect(partOf(newStep, 'expect')).toHaveCount(0)
    await page.getByRole('button', { name: /^Redo/ }).first().click()
    await expect(partOf(newStep, 'expect').getByText('quotes')).toBeVisible()
    expect(program.complaints).toEqual([])
  })
})

function quotedFrom(page: Page): Locator {
  return page
    .locator('article.st-entry:not(.st-entry--withdrawn)', { hasText: thread.sourceWords })
    .getByText(`from ${thread.source}`)
}

/** Presses Tab until the wanted element has the focus. @throws when it never has */
async function tabTo(page: Page, wanted: Locator): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`Tab does not lead to ${String(wanted)}`)
}

async function arrowTo(page: Page, wanted: Locator): Promise<void> {
  for (let presses = 0; presses < 60; presses++) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('ArrowDown')
  }
  throw new Error(`arrows do not lead to ${String(wanted)}`)
}

/** Finds words by the text's own search and leaves them selected. */
async function selectByKeys(page: Page, words: string): Promise<void> {
  await page.keyboard.press('Control+f')
  await page.keyboard.type(words)
  await page.keyboard.press('Enter')
  await page.keyboard.press('Escape')
}

async function carryTo(page: Page, place: string): Promise<void> {
  await expect(page.getByRole('combobox', { name: 'Find a place' })).toBeFocused()
  await page.keyboard.type(place)
  await page.keyboard.press('Enter')
}
