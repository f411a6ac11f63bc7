import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { Reviewer } from '../../../../renderer/review/reviewer.ts'
import { beginProcedure, beginStep, rewritePart, writeEntry } from '../../../../renderer/store/gestures.ts'
import type { Workspace } from '../../../../renderer/store/workspace.ts'
import type { ProcedureId } from '../../../../shared/lab/ids.ts'
import type { Part } from '../../../../shared/lab/model.ts'
import { reviewProcedure } from '../../../../shared/procedure/review/review.ts'
import type { Finding, ReviewedDocument } from '../../../../shared/procedure/review/types.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

/** Longer than a Change takes on a busy machine. */
const PAUSE = 500

interface Asked {
  readonly document: ReviewedDocument
  readonly answer: () => void
}

/** A worker whose answers come when the test says so. */
function heldAsker() {
  const asked: Asked[] = []
  let closed = 0
  return {
    asked,
    closed: () => closed,
    review: (document: ReviewedDocument) =>
      new Promise<readonly Finding[]>((resolve) =>
        asked.push({ document, answer: () => resolve(reviewProcedure(document)) }),
      ),
    close: () => void (closed += 1),
  }
}

let workspace: Workspace
let procedure: ProcedureId
let part: Part
let asker: ReturnType<typeof heldAsker>
let reviewer: Reviewer
let stop: () => void

const openWords = (): string[] =>
  (reviewer.store.getState().listed?.open ?? [])
    .filter(({ rule, isStale }) => rule === 'vague words' && !isStale)
    .map(({ words }) => words)
const asks = (count: number) => vi.waitFor(() => expect(asker.asked).toHaveLength(count), { timeout: 5000 })
const reads = () => vi.waitFor(() => expect(reviewer.store.getState().isReading).toBe(false))
const rest = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

beforeEach(async () => {
  workspace = (await openTestWorkspace()).workspace
  procedure = (await beginProcedure(workspace, 'Move the logger'))!
  part = (await beginStep(workspace, procedure, null))!
  await rewritePart(workspace, part, 'Wait long enough.')
  asker = heldAsker()
  reviewer = new Reviewer(workspace, asker, PAUSE)
  stop = reviewer.look()
})
afterEach(() => stop())

describe('the review of the procedure that is shown', () => {
  it('lists nothing until it was read, then what was found', async () => {
    expect(reviewer.store.getState()).toMatchObject({ procedure, listed: null, isReading: true })
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    expect(openWords()).toEqual(['enough'])
  })

  it('never shows what an older text was found to lack, though that answer comes late', async () => {
    await asks(1)
    await rewritePart(workspace, part, 'Wait until it is properly dark.')
    await asks(2)
    asker.asked[0]!.answer()
    await rest(5)
    expect(reviewer.store.getState()).toMatchObject({ listed: null, isReading: true })
    asker.asked[1]!.answer()
    await reads()
    expect(openWords()).toEqual(['properly'])
    await rewritePart(workspace, part, 'Wait for two minutes.')
    expect(openWords()).toEqual([])
    expect(reviewer.store.getState().isReading).toBe(true)
  })

  it('begins when changes have paused, once for all of them', async () => {
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    for (const words of ['Wait.', 'Wait for one minute.', 'Wait for two minutes.'])
      await rewritePart(workspace, part, words)
    expect(asker.asked).toHaveLength(1)
    await asks(2)
    await rest(1.5 * PAUSE)
    expect(asker.asked).toHaveLength(2)
    const texts = asker.asked[1]!.document.rows.flatMap(({ parts }) => parts.map(({ text }) => text))
    expect(texts).toEqual(['Wait for two minutes.'])
  })

  it('asks nothing anew for what the rules do not look at', async () => {
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    await writeEntry(workspace, { kind: 'action', text: 'uptime' }, 'draft')
    await rest(1.5 * PAUSE)
    expect(asker.asked).toHaveLength(1)
    expect(openWords()).toEqual(['enough'])
  })

  it('does nothing while nobody looks, and catches up when somebody does', async () => {
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    stop()
    expect(asker.closed()).toBe(1)
    await rewritePart(workspace, part, 'Wait until it is properly dark.')
    await rest(1.5 * PAUSE)
    expect(asker.asked).toHaveLength(1)
    stop = reviewer.look()
    expect(openWords()).toEqual([])
    await asks(2)
    asker.asked[1]!.answer()
    await reads()
    expect(openWords()).toEqual(['properly'])
  })

  it('holds nothing that was struck out: the worker goes, and all is read anew', async () => {
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    workspace.textsStruck.emit()
    expect(asker.closed()).toBe(1)
    expect(reviewer.store.getState().listed).toBeNull()
    expect(reviewer.textRead(part.id)).toBeUndefined()
    await asks(2)
  })

  it('keeps the parts that stayed as they were, so that they are not read again', async () => {
    await asks(1)
    asker.asked[0]!.answer()
    await reads()
    const step = workspace.requireView().steps.get(part.step!)!
    await rewritePart(workspace, (await beginStep(workspace, procedure, step))!, 'Close the lid.')
    await asks(2)
    const partIn = ({ document }: Asked) =>
      document.rows.flatMap(({ parts }) => parts).find(({ id }) => id === part.id)
    expect(partIn(asker.asked[1]!)).toBe(partIn(asker.asked[0]!))
  })
})
