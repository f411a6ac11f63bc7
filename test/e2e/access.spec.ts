/** Every place a person can be, checked by rules of WCAG 2.2 A and AA (axe-core), light and dark, and at the bench. */
import type { Page } from '@playwright/test'
import { setFace, violationsIn } from './support/axe.ts'
import {
  chooseInMenu,
  dismissNotices,
  entries,
  entryWith,
  openSample,
  pane,
  partOf,
  reader,
  sourceRow,
  steps,
} from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'

/** Whether the page as a whole scrolls sideways, and which buttons and fields reach out of the window. */
async function cutOffIn(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement
    const wide = scrollWidth > clientWidth ? [`the page is ${scrollWidth} px wide`] : []
    const controls = [
      ...document.querySelectorAll<HTMLElement>(
        'button, input, select, textarea, h1, h2, .cm-content, .st-kind-choice, .st-status',
      ),
    ]
    // What is scrolled away inside a list is in reach by scrolling; what is cut at the side is not.
    const cut = controls.filter((element) => {
      if (!element.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true })) return false
      if (element.closest('.st-unseen')) return false
      const box = element.getBoundingClientRect()
      if (box.width === 0) return false
      return box.left < -1 || box.right > innerWidth + 1
    })
    const inPanes = controls.filter((element) => {
      const frame = element.closest('.st-pane, .st-panel, dialog, .st-topbar')
      if (
        !frame ||
        !element.checkVisibility({ checkVisibilityCSS: true }) ||
        element.closest('.st-unseen, [popover]')
      )
        return false
      const [box, around] = [element.getBoundingClientRect(), frame.getBoundingClientRect()]
      return box.width > 0 && (box.left < around.left - 1 || box.right > around.right + 1)
    })
    return [...wide, ...[...new Set([...cut, ...inPanes])].map((element) => element.outerHTML.slice(0, 140))]
  })
}

type Look = (place: string) => Promise<void>

/** Goes to every place, and looks at each. */
async function lookAround(page: Page, look: Look): Promise<void> {
  const press = (key: string) => page.keyboard.press(key)
  const sources = pane(page, 'Sources')
  const procedure = pane(page, 'Procedure')
  await look('three panes')
  await sourceRow(page, thread.source).first().click()
  await expect(reader(page)).toContainText(thread.sourceWords)
  await look('reading a source')
  await page.getByRole('button', { name: 'More for this source' }).click()
  await look('menu of a source')
  await press('Escape')
  await page.getByRole('button', { name: 'All sources' }).click()
  await sources.getByRole('button', { name: 'Add a source' }).first().click()
  await press('Enter')
  await expect(page.getByText('Type an address, or paste a text below.')).toBeVisible()
  await look('adding a source, with an error')
  await page.getByRole('button', { name: 'Give up' }).click()

  await lookAtOrder(page, look)

  const entry = entryWith(page, thread.actionWords)
  await entry.scrollIntoViewIfNeeded()
  await entry.getByRole('button', { name: 'Carry this entry' }).click()
  await expect(page.getByRole('dialog', { name: 'Carry' })).toBeVisible()
  await look('places to carry to')
  await press('Escape')
  await chooseInMenu(page, entry.getByRole('button', { name: 'More for this entry' }), 'Amend')
  await expect(entry.locator('.cm-content').or(page.locator('.st-amend .cm-content')).first()).toBeFocused()
  await look('amending an entry')
  await press('Escape')
  await entries(page).last().getByRole('button', { name: 'More for this entry' }).click()
  await look('menu of an entry')
  await page.getByRole('menuitem', { name: /Strike out…/ }).click()
  await expect(page.getByRole('dialog', { name: 'Strike out' })).toBeVisible()
  await look('striking out')
  await page.getByRole('button', { name: 'Leave it as it is' }).click()
  await page.getByRole('button', { name: 'Filter the journal' }).click()
  await page.keyboard.type('no such words at all')
  await look('filter that finds nothing')
  await press('Escape')

  const linked = page.locator('.st-part', { has: page.locator('.st-from') }).first()
  await linked.locator('.st-part-text').focus()
  await press('Alt+t')
  await expect(
    page
      .getByRole('dialog', { name: /trace/i })
      .getByRole('button', { name: /^Go there/ })
      .first(),
  ).toBeVisible()
  await look('a trace')
  await press('Escape')
  await procedure.getByRole('button', { name: 'Export…' }).click()
  await look('exporting')
  await press('Escape')
  await partOf(steps(page).first(), 'do').locator('.st-part-text').click()
  await expect(partOf(steps(page).first(), 'do').locator('.cm-content')).toBeFocused()
  await look('typing in a part')
  await press('Escape')
  await steps(page).first().getByRole('button', { name: 'More for step 1' }).click()
  await look('menu of a step')
  await press('Escape')

  const where = page.locator('.st-topbar-where').getByRole('button')
  await where.first().click()
  await look('menu of labs')
  await press('Escape')
  await chooseInMenu(page, where.nth(1), 'Title, aim, status and folder')
  await look('dialog about a project')
  await press('Escape')
  await expect(page.getByRole('dialog')).toHaveCount(0)
}

