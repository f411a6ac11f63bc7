import { afterEach, describe, expect, it } from 'vitest'
import { FindStore } from '../../../../renderer/db/findStore.ts'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { loadSample } from '../../../../renderer/labs/loadSample.ts'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import type { FoundHit } from '../../../../renderer/workers/found.ts'
import { FindService, type FindParts } from '../../../../renderer/workers/findService.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { createLocks } from '../../support/locks.ts'

const NOW = Date.UTC(2026, 5, 1)
const open: FindService[] = []

function beginFinding(
  lab: OpenLab,
  storage: ReturnType<typeof memoryStorage>,
  parts: Partial<FindParts> = {},
): FindService {
  const service = new FindService({
    lab,
    store: new FindStore(lab.id, storage),
    locks: createLocks(),
    offsetAt: () => 0,
    onBuilding: () => undefined,
    breathe: () => new Promise((resolve) => setImmediate(resolve)),
    patienceMs: 20_000,
    ...parts,
  })
  service.begin()
  open.push(service)
  return service
}

afterEach(() => {
  for (const service of open.splice(0)) service.close()
})

const ask = (service: FindService, typed: string, limit = 10) => service.find({ typed, limit, now: NOW })

/** The words that are marked in a hit's excerpt. */
const markedIn = ({ excerpt }: FoundHit): string[] =>
  excerpt.marks.map(({ start, end }) => excerpt.text.slice(start, end))

describe('what is found in the sample', () => {
  it('is shown with its words marked, the way there and where to go', async () => {
    const storage = memoryStorage()
    const lab = await openTestLab(repeatableSurroundings(), storage)
    await loadSample(lab, sample)
    const service = beginFinding(lab, storage)
    const answer = await ask(service, 'fstab thing:step')
    expect(answer.isWhole).toBe(true)
    expect(answer.query.filters).toEqual([{ by: 'thing', thing: 'step', range: { start: 6, end: 16 } }])
    const [hit] = answer.hits
    expect(answer.hits.length).toBeGreaterThan(0)
    expect(answer.counts).toEqual([['step', answer.hits.length]])
    expect([...markedIn(hit!), ...hit!.titleMarks]).not.toEqual([])
    const { steps, parts, texts } = await lab.dump()
    const step = (steps as { id: string; procedure: string }[]).find(({ id }) => id === hit!.id)
    expect(hit!.procedure).toMatchObject({ id: step!.procedure, step: hit!.id })
    expect(hit!.procedure!.number).toMatch(/^\d+(\.\d+)?$/)
    expect(hit!.projects).toHaveLength(1)
    // It leads to a part of the step, and what is to be marked there are the words.
    if (hit!.goal.kind !== 'node') throw new Error('a step leads to one of its parts')
    const { node, ranges } = hit!.goal
    const part = (parts as { id: string; step: string }[]).find(({ id }) => id === node.id)
    expect(part?.step).toBe(hit!.id)
    const text = (texts as { node: string; text: string }[]).find((one) => one.node === node.id)!.text
    expect(ranges.map(({ start, end }) => text.slice(start, end).toLowerCase())).toContain('fstab')
    lab.close()
  })
})
