import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  advanceView,
  needsReload,
  touchedBy,
  toView,
  type ProjectView,
} from '../../../../renderer/store/view.ts'
import { openTestLab } from '../../support/lab.ts'
import { beginStory, changeOf, moves } from '../../support/story.ts'

/** Maps and sets in an order of their own, so that only what they hold is compared. */
function contentOf(view: ProjectView): unknown {
  const sorted = (map: ReadonlyMap<string, unknown>) => [...map].sort(([a], [b]) => (a < b ? -1 : 1))
  const { project, withdrawn, sequence, ...maps } = view
  return {
    project,
    sequence,
    withdrawn: [...withdrawn].sort(),
    ...Object.fromEntries(
      Object.entries(maps).map(([name, map]) => [name, sorted(map as ReadonlyMap<string, unknown>)]),
    ),
  }
}

describe('the view of a project', () => {
  it('brought up to date Change by Change equals the view read from scratch', async () => {
    await fc.assert(
      fc.asyncProperty(moves(25), fc.infiniteStream(fc.nat(9)), async (list, dice: fc.Stream<number>) => {
        const lab = await openTestLab()
        await beginStory(lab)
        const project = (await lab.queries.projects())[0]!.id
        let view = toView(project, await lab.queries.project(project))
        for (const move of list) {
          const roll = [...dice.take(1)][0]!
          const change = roll < 7 ? await changeOf(lab, move) : null
          if (change) await lab.committer.commit(change)
          else await (roll === 7 ? lab.committer.redo() : lab.committer.undo())
          const changes = await lab.queries.changesAfter(view.sequence)
          if (changes.length === 0) continue
          expect(needsReload(changes)).toBe(false)
          const { nodes, links, sources } = touchedBy(changes)
          const touched = await lab.queries.touched(nodes, links)
          view = advanceView(view, changes, touched, await lab.queries.captureHeads(sources))
          expect(contentOf(view)).toEqual(contentOf(toView(project, await lab.queries.project(project))))
        }
        lab.close()
      }),
      { numRuns: 40 },
    )
  }, 60_000)
})
