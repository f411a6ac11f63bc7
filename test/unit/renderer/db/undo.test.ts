import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import { openTestLab } from '../../support/lab.ts'
import { beginStory, changeOf, moves, presentOf, recordsOf } from '../../support/story.ts'

const now = async (lab: Parameters<typeof recordsOf>[0]): Promise<string> =>
  JSON.stringify(presentOf(await recordsOf(lab)), (_, value: unknown) =>
    value instanceof Uint8Array ? [...value] : value,
  )

describe('undo and redo', () => {
  it('agree with two plain stacks over random acts', async () => {
    const counts = { undo: 0, redo: 0, idle: 0 }
    await fc.assert(
      fc.asyncProperty(moves(30), async (list) => {
        const lab = await openTestLab()
        await beginStory(lab)
        const [undoStack, redoStack]: [string[], string[]] = [[], []]
        for (const move of list) {
          const before = await now(lab)
          const turn = move.kind % 5
          if (turn < 2) {
            const act = turn === 0 ? 'undo' : 'redo'
            const [from, to] = turn === 0 ? [undoStack, redoStack] : [redoStack, undoStack]
            const wanted = from.pop()
            const result = await lab.committer[act]()
            if (wanted === undefined) expect(result).toMatchObject({ ok: false, code: 'nothing-left' })
            else {
              if (!result.ok) throw new Error(result.sentence)
              expect(await now(lab)).toBe(wanted)
              to.push(before)
              counts[act]++
            }
            continue
          }
          const change = await changeOf(lab, { ...move, kind: Math.floor(move.kind / 5) })
          if (!change) continue
          expect(await lab.committer.commit(change)).toMatchObject({ ok: true })
          redoStack.length = 0
          // An act that changed nothing is no step of undo.
          if ((await now(lab)) === before) counts.idle++
          else undoStack.push(before)
        }
        expect(await lab.rebuild()).toBe(true)
        lab.close()
      }),
      { numRuns: 50 },
    )
    expect(Math.min(counts.undo, counts.redo, counts.idle)).toBeGreaterThan(0)
  })

  it('name beforehand the Change that they take back', async () => {
    const lab = await openTestLab()
    await beginStory(lab)
    const [project] = (await recordsOf(lab)).projects
    const first = acts.changeProject(lab.surroundings, project!, { aim: 'Less wear' })
    const idle = acts.changeProject(lab.surroundings, { ...project!, aim: 'Less wear' }, {})
    await lab.committer.commitAll([first, idle])
    expect((await lab.committer.findTargets()).undo?.id).toBe(first.id)
    const undone = await lab.committer.undo()
    const targets = await lab.committer.findTargets()
    expect(targets.undo).toBe(null)
    expect(undone).toMatchObject({
      ok: true,
      value: { change: { id: targets.redo?.id, reverses: first.id } },
    })
  })

  it('stop at the loaded sample', async () => {
    const lab = await openTestLab()
    await lab.committer.commit(
      acts.addProject(lab.surroundings, { title: 'Own', aim: '', status: 'planned' }).change,
    )
    await beginStory(lab)
    expect(await lab.committer.undo()).toMatchObject({ ok: false, code: 'nothing-left' })
    expect((await recordsOf(lab)).projects).toHaveLength(2)
  })

  it('pass over a Change of which an earlier undo left nothing', async () => {
    const lab = await openTestLab()
    await beginStory(lab)
    const records = await recordsOf(lab)
    const procedure = records.procedures[0]!
    const node = { kind: 'part', id: '' } as { kind: 'part'; id: never }
    const commit = async (change: Change) =>
      expect(await lab.committer.commit(change)).toMatchObject({ ok: true })
    const older = acts.changeProject(lab.surroundings, records.projects[0]!, { aim: 'Less wear' })
    await commit(older)
    const step = acts.addStep(lab.surroundings, procedure.id, acts.positionAfter(records.steps, null))
    await commit(step.change)
    node.id = step.part.id as never
    const begun = step.change.operations.find((operation) => operation.op === 'text')!
    const typed = acts.writeText(lab.surroundings, node, begun.toRevision, [[0, 'Stop the logger.']])
    await commit(typed.change)
    await commit(acts.writeText(lab.surroundings, node, typed.revision, [[8, ''] as never, 8]).change)
    expect(await lab.committer.undo(typed.change.id)).toMatchObject({ ok: true })
    expect(await lab.committer.undo(step.change.id)).toMatchObject({ ok: true })
    expect(await lab.committer.undo()).toMatchObject({ ok: true, value: { change: { reverses: older.id } } })
  })

  it('pass over pictures that were only kept for an entry to come, which stay', async () => {
    const lab = await openTestLab()
    await beginStory(lab)
    const { surroundings, committer } = lab
    const [project] = (await recordsOf(lab)).projects
    const older = acts.changeProject(surroundings, project!, { aim: 'Less wear' })
    const blob = { sha256: 'a'.repeat(64), bytes: Uint8Array.of(1), mediaType: 'image/png' }
    await committer.commitAll([older, acts.keepPictures(surroundings, [blob])])
    expect((await committer.findTargets()).undo?.id).toBe(older.id)
    const undone = await committer.undo()
    expect(undone).toMatchObject({ ok: true, value: { change: { reverses: older.id } } })
    const other = { ...blob, sha256: 'b'.repeat(64) }
    await committer.commit(acts.keepPictures(surroundings, [other]))
    expect((await committer.findTargets()).undo).toBe(null)
    expect(await committer.redo()).toMatchObject({ ok: true })
    const { blobs, projects } = await recordsOf(lab)
    expect(blobs.map(({ sha256 }) => sha256)).toEqual(expect.arrayContaining([blob.sha256, other.sha256]))
    expect(projects[0]!.aim).toBe('Less wear')
  })

  it('refuses to take the same Change back twice', async () => {
    const lab = await openTestLab()
    await beginStory(lab)
    const { change } = acts.addProject(lab.surroundings, { title: 'Own', aim: '', status: 'planned' })
    await lab.committer.commit(change)
    await lab.committer.undo(change.id)
    expect(await lab.committer.undo(change.id)).toMatchObject({ ok: false, code: 'nothing-left' })
    await lab.committer.redo()
    expect(await lab.committer.undo(change.id)).toMatchObject({ ok: true })
  })
})

describe('rebuilding', () => {
  it('finds the kept derived tables right after any acts, undos of older acts and strikes', async () => {
    const counts = { older: 0, strike: 0 }
    await fc.assert(
      fc.asyncProperty(moves(40), async (list) => {
        const lab = await openTestLab()
        await beginStory(lab)
        for (const move of list) {
          const turn = move.kind % 8
          if (turn === 0) await lab.committer.undo()
          else if (turn === 1) await lab.committer.redo()
          else if (turn === 2) {
            const past = await lab.queries.changesAfter(1)
            const target = past[move.a % Math.max(1, past.length)]
            if (target && (await lab.committer.undo(target.id)).ok) counts.older++
          } else if (turn === 3 && move.a % 4 === 0) {
            const capture = (await recordsOf(lab)).captures[0]
            const struck =
              capture && (await lab.committer.strikeOut({ kind: 'capture', id: capture.id }, 'dump', ''))
            if (struck?.ok) counts.strike++
          } else {
            const change = await changeOf(lab, { ...move, kind: Math.floor(move.kind / 8) })
            if (change) await lab.committer.commit(change)
          }
        }
        expect(await lab.rebuild()).toBe(true)
        lab.close()
      }),
      { numRuns: 40 },
    )
    expect(Math.min(counts.older, counts.strike)).toBeGreaterThan(0)
  })
})