/** Where sources are put in order. Leaves the list as it was. */
async function lookAtOrder(page: Page, look: Look): Promise<void> {
  const press = (key: string) => page.keyboard.press(key)
  const sources = pane(page, 'Sources')
  const bulk = page.getByRole('region', { name: 'With all that are selected' })
  await page.locator('.st-source-open').first().focus()
  await press('Space')
  await press('Shift+ArrowDown')
  await bulk.getByRole('button', { name: 'Tag…' }).click()
  await page.getByLabel('Tag for all that are selected').fill('night power')
  await press('Enter')
  await expect(bulk.getByRole('button', { name: 'night power 2' })).toBeVisible()
  await look('tagging several sources')
  await bulk.getByRole('button', { name: 'Folder…' }).click()
  await bulk.getByRole('button', { name: 'New folder' }).click()
  await page.getByLabel('Name of the new folder').fill('Rack')
  await look('naming a folder')
  await press('Enter')
  await expect(bulk.getByRole('treeitem', { name: /^Rack/ })).toHaveAttribute('aria-checked', 'true')
  await look('folders of several sources')
  await press('Delete')
  await look('removing a folder')
  await press('Escape')
  await bulk.getByRole('button', { name: 'Merge…' }).click()
  await look('merging sources')
  await page.getByRole('button', { name: 'Leave them as they are' }).click()
  await bulk.getByRole('button', { name: 'Done' }).click()
  await dismissNotices(page)

  await sources.getByRole('button', { name: 'Filter', exact: true }).click()
  const sieve = page.getByRole('region', { name: 'Filter the sources' })
  await sieve.getByRole('button', { name: /^night power/ }).click()
  await sieve.getByRole('treeitem', { name: /^Rack/ }).click()
  await look('filtering sources')
  await sieve.getByRole('button', { name: 'More for the folder “Rack”' }).click()
  await look('menu of a folder')
  await press('Escape')
  await sources.getByLabel('Filter sources by words').fill('no such words at all')
  await look('sources of which none is like that')
  await page.locator('.st-set-chips').getByRole('button', { name: 'Show all' }).click()
  await sieve.getByRole('button', { name: 'Done' }).click()
  await sources.getByRole('button', { name: /^All of the lab/ }).click()
  await look('sources of the whole lab')
  await page
    .locator('.st-source')
    .first()
    .getByRole('button', { name: /^Carry or change/ })
    .click()
  await look('menu of a row')
  await page.getByRole('menuitem', { name: 'Tags…' }).click()
  await expect(page.locator('.st-source-part .st-tag-input')).toBeFocused()
  await look('tags of a row')
  await page.locator('.st-source-part').getByRole('button', { name: 'Done' }).click()
  await chooseInMenu(
    page,
    page
      .locator('.st-source')
      .first()
      .getByRole('button', { name: /^Carry or change/ }),
    'Rename or change its address',
  )
  await look('changing what is known of a source')
  await page.getByRole('button', { name: 'Leave it as it is' }).click()
  await sources.getByRole('button', { name: /^This project/ }).click()
  // The next face begins with the same folders.
  for (let at = 0; at < 3; at++) {
    await page.locator('.st-topbar').getByRole('button', { name: /^Undo/ }).click()
    await page.waitForTimeout(250)
  }
  await expect(page.locator('.st-source-more')).toHaveCount(0)
  await dismissNotices(page)
}

test('no place breaks a rule of WCAG 2.2 A or AA, light or dark', async ({ program }) => {
  test.setTimeout(240_000)
  const { page } = program
  const found: string[] = []
  const look =
    (face: string): Look =>
    async (place) => {
      await page.waitForTimeout(250)
      for (const violation of await violationsIn(page)) found.push(`${place}, ${face}: ${violation}`)
    }
  for (const face of ['light', 'dark']) {
    await setFace(page, 'Theme', face)
    if (face === 'light') {
      await look(face)('first start')
      await openSample(page)
      await expect(steps(page).first()).toBeVisible()
    }
    await look(face)('notices')
    await dismissNotices(page)
    await lookAround(page, look(face))
  }
  // The checker finds what is there to be found.
  await page.evaluate(() => {
    const button = document.createElement('button')
    button.style.cssText = 'color: #999; background: #aaa'
    document.querySelector('.st-status')?.append(button)
  })
  expect((await violationsIn(page)).join(' ')).toContain('button-name')
  expect([...new Set(found)]).toEqual([])
  expect(program.complaints).toEqual([])
})

test('at the bench size nothing is cut off and the page does not scroll sideways; motion is reduced where it is asked for', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await openSample(page)
  const normal = await page.evaluate(() => getComputedStyle(document.querySelector('.st-status')!).fontSize)
  await setFace(page, 'Text size', 'bench')
  const bench = await page.evaluate(() => getComputedStyle(document.querySelector('.st-status')!).fontSize)
  expect(parseFloat(bench)).toBeGreaterThan(parseFloat(normal) * 1.15)
  await dismissNotices(page)
  const found: string[] = []
  await lookAround(page, async (place) => {
    await page.waitForTimeout(150)
    for (const cut of await cutOffIn(page)) found.push(`${place}: ${cut}`)
  })
  expect([...new Set(found)]).toEqual([])

  await page.emulateMedia({ reducedMotion: 'reduce' })
  const moving = await page.evaluate(
    () =>
      [...document.querySelectorAll('*')].filter((element) => {
        const { transitionDuration, animationDuration, animationName, scrollBehavior } =
          getComputedStyle(element)
        const longest = Math.max(...transitionDuration.split(',').map(parseFloat))
        return (
          longest > 0.01 ||
          (animationName !== 'none' && parseFloat(animationDuration) > 0.01) ||
          scrollBehavior === 'smooth'
        )
      }).length,
  )
  expect(moving).toBe(0)
  expect(program.complaints).toEqual([])
})
