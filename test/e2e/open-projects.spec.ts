/** Several open projects: coming back to one finds its journal as it was left, in this run and in the next. */
import type { Page } from '@playwright/test'
import { openSample, pane, projectButton, switchProject } from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'

const OTHER = 'One time for the whole network'

const scroller = (page: Page) => page.locator('.st-log-scroll')

/** The entry at the head of what is in view, and how far below the edge it begins. */
function topOf(page: Page): Promise<{ entry: string; below: number }> {
  return scroller(page).evaluate((element) => {
    const edge = element.getBoundingClientRect().top
    const articles = [...element.querySelectorAll<HTMLElement>('[data-entry]')]
    const first = articles.find((article) => article.getBoundingClientRect().bottom > edge)!
    return { entry: first.dataset.entry!, below: first.getBoundingClientRect().top - edge }
  })
}

async function expectTop(page: Page, top: { entry: string; below: number }): Promise<void> {
  await expect(async () => {
    const now = await topOf(page)
    expect(now.entry).toBe(top.entry)
    expect(Math.abs(now.below - top.below)).toBeLessThan(2)
  }).toPass()
}

async function isAtEnd(page: Page): Promise<boolean> {
  return scroller(page).evaluate((one) => one.scrollHeight - one.scrollTop - one.clientHeight < 48)
}

test('switching and a restart keep how far the journal was scrolled, what was unfolded and the filter, for each project', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await switchProject(page, OTHER)
  await switchProject(page, thread.project)
  await expect.poll(() => isAtEnd(page)).toBe(true)

  await scroller(page).hover()
  await page.mouse.wheel(0, -1500)
  await expect.poll(() => isAtEnd(page)).toBe(false)
  const { entry } = await topOf(page)
  const withdrawn = (): ReturnType<Page['locator']> => program.page.locator(`article[data-entry="${entry}"]`)
  await withdrawn().focus()
  await withdrawn().getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /^Withdraw/ }).click()
  await withdrawn().getByRole('button', { name: 'Show its text' }).click()
  await page.mouse.wheel(0, -230)
  await page.waitForTimeout(500)
  const top = await topOf(page)

  await page.keyboard.press('Alt+PageDown')
  await expect(projectButton(page)).toContainText(OTHER)
  await expect.poll(() => isAtEnd(page)).toBe(true)
  await page.keyboard.press('Alt+PageUp')
  await expect(projectButton(page)).toContainText(thread.project)
  await expectTop(page, top)
  const fold = () => withdrawn().getByRole('button', { name: 'Fold its text' })
  await expect(fold()).toHaveAttribute('aria-expanded', 'true')

  await program.restart()
  await expectTop(program.page, top)
  await expect(fold()).toHaveAttribute('aria-expanded', 'true')

  const again = program.page
  const status = pane(again, 'Journal').getByRole('search').getByRole('status')
  await again.getByRole('button', { name: 'Filter the journal' }).click()
  await again
    .getByRole('group', { name: 'Kinds that are shown' })
    .getByRole('button', { name: 'Fix' })
    .click()
  await again.getByLabel('Words in the entry').fill('the')
  await expect(status).toHaveText(/^\d+ of \d+ entries$/)
  // The list follows what is typed a moment later.
  await expect(status).not.toHaveText(/^(\d+) of \1 entries$/)
  const filtered = await status.innerText()
  await again.keyboard.press('Alt+PageDown')
  await expect(projectButton(again)).toContainText(OTHER)
  await expect(status).toHaveCount(0)
  await again.keyboard.press('Alt+PageUp')
  await expect(status).toHaveText(filtered)
  await expect(again.getByLabel('Words in the entry')).toHaveValue('the')
  await expect(again.getByLabel('Words in the entry')).not.toBeFocused()

  // Words that were looked for may be a secret; they are not written to the disk.
  await program.restart()
  const fix = program.page
    .getByRole('group', { name: 'Kinds that are shown' })
    .getByRole('button', { name: 'Fix' })
  await expect(fix).toHaveAttribute('aria-pressed', 'true')
  await expect(program.page.getByLabel('Words in the entry')).toHaveValue('')
  expect(program.complaints).toEqual([])
})
