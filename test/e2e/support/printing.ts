/** A procedure with all that paper has to show, and the words of a PDF. */
import { execFileSync } from 'node:child_process'
import type { Page } from '@playwright/test'
import { expect } from '@playwright/test'
import { addStep, beginProcedure, beginProject, chooseInMenu, pane, steps } from './panes.ts'

export const SECRET_NAME = 'pass-phrase'
/** Longer than a row of paper. */
export const longCommand = `rsync --archive --hard-links --acls --xattrs --numeric-ids --info=progress2 --exclude=/var/cache/weather --exclude=/var/tmp root@⁅host⁆:/var/lib/weather/ /mnt/copy/weather/`

/** @param count of plain steps behind the first four, so that there are several pages */
export async function writePrinted(page: Page, count: number): Promise<void> {
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
  await addStep(page, 'Pull the plug of the *old* logger.')
  await addPart(
    page,
    0,
    'Add caution',
    '**Danger:** Mains voltage stands on the terminals.\n\n*If not avoided:* a shock that can kill.\n\n*To avoid it:* Pull the plug first.',
  )
  await addStep(page, `Copy the readings:\n\n\`\`\`sh\nmount /dev/sdb1 /mnt/copy\n${longCommand}\n\`\`\``)
  await addPart(page, 1, 'Add what to expect', 'The last line says `speedup is 1.00`.')
  await addPart(page, 1, 'Add caution', '**Notice:** The disk holds the only copy.')
  await addStep(page, 'Unlock the store:\n\n```sh\nunlock --host ⁅host⁆ --with ⁅pass-phrase⁆\n```')
  await addPart(page, 2, 'Add hold point', 'A second person has read the serial number.')
  await addStep(page, '```sh\nsudo apt-get install smartmontools\n```')
  for (let i = 0; i < count; i++) {
    await addStep(
      page,
      `Plain step ${i + 1}: look at the lamp, write down what it shows, and wait until it has blinked ten times.\n\n\`\`\`sh\nlamp --wait\nlamp --blink 10\nlamp --show ${i + 1}\n\`\`\``,
    )
    if (i % 4 === 3)
      await addPart(
        page,
        4 + i,
        'Add caution',
        `**Warning:** Caution for plain step ${i + 1}, since the lamp is hot.`,
      )
  }
}

async function addPart(page: Page, step: number, line: string, text: string): Promise<void> {
  await chooseInMenu(
    page,
    steps(page)
      .nth(step)
      .getByRole('button', { name: /^More for step/ }),
    line,
  )
  await expect(pane(page, 'Procedure').locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText(text)
  await page.keyboard.press('Escape')
  await expect(pane(page, 'Procedure').locator('.cm-content')).toHaveCount(0)
}

export async function addParameter(page: Page, name: string, type: string, example: string): Promise<void> {
  await chooseInMenu(
    page,
    pane(page, 'Procedure').getByRole('button', { name: 'Add…', exact: true }),
    /^Parameter…/,
  )
  const form = page.getByRole('dialog', { name: 'Add a parameter' })
  await form.getByLabel('Name').fill(name)
  await form.getByLabel('Type').selectOption(type)
  if (example !== '') await form.getByLabel('Example').fill(example)
  await form.getByRole('button', { name: 'Add it' }).click()
  await expect(form).toHaveCount(0)
}

/** Opens the export panel and chooses paper. */
export async function choosePaper(page: Page): Promise<void> {
  await pane(page, 'Procedure').getByRole('button', { name: 'Export…' }).click()
  await page.getByRole('radio', { name: 'Paper or PDF' }).check()
}

/** The words of a PDF page by page, each run of white space one blank (pdftotext of poppler). */
export function wordsOfPages(path: string): string[] {
  const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' })
  return text
    .split('\f')
    .slice(0, -1)
    .map((page) => page.replace(/\s+/gu, ' ').trim())
}

/** What a PDF of the procedure must hold, whoever made it. @param count of plain steps */
export function expectWhole(pages: readonly string[], count: number): void {
  const whole = pages.join(' ')
  for (const [at, page] of pages.entries()) {
    expect(page, `the title on page ${at + 1}`).toContain('Bring a logger into the rack')
    expect(page, `the version and the day on page ${at + 1}`).toMatch(
      /No version marked, printed \d{4}-\d{2}-\d{2} \d{2}:\d{2}/,
    )
  }
  // Each step by its number and its words, in order.
  const words = [
    'DANGER',
    'Mains voltage stands',
    'Pull the plug of the old logger.',
    'NOTICE',
    'The disk holds the only copy.',
    'mount /dev/sdb1 /mnt/copy',
    'speedup is 1.00',
    'unlock --host',
    'Hold point',
    'Released by',
    'sudo apt-get install smartmontools',
  ]
  const steps = Array.from({ length: count }, (_, i) => `Plain step ${i + 1}: look at the lamp`)
  let from = 0
  for (const one of [...words, ...steps]) {
    const at = whole.indexOf(one, from)
    expect(at, `“${one}” behind what stands before it`).toBeGreaterThanOrEqual(0)
    from = at
  }
  // No page ends within a step, or between a caution and what it is for.
  for (let i = 1; i <= count; i++) {
    const page = pages.find((one) => one.includes(`Plain step ${i}: look`))!
    expect(page).toMatch(new RegExp(`lamp --show ${i}\\b`))
    const number = i + 4
    if (i % 4 === 0)
      expect(page).toMatch(new RegExp(`${number} WARNING Caution for plain step ${i}, .*Do Plain step ${i}:`))
    else expect(page).toContain(`${number} Do Plain step ${i}:`)
  }
  expect(whole).toMatch(/--info=progress2 \u2423\u21a9 --exclude/)
}

/** The paper of a PDF as pdfinfo of poppler names it. */
export function sizeOf(path: string): string {
  const said = execFileSync('pdfinfo', [path], { encoding: 'utf8' })
  return /Page size:.*\((.*)\)/.exec(said)?.[1] ?? said
}
