import { afterEach, describe, expect, it, vi } from 'vitest'
import { FindStore } from '../../../../renderer/db/findStore.ts'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import type { Queries } from '../../../../renderer/db/queries.ts'
import { loadSample } from '../../../../renderer/labs/loadSample.ts'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import type { FoundHit } from '../../../../renderer/workers/found.ts'
import { FindService, type FindParts } from '../../../../renderer/workers/findService.ts'
import { Segment } from '../../../../shared/find/index/segment.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import type { Entry } from '../../../../shared/lab/model.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { createLocks } from '../../support/locks.ts'

const NOW = Date.UTC(2026, 5, 1)
const open: FindService[] = []

/** Dexie watches databases in browsers alone; here one looks every now and then. */
const onSequence: FindParts['lab']['onSequence'] = (listen) => {
  const timer = setInterval(() => listen(0), 20)
  return () => clearInterval(timer)
}

function beginFinding(
  lab: OpenLab,
  storage: ReturnType<typeof memoryStorage>,
  parts: Partial<FindParts> = {},
): FindService {
  const service = new FindService({
    lab: { id: lab.id, queries: lab.queries, onSequence },
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

/** A lab with so many entries; the newest one says the secret word. */
async function openLong(entries: number) {
  const storage = memoryStorage()
  const around = repeatableSurroundings()
  const lab = await openTestLab(around, storage)
  const { project, change } = acts.addProject(around, { title: 'Roof', aim: '', status: 'planned' })
  const all = Array.from({ length: entries }, (_, at) =>
    acts.addEntry(around, {
      project: project.id,
      kind: 'action',
      text: `Wiped mirror ${at}\n\n\`\`\`\nwipe --mirror ${at % 3}\n\`\`\`\n${at === entries - 1 ? 'zwiebelkuchen' : ''}`,
    }),
  )
  await lab.committer.commitAll([change, ...all.map((one) => one.change)])
  return { lab, storage, around, project, entries: all.map(({ entry }) => entry) }
}

/** The lab's queries, of which some wait until they are let through; and how often each was asked. */
function watched(lab: OpenLab) {
  const asked = new Map<string, number>()
  const gates = new Map<string, { readonly from: number; readonly opened: Promise<void> }>()
  const queries = new Proxy(lab.queries, {
    get(all, name: string & keyof Queries) {
      const own: unknown = all[name]
      if (typeof own !== 'function') return own
      return async (...args: unknown[]): Promise<unknown> => {
        const number = (asked.get(name) ?? 0) + 1
        asked.set(name, number)
        const gate = gates.get(name)
        if (gate && number >= gate.from) await gate.opened
        return own.apply(all, args) as unknown
      }
    },
  })
  const close = (name: keyof Queries, from = 0): (() => void) => {
    let open: () => void = () => undefined
    gates.set(name, { from, opened: new Promise((resolve) => (open = resolve)) })
    return () => {
      gates.delete(name)
      open()
    }
  }
  const watchedLab: FindParts['lab'] = { id: lab.id, queries, onSequence }
  return { lab: watchedLab, asked, close }
}

/** Every word of what is kept, decoded, and the bytes themselves as letters. */
async function wordsKept(lab: OpenLab, storage: ReturnType<typeof memoryStorage>): Promise<string[]> {
  const { segments } = await new FindStore(lab.id, storage).read()
  return [...segments.values()].flatMap((bytes) => [
    ...new Segment(bytes).terms,
    Buffer.from(bytes).toString('latin1'),
  ])
}

const strike = async (lab: OpenLab, entry: EntryId): Promise<void> => {
  const result = await lab.committer.strikeOut({ kind: 'entry', id: entry }, 'zwiebelkuchen', '')
  if (!result.ok) throw new Error(result.sentence)
}

const untilKept = (lab: OpenLab, storage: ReturnType<typeof memoryStorage>) =>
  vi.waitFor(
    async () => {
      const { head } = await new FindStore(lab.id, storage).read()
      expect(head?.sequence).toBe(await lab.queries.sequence())
    },
    { timeout: 10_000 },
  )

describe('while the index is built', () => {
  it('a question is answered from the part that is there, and from all of it afterwards', async () => {
    const { lab, storage } = await openLong(400)
    const slow = watched(lab)
    const letThrough = slow.close('entryMatters', 2)
    const shares: (number | null)[] = []
    const parts = { lab: slow.lab, patienceMs: 50, onBuilding: (share: number | null) => shares.push(share) }
    const service = beginFinding(lab, storage, parts)
    // The project and the newest entries are there; one that is there is not shown before it can be read.
    await vi.waitFor(() => expect(slow.asked.get('entryMatters')).toBe(2), 10_000)
    const early = await ask(service, 'roof')
    expect([early.isWhole, early.counts]).toEqual([false, [['project', 1]]])
    letThrough()
    await vi.waitFor(async () => expect((await ask(service, 'roof mirror')).isWhole).toBe(true), 10_000)
    const whole = await ask(service, 'roof mirror')
    expect(whole.counts).toEqual([
      ['entry', 400],
      ['project', 1],
    ])
    expect([shares[0], shares.at(-1)]).toEqual([0, null])
    expect(shares.filter((share) => share !== null && share > 0 && share < 1).length).toBeGreaterThan(1)
  })

  it('what is struck out meanwhile is not answered from and not kept', async () => {
    const { lab, storage, entries } = await openLong(400)
    const slow = watched(lab)
    const service = beginFinding(lab, storage, { lab: slow.lab, patienceMs: 50 })
    await vi.waitFor(async () => expect((await ask(service, 'zwiebelkuchen')).hits).toHaveLength(1), 10_000)
    // Nothing can be read anew any more: what is there is all that could answer.
    const letThrough = slow.close('findableIds')
    await strike(lab, entries.at(-1)!.id)
    const after = await ask(service, 'zwiebelkuchen mirror')
    expect([after.isWhole, after.hits]).toEqual([false, []])
    letThrough()
    await vi.waitFor(async () => expect((await ask(service, 'mirror')).isWhole).toBe(true), 10_000)
    expect((await ask(service, 'zwiebelkuchen')).hits).toEqual([])
    expect((await ask(service, 'mirror')).counts).toEqual([['entry', 400]])
  })

  it('what is struck out in the middle of building goes with all that was built before', async () => {
    const { lab, storage, entries } = await openLong(400)
    const slow = watched(lab)
    const service = beginFinding(lab, storage, { lab: slow.lab, patienceMs: 50 })
    // Every batch looks the machines up: the second one waits.
    const letThrough = slow.close('machines', 2)
    await vi.waitFor(() => expect(slow.asked.get('machines')).toBe(2), 10_000)
    const before = await ask(service, 'zwiebelkuchen')
    expect([before.isWhole, before.hits.map(({ id }) => id)]).toEqual([false, [entries.at(-1)!.id]])
    await strike(lab, entries.at(-1)!.id)
    const after = await ask(service, 'zwiebelkuchen mirror')
    expect([after.isWhole, after.hits]).toEqual([false, []])
    letThrough()
    await vi.waitFor(async () => expect((await ask(service, 'mirror')).isWhole).toBe(true), 10_000)
    expect((await ask(service, 'mirror')).counts).toEqual([['entry', 400]])
    expect((await ask(service, 'zwiebelkuchen')).hits).toEqual([])
    await untilKept(lab, storage)
    const kept = await wordsKept(lab, storage)
    expect(kept.some((word) => word.includes('mirror'))).toBe(true)
    expect(kept.filter((word) => word.includes('zwiebel'))).toEqual([])
  })
})

describe('what is kept of an index', () => {
  it('is ready at the next start without reading the lab, and follows what was changed without it', async () => {
    const { lab, storage, around, project } = await openLong(300)
    const first = beginFinding(lab, storage)
    expect((await ask(first, 'mirror')).counts).toEqual([['entry', 300]])
    await untilKept(lab, storage)
    first.close()
    const added = acts.addEntry(around, {
      project: project.id,
      kind: 'action',
      text: 'Oiled the mirror cell.',
    })
    await lab.committer.commit(added.change)
    const { lab: again, asked } = watched(lab)
    const second = beginFinding(lab, storage, { lab: again })
    const answer = await ask(second, 'oiled', 5)
    expect([answer.isWhole, answer.hits.map(({ id }) => id)]).toEqual([true, [added.entry.id]])
    expect((await ask(second, 'mirror', 1)).counts).toEqual([['entry', 301]])
    expect(asked.get('findableIds') ?? 0).toBe(0)
    // The one that was added, and the hits themselves.
    expect(asked.get('entryMatters')).toBe(3)
  })

  it('is given from window to window: one writes, and when it ends the next goes on', async () => {
    const { lab, storage, around, project } = await openLong(20)
    const locks = createLocks()
    const [first, second] = [beginFinding(lab, storage, { locks }), beginFinding(lab, storage, { locks })]
    await untilKept(lab, storage)
    const write = (text: string) =>
      lab.committer.commit(acts.addEntry(around, { project: project.id, kind: 'action', text }).change)
    await write('Levelled the pier.')
    await untilKept(lab, storage)
    for (const service of [first, second]) expect((await ask(service, 'pier')).counts).toEqual([['entry', 1]])
    first.close()
    await write('Levelled the other pier.')
    await untilKept(lab, storage)
    expect((await ask(second, 'pier')).counts).toEqual([['entry', 2]])
    second.close()
    const { lab: again, asked } = watched(lab)
    expect((await ask(beginFinding(lab, storage, { lab: again }), 'pier')).counts).toEqual([['entry', 2]])
    expect(asked.get('findableIds') ?? 0).toBe(0)
  })

  it('is no condition for finding: where the store is broken, all is found all the same', async () => {
    const { lab, storage } = await openLong(20)
    const broken = (): Promise<never> => Promise.reject(new Error('the disk is gone'))
    const warn = vi.spyOn(console, 'warn').mockImplementation(() => undefined)
    const store = { read: broken, keep: broken, clear: broken, remake: broken }
    const service = beginFinding(lab, storage, { store })
    expect((await ask(service, 'mirror')).counts).toEqual([['entry', 20]])
    await strike(lab, (await lab.queries.findableIds()).entries[0]!)
    expect((await ask(service, 'zwiebelkuchen')).hits).toEqual([])
    expect(warn).toHaveBeenCalled()
    warn.mockRestore()
  })

  it('is made anew where it cannot be read', async () => {
    const { lab, storage } = await openLong(20)
    // A database of a version that is not known, as a newer program would leave it.
    const newer = storage.indexedDB.open(`stillroom-find-${lab.id}`, 9_000)
    await new Promise((resolve) => (newer.onsuccess = resolve))
    newer.result.close()
    const service = beginFinding(lab, storage)
    expect((await ask(service, 'mirror')).counts).toEqual([['entry', 20]])
    await untilKept(lab, storage)
  })
})

describe('an entry that was withdrawn', () => {
  it('is found behind those that stand, says so, and is no answer to a question', async () => {
    const { lab, storage, around, project } = await openLong(1)
    const write = (text: string) => acts.addEntry(around, { project: project.id, kind: 'observation', text })
    const [first, second] = [write('The turnstile squeaks.'), write('The turnstile squeaks again and again.')]
    await lab.committer.commitAll([first.change, second.change])
    const service = beginFinding(lab, storage)
    const found = async (typed: string) =>
      (await ask(service, typed)).hits.map(({ id, isWithdrawn }) => [id, isWithdrawn])
    expect(await found('turnstile')).toEqual([
      [first.entry.id, false],
      [second.entry.id, false],
    ])
    await lab.committer.commit(acts.withdrawEntry(around, first.entry.id, true))
    expect(await found('turnstile')).toEqual([
      [second.entry.id, false],
      [first.entry.id, true],
    ])
    expect(await found('turnstile is:withdrawn')).toEqual([[first.entry.id, true]])
    expect(await found('turnstile is:standing')).toEqual([[second.entry.id, false]])
    await lab.committer.commit(acts.withdrawEntry(around, second.entry.id, true))
    const { answer } = await service.answer('what does the turnstile do again?')
    expect(answer.passages.filter(({ text }) => text.includes('turnstile'))).toEqual([])
    expect((await found('turnstile')).length).toBe(2)
    await lab.committer.commit(acts.withdrawEntry(around, first.entry.id, false))
    expect(await found('turnstile is:standing')).toEqual([[first.entry.id, false]])
  })
})

describe('a procedure', () => {
  it('is found by its parameters, their values and what its versions say, and leads there', async () => {
    const { lab, storage, around, project } = await openLong(1)
    const { procedure, change } = acts.addProcedure(around, project.id, 'Level the pier')
    const made = acts.makeParameter(around, {
      ...{ procedure: procedure.id, name: 'pier-address', type: 'IPv4 address', position: 'a' },
      ...{ example: '192.0.2.17', preset: '192.0.2.1', carried: '192.0.2.44' },
      rule: { allowed: ['192.0.2.99'], within: '198.51.100.0/24' },
      help: 'It stands on the **label** below the clamp.',
    })
    const stands = { procedure, steps: [], parts: [], parameters: [made.parameter] }
    const marked = acts.markVersion(around, stands, 0, 'The clamp is turned first')
    await lab.committer.commitAll([change, made.change, marked.change])
    const service = beginFinding(lab, storage)
    const goalOf = async (typed: string) => (await ask(service, `thing:procedure ${typed}`)).hits[0]?.goal
    const parameter = { kind: 'parameter', procedure: procedure.id, id: made.parameter.id }
    for (const words of [
      ...['pier-addr', '192.0.2.17', '192.0.2.1', '192.0.2.44', '192.0.2.99', '198.51.100.0/24'],
      'label',
    ])
      expect(await goalOf(words)).toMatchObject(parameter)
    expect(await goalOf('"turned first"')).toEqual({
      ...{ kind: 'version', procedure: procedure.id, number: 1 },
      words: ['turned first'],
    })
    expect(await goalOf('level')).toMatchObject({ kind: 'node' })
    const other = acts.changeParameter(around, made.parameter, { help: 'Ask the keeper.' })
    await lab.committer.commit(other)
    expect([await goalOf('label'), await goalOf('keeper')]).toEqual([
      undefined,
      { ...parameter, words: ['keeper'] },
    ])
    await lab.committer.commit(acts.removeParameter(around, { ...made.parameter, help: 'Ask the keeper.' }))
    expect([await goalOf('keeper'), await goalOf('192.0.2.44')]).toEqual([undefined, undefined])
  })

  it('is not found by the value of a secret', async () => {
    const { lab, storage, around, project } = await openLong(1)
    const { procedure, change } = acts.addProcedure(around, project.id, 'Level the pier')
    const made = acts.makeParameter(around, {
      ...{ procedure: procedure.id, name: 'key', type: 'secret', position: 'a', rule: null, help: '' },
      ...{ example: 'bolometer', preset: 'bolometer', carried: 'bolometer' },
    })
    await lab.committer.commitAll([change, made.change])
    const service = beginFinding(lab, storage)
    expect((await ask(service, 'key')).hits).toHaveLength(1)
    expect((await ask(service, 'bolometer')).hits).toEqual([])
  })
})

describe('a step', () => {
  it('is found by remarks on it and by where the rows before it happen', async () => {
    const { lab, storage, around, project } = await openLong(1)
    const { machine, change } = acts.addMachine(around, { name: 'gate' })
    const procedure = acts.addProcedure(around, project.id, 'Level the pier')
    const first = acts.addStep(around, procedure.procedure.id, acts.positionAfter([], null))
    const next = acts.positionAfter([first.step], first.step)
    const second = acts.addStep(around, procedure.procedure.id, next)
    const all = [change, procedure.change, first.change, second.change]
    await lab.committer.commitAll(all)
    const service = beginFinding(lab, storage)
    expect((await ask(service, 'thing:step place:gate')).hits).toEqual([])
    const place = { machine: machine.id, host: null, user: null, directory: null }
    await lab.committer.commit(acts.changeStep(around, first.step, { place }))
    const idsOf = async (typed: string) => (await ask(service, typed)).hits.map(({ id }) => id)
    expect(await idsOf('thing:step place:gate')).toEqual([first.step.id, second.step.id])
    await lab.committer.commit(acts.changeMachine(around, machine, { name: 'door' }))
    expect(await idsOf('thing:step place:gate')).toEqual([])
    expect(await idsOf('thing:step place:door')).toEqual([first.step.id, second.step.id])
    const remark = acts.addRemark(around, second.step, 'Mind the spirit level.')
    await lab.committer.commit(remark.change)
    const [hit] = (await ask(service, 'spirit')).hits
    expect([hit!.id, hit!.excerpt.text, markedIn(hit!)]).toEqual([
      second.step.id,
      'Mind the spirit level.',
      ['spirit'],
    ])
    expect(hit!.goal).toEqual({ kind: 'node', node: { kind: 'part', id: second.part.id }, ranges: [] })
    await lab.committer.commit(acts.changeRemark(around, remark.remark, 'Mind the plumb line.'))
    expect(await idsOf('spirit')).toEqual([])
  })
})

describe('the commands that are found', () => {
  it('come with their runs, and follow what is written, withdrawn and struck out', async () => {
    const { lab, storage, around, project, entries } = await openLong(30)
    const { lab: counted, asked } = watched(lab)
    const service = beginFinding(lab, storage, { lab: counted })
    const find = (part: string, limit = 10) => service.findCommands({ part, limit })
    const { commands, count, isWhole } = await find('WIPE  --mirror')
    expect([count, isWhole, commands.map(({ times }) => times)]).toEqual([3, true, [10, 10, 10]])
    expect(commands[0]).toMatchObject({
      command: 'wipe --mirror 2',
      marks: [{ start: 0, end: 13 }],
      counts: { succeeded: 0, failed: 0, unknown: 10 },
      projects: [{ id: project.id, title: 'Roof' }],
    })
    expect(commands[0]!.runs[0]).toMatchObject({ entry: entries[29]!.id, machine: null, outcome: 'unknown' })
    const before = asked.get('entryMatters')!
    expect((await find('mirror 1')).count).toBe(1)
    expect(asked.get('entryMatters')).toBe(before)
    await lab.committer.commit(acts.withdrawEntry(around, entries[1]!.id, true))
    expect((await find('mirror 1')).commands[0]!.times).toBe(9)
    await lab.committer.strikeOut({ kind: 'entry', id: entries[2]!.id }, '--mirror 2', '')
    const after = await find('')
    expect(after.commands.filter(({ command }) => command.includes('--mirror 2'))).toEqual([])
    expect(after.commands.map(({ times }) => times)).toEqual([9, 10])
    expect(after).toEqual(await beginFinding(lab, storage).findCommands({ part: '', limit: 10 }))
  })
})

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
    expect(hit!.moment).toBeNull()
    // Times are told as they were written, by whichever clock that was.
    const { hits } = await ask(service, 'thing:entry in:"weather logger"')
    const { entries } = await lab.dump()
    const written = new Map((entries as Entry[]).map(({ id, moment, happened }) => [id, happened ?? moment]))
    expect(hits.length).toBeGreaterThan(5)
    for (const { id, moment } of hits) expect(moment).toBe(written.get(id as EntryId))
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

describe('a question to the sample', () => {
  it('is answered out of the lab as it stands, also by what was written since', async () => {
    const storage = memoryStorage()
    const around = repeatableSurroundings()
    const lab = await openTestLab(around, storage)
    await loadSample(lab, sample)
    const service = beginFinding(lab, storage)
    const typed = 'why does the turnstile of the garden squeak'
    const before = await service.answer(typed)
    expect([before.isWhole, before.answer.kind]).toEqual([true, 'nearest'])
    const [project] = await lab.queries.projects()
    const text = 'The turnstile of the garden squeaks, since it has no oil.'
    const { change } = acts.addEntry(around, { project: project!.id, kind: 'observation', text })
    await lab.committer.commit(change)
    const { answer } = await service.answer(typed)
    expect(answer.kind).toBe('answered')
    expect(answer.passages[0]).toMatchObject({ text, way: [project!.title] })
    expect(structuredClone(answer)).toEqual(answer)
  })
})
