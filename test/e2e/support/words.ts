/** Words on the screen, as a hand with a mouse meets them. */
import type { Locator, Page } from '@playwright/test'

interface Point {
  readonly x: number
  readonly y: number
}
interface Place {
  readonly start: Point
  readonly end: Point
  readonly middle: Point
}

/** Where words stand inside an element, found across its text nodes. @throws when they do not stand there */
export async function placeOfWords(within: Locator, words: string): Promise<Place> {
  await within.scrollIntoViewIfNeeded()
  return within.evaluate((root, wanted) => {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT)
    const nodes: Text[] = []
    while (walker.nextNode()) nodes.push(walker.currentNode as Text)
    const text = nodes.map((node) => node.data).join('')
    const at = text.indexOf(wanted)
    if (at < 0) throw new Error(`“${wanted}” is not in “${text.slice(0, 400)}”`)
    const pointAt = (offset: number, side: 'left' | 'right') => {
      let rest = offset
      const node = nodes.find((one) => {
        if (rest < one.length) return true
        rest -= one.length
        return false
      })!
      const range = document.createRange()
      range.setStart(node, rest)
      range.setEnd(node, rest + 1)
      range.startContainer.parentElement?.scrollIntoView({ block: 'nearest' })
      const box = range.getBoundingClientRect()
      return { x: side === 'left' ? box.left + 0.5 : box.right - 0.5, y: (box.top + box.bottom) / 2 }
    }
    const start = pointAt(at, 'left')
    const end = pointAt(at + wanted.length - 1, 'right')
    const first = pointAt(at + Math.min(2, wanted.length - 1), 'left')
    return { start, end, middle: first }
  }, words)
}

/** Selects words with the mouse, as a hand does. */
export async function selectWords(page: Page, within: Locator, words: string): Promise<Place> {
  await placeOfWords(within, words)
  const place = await placeOfWords(within, words)
  await page.mouse.move(place.start.x, place.start.y)
  await page.mouse.down()
  await page.mouse.move(place.end.x, place.end.y, { steps: 6 })
  await page.mouse.up()
  return place
}

/** Drags from a point onto a target that may come into being only once something is dragged. */
export async function dragFrom(page: Page, from: Point, target: () => Locator): Promise<void> {
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  await page.mouse.move(from.x + 6, from.y + 4, { steps: 3 })
  await page.mouse.move(from.x + 12, from.y + 8, { steps: 3 })
  const place = target()
  await place.waitFor({ state: 'visible' })
  await place.scrollIntoViewIfNeeded()
  const box = (await place.boundingBox())!
  const [x, y] = [box.x + Math.min(box.width / 2, 60), box.y + box.height / 2]
  await page.mouse.move(x, y, { steps: 8 })
  await page.mouse.move(x + 2, y, { steps: 2 })
  await page.mouse.up()
}

/** Selects words and drags them onto a target. */
export async function dragWords(
  page: Page,
  within: Locator,
  words: string,
  target: () => Locator,
): Promise<void> {
  const { middle } = await selectWords(page, within, words)
  await dragFrom(page, middle, target)
}
