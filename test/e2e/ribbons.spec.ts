/** Ribbons between the panes: drawn for what the person is at and for all in view, followed by press and by key. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import { entryWith, openSample, pane, steps } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const ribbons = (page: Page): Locator => page.locator('.st-ribbons-drawn .st-ribbon')
const tabs = (page: Page, which = ''): Locator => page.locator(`.st-ribbon-tab${which}`)
const allButton = (page: Page): Locator => page.getByRole('button', { name: 'Links of all in view' })
const scroller = (page: Page): Locator => page.locator('.st-pane--procedure > .st-pane-body')

/** Where a line begins and ends on the screen. */
interface Ends {
  readonly links: string
  readonly left: { readonly x: number; readonly y: number }
  readonly right: { readonly x: number; readonly y: number }
}

/** The lines that lead from one pane to the next without a tab, each with its links. */
function endsOf(page: Page): Promise<Ends[]> {
  return ribbons(page).evaluateAll((groups) =>
    groups.flatMap((group) => {
      const lines = [...group.querySelectorAll<SVGPathElement>('.st-ribbon-line')].filter((line) =>
        /c\S+ 0 \S+ 1 /.test(line.getAttribute('d') ?? ''),
      )
      return lines.map((line) => {
        const place = line.getScreenCTM()!
        const at = (length: number): { x: number; y: number } => {
          const { x, y } = line.getPointAtLength(length).matrixTransform(place)
          return { x, y }
        }
        const [one, other] = [at(0), at(line.getTotalLength())]
        const [left, right] = one.x < other.x ? [one, other] : [other, one]
        return { links: (group as SVGGElement).dataset.links!, left, right }
      })
    }),
  )
}

test('a step’s ribbons lead from its words to the entry’s, and follow what is scrolled', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const step = steps(page).nth(4)
  await step.scrollIntoViewIfNeeded()
  await step.focus()
  // To the entry that its words came from, and back to the step.
  await page.keyboard.press('Alt+,')
  const source = entryWith(page, 'tar -C / -dzf weather-root.tar.gz').first()
  await expect(source).toBeInViewport()
  await expect(page.getByText(/^Back at 12:17/)).toBeAttached()
  await expect(ribbons(page).first()).toBeAttached()

  await expect
    .poll(async () => {
      const [from, to] = [(await source.boundingBox())!, (await step.boundingBox())!]
      return (await endsOf(page)).filter(
        ({ left, right }) =>
          left.y >= from.y &&
          left.y <= from.y + from.height &&
          right.y >= to.y &&
          right.y <= to.y + to.height,
      ).length
    })
    .toBeGreaterThan(0)

  // Scrolled by so much, the right ends stand so much higher, and the left ones where they stood.
  const before = await endsOf(page)
  const top = await scroller(page).evaluate((element) => element.scrollTop)
  await scroller(page).evaluate((element) => element.scrollBy(0, 30))
  await expect.poll(() => scroller(page).evaluate((element) => element.scrollTop)).toBe(top + 30)
  await expect
    .poll(async () => {
      const now = new Map((await endsOf(page)).map((one) => [one.links, one]))
      return before.filter(({ links, left, right }) => {
        const one = now.get(links)
        return one && Math.abs(one.left.y - left.y) < 1 && Math.abs(right.y - 30 - one.right.y) < 1
      }).length
    })
    .toBeGreaterThan(0)

  await page.keyboard.press('Alt+.')
  await expect(page.getByText(/^Returned to/)).toBeAttached()
  await expect(step).toBeInViewport()
  expect(program.complaints).toEqual([])
})

test('the ends of a chain are said, in words and by keys alone', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await page.mouse.move(640, 5)
  await allButton(page).focus()
  await page.keyboard.press('Alt+,')
  await expect(page.locator('.st-notices')).toContainText('Go to a step, an entry or a source first')
  await steps(page).nth(4).focus()
  await page.keyboard.press('Alt+.')
  await expect(page.locator('.st-notices')).toContainText('Nothing came of this yet')
  expect(program.complaints).toEqual([])
})

test('all in view are shown by a key or a press; ends out of sight are counted at the edge, and a press goes there', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await page.mouse.move(640, 5)
  await expect(steps(page).first()).toBeVisible()
  await page.keyboard.press('Alt+l')
  await expect(allButton(page)).toHaveAttribute('aria-pressed', 'true')
  await expect(ribbons(page).first()).toBeAttached()
  expect(await violationsInBoth(page)).toEqual([])

  // The journal stands at its newest entries: what came of the sources is above.
  const above = tabs(page, '[data-gap="0"][data-aside="above"].st-ribbon-tab--right')
  await expect.poll(() => above.locator('text').textContent()).toMatch(/^[1-9]\d?\+?$/)
  const shownBefore = await page.locator('.st-entry').first().getAttribute('aria-label')
  const { x, y, width, height } = (await above.boundingBox())!
  await page.mouse.click(x + width / 2, y + height / 2)
  await expect(page.locator('.st-entry').first()).not.toHaveAttribute('aria-label', shownBefore!)
  await expect(page.locator('.st-pane--journal mark').first()).toBeInViewport()

  // A pane that is folded has its ends at its edge.
  await pane(page, 'Sources').getByRole('button', { name: /^Fold/ }).click()
  await expect
    .poll(() => tabs(page, '[data-gap="0"][data-aside="folded"]').first().locator('text').textContent())
    .toMatch(/^[1-9]/)

  await allButton(page).click()
  await expect(allButton(page)).toHaveAttribute('aria-pressed', 'false')
  await page.mouse.move(640, 5)
  expect(program.complaints).toEqual([])
})
