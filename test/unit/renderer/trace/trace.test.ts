import { expect, test } from 'vitest'
import { panelBox } from '../../../../renderer/trace/bandBox.ts'
import { loadTrace } from '../../../../renderer/trace/loadTrace.ts'
import { keptWords, looseWords, placesLeft, wordsAt } from '../../../../renderer/trace/words.ts'
import { writeText } from '../../../../shared/lab/acts.ts'
import type { EntryId, PartId } from '../../../../shared/lab/ids.ts'
import { replacing } from '../../../../shared/lab/text.ts'
import { openScene } from '../panes/procedure/scene.ts'

async function carriedTwice() {
  const scene = await openScene()
  const entry = (await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), {
    at: 'journal',
  })) as EntryId
  const record = (await scene.lab.queries.findEntry(entry))!
  const text = (await scene.lab.queries.findText(entry))!.text
  const place = { at: 'new step', procedure: scene.procedure, after: null } as const
  const part = (await scene.carry(scene.fromEntry(record, text), place)) as PartId
  return { scene, entry, part }
}

test('a part is traced back to its entry and on to the source', async () => {
  const { scene, entry, part } = await carriedTwice()
  const { start, back, forward, labels } = await loadTrace(scene.lab, { kind: 'part', id: part })
  expect([start.name, start.detail]).toEqual(['Why of step 1', 'Move the logger'])
  expect(back.map((hop) => hop.node.id)).toEqual([entry])
  expect(back[0]!.hops.map((hop) => hop.node.id)).toEqual([scene.capture.id])
  expect(labels.get(scene.capture.id)).toMatchObject({
    name: 'Moving a root file system',
    projects: [scene.project],
  })
  expect(labels.get(entry)!.name).toMatch(/^2026-03-02 21:\d\d:\d\d \+01:00, observation$/)
  expect(forward).toEqual([])
})

test('what came of a source came of its captures, as far as the procedure', async () => {
  const { scene, entry, part } = await carriedTwice()
  const { back, forward } = await loadTrace(scene.lab, { kind: 'source', id: scene.source.id })
  expect(back).toEqual([])
  expect(forward.map((hop) => hop.node.id)).toEqual([entry])
  expect(forward[0]!.hops.map((hop) => hop.node.id)).toEqual([part])
})

test('a reworded part shows its words of now and how much was kept', async () => {
  const { scene, part } = await carriedTwice()
  const standing = (await scene.lab.queries.standing(part))!
  const at = standing.text.indexOf('disk')
  const changeSet = replacing(standing.text.length, { start: at, end: at + 4 }, 'drive')
  const node = { kind: 'part', id: part } as const
  await scene.commit(writeText(scene.lab.surroundings, node, standing.revision, changeSet).change)
  const { back, start } = await loadTrace(scene.lab, node)
  const [hop] = back
  expect(hop!.state!.type).toBe('derives')
  expect(wordsAt(hop!.state!.newer.places, start.text!)).toContain('Name the drive by its PARTUUID.')
  expect(keptWords(hop!)).toMatch(/^8\d % of the words kept$/)
  expect(looseWords(hop!)).toBeNull()
  expect(placesLeft(hop!.state!.older.places)).toHaveLength(1)
})

test('an entry that was withdrawn is said to be', async () => {
  const { scene, entry, part } = await carriedTwice()
  const carried = (await scene.lab.queries.changesAfter(0)).find(({ operations }) =>
    operations.some((one) => one.op === 'put' && one.table === 'entries' && one.record.id === entry),
  )!
  await scene.lab.committer.undo(carried.id)
  const { labels } = await loadTrace(scene.lab, { kind: 'part', id: part })
  expect(labels.get(entry)!.state).toBe('withdrawn')
})

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
