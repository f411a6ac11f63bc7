import { IDBObjectStore } from 'fake-indexeddb'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { OpenLab } from '../../../../renderer/db/lab.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change, Operation } from '../../../../shared/lab/change.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { beginStory, changeOf, recordsOf, standing } from '../../support/story.ts'

async function openStory(storage = memoryStorage()) {
  const lab = await openTestLab(repeatableSurroundings(), storage)
  await beginStory(lab)
  return { lab, storage, records: await recordsOf(lab), around: lab.surroundings }
}

describe('the rules of the journal', () => {
  it('refuse with a value what would rewrite or remove a record that stands for good', async () => {
    const { lab, records, around } = await openStory()
    const carried = await changeOf(lab, { kind: 22, a: 9, b: 2, c: 0, text: 'xy' })
    await lab.committer.commit(carried!)
    const before = await lab.dump()
    const { links } = await recordsOf(lab)
    const [entry, capture] = [records.entries[0]!, records.captures[0]!]
    const attempts: Operation[] = [
      acts.put('entries', { ...entry, kind: 'fix' }),
      { op: 'remove', table: 'entries', before: entry },
      acts.put('captures', { ...capture, text: 'other' }),
      acts.put('links', { ...links[0]!, way: 'keyboard' }),
    ]
    for (const operation of attempts) {
      const project = acts.addProject(around, { title: 'Other', aim: '', status: 'planned' }).change
      const change = { ...project, operations: [...project.operations, operation] }
      expect(await lab.committer.commit(change)).toMatchObject({ ok: false, code: 'append-only' })
      expect(await lab.dump()).toEqual(before)
    }
    expect(links).toHaveLength(1)
  })

  it('refuse what names something that is not there, and the removal of what is still named', async () => {
    const { lab, records, around } = await openStory()
    const before = await lab.dump()
    const nowhere = acts.addEntry(around, { project: around.ids.make(), kind: 'fix', text: 'x' })
    expect(await lab.committer.commit(nowhere.change)).toMatchObject({ ok: false, code: 'missing' })
    for (const [table, record] of [
      ['projects', records.projects[0]!],
      ['blobs', records.blobs[0]!],
      ['sources', records.sources[0]!],
      ['procedures', records.procedures[0]!],
      ['steps', records.steps[0]!],
      ['parts', records.parts[0]!],
    ] as const) {
      const change = acts.makeChange(around, 'change a project', [
        { op: 'remove', table, before: record } as never,
      ])
      expect(await lab.committer.commit(change)).toMatchObject({ ok: false, code: 'still-used' })
    }
    expect(await lab.dump()).toEqual(before)
  })
})

