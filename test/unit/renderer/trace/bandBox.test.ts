import { expect, test } from 'vitest'
import { panelBox } from '../../../../renderer/trace/bandBox.ts'

const window = { width: 1280, height: 800 }
const journal = { left: 320, top: 50, right: 768, bottom: 770 }
const foot = { left: 320, top: 600, right: 768, bottom: 770 }

test('a panel over the journal ends above the composer, and one beside it does not reach over it', () => {
  const over = panelBox({ pane: journal, journal, foot, window }, 15)
  expect(over.top + over.height).toBeLessThan(foot.top)
  const sources = { left: 0, top: 50, right: 280, bottom: 770 }
  const beside = panelBox({ pane: sources, journal, foot, window }, 15)
  expect(beside.left + beside.width).toBeLessThanOrEqual(journal.left)
  expect(beside.height).toBeGreaterThan(700)
})

test('a panel over a folded pane reaches over its neighbour, stays in the window and leaves the composer free', () => {
  const spine = { left: 1240, top: 50, right: 1280, bottom: 770 }
  const wide = { ...journal, right: 1200 }
  const box = panelBox({ pane: spine, journal: wide, foot: { ...foot, right: 1200 }, window }, 15)
  expect(box.left).toBeGreaterThan(0)
  expect(box.left + box.width).toBeLessThanOrEqual(window.width)
  expect(box.width).toBeGreaterThanOrEqual(17 * 15)
  expect(box.top + box.height).toBeLessThan(foot.top)
})
