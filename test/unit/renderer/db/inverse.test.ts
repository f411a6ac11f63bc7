import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openTestLab } from '../../support/lab.ts'
import { beginStory, changeOf, moves, presentOf } from '../../support/story.ts'

/**
 * What must be equal after an act and its inverse. Revisions and withdrawals only ever grow. So do entries, which are
 * never removed: those that were withdrawn, and their texts, are left out of the comparison.
 */
const comparable = (dump: Record<string, unknown[]>) => ({
  ...(presentOf(dump as never) as object),
  drafts: dump.drafts,
  strikes: dump.strikes,
  settings: dump.settings,
})

describe('the inverse that commit returns', () => {
  it('brings every table but changes, revisions and withdrawals back, and adds exactly two Changes', async () => {
    const seen = new Set<string>()
    await fc.assert(
      fc.asyncProperty(moves(14), async (list) => {
        const lab = await openTestLab()
        await beginStory(lab)
        for (const move of list) {
          const change = await changeOf(lab, move)
          if (!change) continue
          const before = await lab.dump()
          const done = await lab.committer.commit(change)
          if (!done.ok) throw new Error(done.sentence)
          seen.add(change.act)
          const undone = await lab.committer.commit(done.value.inverse)
          if (!undone.ok) throw new Error(`${change.act}: ${undone.sentence}`)
          const after = await lab.dump()
          expect(comparable(after)).toEqual(comparable(before))
          expect(after.changes!.length).toBe(before.changes!.length + 2)
          const again = await changeOf(lab, move)
          if (again) expect(await lab.committer.commit(again)).toMatchObject({ ok: true })
        }
        lab.close()
      }),
      { numRuns: 200 },
    )
    expect([...seen]).toEqual(
      expect.arrayContaining([
        ...['accept a tag', 'add a folder', 'change sources', 'merge sources', 'read again', 'refuse a tag'],
        ...['remove a folder', 'answer a problem'],
        ...['make a parameter', 'mark a version', 'add a remark', 'silence a finding', 'leave out'],
        ...['tick a download', 'change a step'],
        ...['add a procedure', 'add a source', 'add a step', 'add an entry', 'amend an entry', 'carry'],
        ...[
          'change a project',
          'change a source',
          'copy',
          'move a step',
          'remove a part',
          'remove a step',
          'write',
        ],
      ]),
    )
  })
})
