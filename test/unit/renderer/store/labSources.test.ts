import fc from 'fast-check'
import { expect, test } from 'vitest'
import { advanceLabSources, toLabSources } from '../../../../renderer/store/labSources.ts'
import { touchedBy } from '../../../../renderer/store/view.ts'
import { openTestLab } from '../../support/lab.ts'
import { beginStory, changeOf, moves } from '../../support/story.ts'

test('the sources of a lab, brought up to date Change by Change, equal those read from scratch', async () => {
  await fc.assert(
    fc.asyncProperty(moves(25), async (all) => {
      const lab = await openTestLab()
      await beginStory(lab)
      let kept = toLabSources(await lab.queries.labSources())
      for (const move of all) {
        if (move.kind % 5 === 4) await lab.committer[move.a % 3 === 0 ? 'redo' : 'undo']()
        else {
          const change = await changeOf(lab, move)
          if (change) await lab.committer.commit(change)
        }
        const changes = await lab.queries.changesAfter(kept.sequence)
        kept = advanceLabSources(kept, changes, await lab.queries.captureHeads(touchedBy(changes).sources))
        expect(kept).toEqual(toLabSources(await lab.queries.labSources()))
      }
    }),
    { numRuns: 40 },
  )
}, 120_000)