describe('two windows on one lab', () => {
  it('refuse a stale revision with a value and write nothing of its Change', async () => {
    const { lab, storage, records, around } = await openStory()
    const other = await OpenLab.open(lab.id, storage, repeatableSurroundings(77))
    const node = { kind: 'part', id: records.parts[0]!.id } as const
    const { revision, text } = standing(records, node.id)
    const first = acts.writeText(around, node, revision, [[0, 'A '], text.length])
    const second = acts.writeText(other.surroundings, node, revision, [text.length, [0, ' B']])
    const project = acts.addProject(other.surroundings, { title: 'x', aim: '', status: 'planned' }).change
    const both = { ...second.change, operations: [...project.operations, ...second.change.operations] }
    expect(await lab.committer.commit(first.change)).toMatchObject({ ok: true })
    const before = await other.dump()
    expect(await other.committer.commit(both, ['a draft'])).toMatchObject({
      ok: false,
      code: 'stale-revision',
    })
    expect(await other.dump()).toEqual(before)
  })

  it('number their Changes in one sequence when both commit at once', async () => {
    const { lab, storage } = await openStory()
    const other = await OpenLab.open(lab.id, storage, repeatableSurroundings(77))
    const add = ({ committer, surroundings }: OpenLab) =>
      committer.commit(acts.addProject(surroundings, { title: 'x', aim: '', status: 'planned' }).change)
    const results = await Promise.all(Array.from({ length: 20 }, (_, i) => add(i % 2 ? lab : other)))
    expect(results.every(({ ok }) => ok)).toBe(true)
    const changes = await other.queries.changesAfter(0)
    expect(changes.map(({ sequence }) => sequence)).toEqual(Array.from({ length: 21 }, (_, i) => i + 1))
  })

  it('lose neither of two fields of one record that each changed from what it saw', async () => {
    const { lab, storage, records } = await openStory()
    const other = await OpenLab.open(lab.id, storage, repeatableSurroundings(77))
    const seen = records.projects[0]!
    const title = acts.changeProject(lab.surroundings, seen, { title: 'Logger moved' })
    const aim = acts.changeProject(other.surroundings, seen, { aim: 'Less wear' })
    expect(await lab.committer.commit(title)).toMatchObject({ ok: true })
    expect(await other.committer.commit(aim)).toMatchObject({ ok: true })
    expect((await recordsOf(lab)).projects[0]).toMatchObject({ title: 'Logger moved', aim: 'Less wear' })
    await other.committer.undo(title.id)
    expect((await recordsOf(lab)).projects[0]).toMatchObject({ title: seen.title, aim: 'Less wear' })
  })

  it('keep both projects that each added to one source, and what one took away', async () => {
    const { lab, storage, records, around } = await openStory()
    const other = await OpenLab.open(lab.id, storage, repeatableSurroundings(77))
    const [a, b] = [1, 2].map(() =>
      acts.addProject(around, { title: 'x', aim: '', status: 'planned' }),
    ) as never as [ReturnType<typeof acts.addProject>, ReturnType<typeof acts.addProject>]
    await lab.committer.commitAll([a.change, b.change])
    const seen = records.sources[0]!
    await lab.committer.commit(
      acts.changeSource(around, seen, { projects: [...seen.projects, a.project.id] }),
    )
    await other.committer.commit(acts.changeSource(other.surroundings, seen, { projects: [b.project.id] }))
    expect((await recordsOf(lab)).sources[0]!.projects).toEqual([a.project.id, b.project.id])
  })
})

describe('a full disk', () => {
  afterEach(() => vi.restoreAllMocks())

  const fail = (): never => {
    throw new DOMException('no room', 'QuotaExceededError')
  }

  it('is a value, whichever of its writes fails, and nothing of the Change is written', async () => {
    const { lab, around, records } = await openStory()
    const before = await lab.dump()
    const step = acts.addStep(around, records.procedures[0]!.id, 'a5')
    const writes = async (change: Change, failing: number) => {
      let count = 0
      const stubs = (['put', 'add'] as const).map((name) => {
        const real = IDBObjectStore.prototype[name]
        return vi.spyOn(IDBObjectStore.prototype, name).mockImplementation(function (
          this: IDBObjectStore,
          ...args
        ) {
          return count++ === failing ? fail() : real.apply(this as never, args as never)
        })
      })
      const result = await lab.committer.commit(change)
      stubs.forEach((stub) => stub.mockRestore())
      return { result, count }
    }
    let failing = 0
    for (; ; failing++) {
      const { result } = await writes(step.change, failing)
      if (result.ok) break
      expect(result.code).toBe('disk-full')
      expect(await lab.dump()).toEqual(before)
    }
    expect(failing).toBeGreaterThan(4)
    expect(await lab.rebuild()).toBe(true)
  })

  it('is a value for a draft, and the earlier draft stays', async () => {
    const { lab, around, records } = await openStory()
    const draft = {
      ...({ key: 'd', owner: 'composer', window: around.ids.make<never>(), kind: 'fix' } as const),
      ...{
        project: records.projects[0]!.id,
        text: 'one',
        facts: acts.noFacts,
        answers: null,
        saved: around.clock.now(),
      },
    }
    await lab.saveDraft(draft)
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(fail)
    expect(await lab.saveDraft({ ...draft, text: 'two' })).toMatchObject({ ok: false, code: 'disk-full' })
    vi.restoreAllMocks()
    expect(await lab.queries.drafts()).toEqual([draft])
  })

  it('is told from a closed lab', async () => {
    const { lab, around } = await openStory()
    lab.close()
    const { change } = acts.addProject(around, { title: 'x', aim: '', status: 'planned' })
    expect(await lab.committer.commit(change)).toMatchObject({ ok: false, code: 'closed' })
  })
})
