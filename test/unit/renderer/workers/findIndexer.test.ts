import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { FindStore } from '../../../../renderer/db/findStore.ts'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { loadSample } from '../../../../renderer/labs/loadSample.ts'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import { FindIndexer } from '../../../../renderer/workers/findIndexer.ts'
import type { LabIndex } from '../../../../shared/find/index/lab-index.ts'
import { Segment } from '../../../../shared/find/index/segment.ts'
import { search } from '../../../../shared/find/index/search.ts'
import { readQuery } from '../../../../shared/find/query/read-query.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { pick } from '../../support/records.ts'
import { beginStory, changeOf, moves, recordsOf, type Move } from '../../support/story.ts'

const typed = [
  'dump',
  'disk',
  'ran dum',
  '"dump disk"',
  'logger move -disk',
  'kind:action',
  'thing:step dump',
  'place:gate',
  'tag:rack disk',
  'gate',
  'in:Logger a',
  'titel',
  'is:withdrawn',
  'dump is:standing',
]

/** Ids, order and scores of every query. */
const answersOf = (index: LabIndex): unknown =>
  typed.map((words) => {
    const query = readQuery(words, { now: 0, offsetAt: () => 0, projects: [] })
    return search(index, query, { limit: 50, withdrawn: true }).hits.map(({ id, score }) => [id, score])
  })

async function rebuilt(lab: OpenLab): Promise<LabIndex> {
  return indexOf(new FindIndexer(lab.queries, new FindStore(lab.id, memoryStorage())))
}

async function indexOf(indexer: FindIndexer): Promise<LabIndex> {
  await indexer.catchUp()
  return indexer.index
}

async function commit(lab: OpenLab, change: Change): Promise<void> {
  const result = await lab.committer.commit(change)
  if (!result.ok) throw new Error(result.sentence)
}

/** What the story's own acts leave out: machines and places, tags, withdrawals, undo and striking out. */
async function beside(lab: OpenLab, { a, b, c, text }: Move): Promise<void> {
  const around = lab.surroundings
  const records = await recordsOf(lab)
  const entry = pick(records.entries, b)!
  const machines = await lab.queries.machines()
  const machine = pick(machines, c)
  switch (a % 8) {
    case 0: {
      const name = `gate${machines.length}`
      return commit(lab, acts.addMachine(around, { name }).change)
    }
    case 1:
      if (machine) await commit(lab, acts.changeMachine(around, machine, { name: `gate ${text}` }))
      return
    case 2: {
      const place = { machine: machine?.id ?? null, host: 'gate', user: null, directory: '/etc/fstab' }
      const project = pick(records.projects, c)!
      return commit(lab, acts.addEntry(around, { project: project.id, kind: 'problem', text, place }).change)
    }
    case 3:
      return commit(lab, acts.withdrawEntry(around, entry.id, c % 2 === 0))
    case 4:
      return commit(
        lab,
        acts.changeTags(around, { kind: 'entry', record: entry, tags: null }, ['rack', text || 'a']),
      )
    case 5:
    case 6:
      await lab.committer.undo()
      return
    case 7:
      // Refused where it does not stand: then nothing happened.
      await lab.committer.strikeOut({ kind: 'entry', id: entry.id }, c % 2 === 0 ? 'dump' : 'disk', '')
  }
}

describe('the index that is kept', () => {
  it('answers, after any acts, catching up and restarts, as one that is built anew', async () => {
    await fc.assert(
      fc.asyncProperty(moves(40), fc.array(fc.nat({ max: 5 }), { maxLength: 40 }), async (list, then) => {
        const storage = memoryStorage()
        const lab = await openTestLab()
        await beginStory(lab)
        const begin = async (): Promise<FindIndexer> => {
          const indexer = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
          await indexer.becomeKeeper()
          return indexer
        }
        let indexer = await begin()
        for (const [at, move] of list.entries()) {
          if (at % 2 === 0) await beside(lab, move)
          else {
            const change = await changeOf(lab, move)
            if (change) await lab.committer.commit(change)
          }
          if (then[at] === 0) indexer = await begin()
          else if (then[at] === 1) await indexer.tidy()
          else if (then[at] !== 2) await indexer.catchUp()
        }
        await indexer.catchUp()
        const again = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
        const anew = answersOf(await rebuilt(lab))
        expect(answersOf(indexer.index)).toEqual(anew)
        expect(answersOf(await indexOf(again))).toEqual(anew)
        lab.close()
      }),
      { numRuns: 60 },
    )
  })

  it('holds no word of what was struck out, also of former states, in any of its bytes', async () => {
    const { lab, storage, entry } = await openWithSecret()
    const indexer = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
    await indexer.becomeKeeper()
    expect(await wordsKept(lab, storage)).toContain('zwiebelkuchen')
    const result = await lab.committer.strikeOut({ kind: 'entry', id: entry }, 'zwiebelkuchen', 'a secret')
    expect(result.ok).toBe(true)
    await indexer.catchUp()
    const words = await wordsKept(lab, storage)
    expect(words.length).toBeGreaterThan(20)
    expect(words.filter((word) => word.includes('zwiebel'))).toEqual([])
    lab.close()
  })

  it('is built anew where what is kept is damaged, and says how far it is', async () => {
    const { lab, storage } = await openWithSecret()
    const first = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
    await first.becomeKeeper()
    const store = new FindStore(lab.id, storage)
    const { head, segments, struck } = await store.read()
    const [name, bytes] = [...segments][0]!
    const broken = bytes.slice()
    broken[broken.length >> 1]! ^= 1
    await store.keep({ head: head!, put: [{ name, bytes: broken }] }, struck as number)
    const told: (number | null)[] = []
    const next = new FindIndexer(lab.queries, store, (share) => told.push(share))
    await next.becomeKeeper()
    expect(told[0]).toBe(0)
    expect(told.at(-1)).toBe(null)
    expect(answersOf(next.index)).toEqual(answersOf(await rebuilt(lab)))
    expect((await store.read()).segments.get(name)).not.toEqual(broken)
    lab.close()
  })

  it('of two windows is written by one alone, and taken over whole by the other', async () => {
    const { lab, storage, entry } = await openWithSecret()
    const keeper = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
    const other = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
    await keeper.becomeKeeper()
    await other.catchUp()
    const before = await new FindStore(lab.id, storage).read()
    await commit(lab, acts.withdrawEntry(lab.surroundings, entry, true))
    await other.catchUp()
    await other.tidy()
    expect(await new FindStore(lab.id, storage).read()).toEqual(before)
    await keeper.catchUp()
    await other.becomeKeeper()
    await commit(lab, acts.withdrawEntry(lab.surroundings, entry, false))
    await other.catchUp()
    const read = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
    expect(answersOf(await indexOf(read))).toEqual(answersOf(await rebuilt(lab)))
    lab.close()
  })

  it('is no part of a lab that was deleted', async () => {
    const { lab, storage } = await openWithSecret()
    await new FindIndexer(lab.queries, new FindStore(lab.id, storage)).becomeKeeper()
    await lab.destroy()
    const names = (await storage.indexedDB.databases()).map(({ name }) => name)
    expect(names.filter((name) => name?.includes(lab.id))).toEqual([])
  })

  it('holds all of the sample, what was withdrawn too', async () => {
    const lab = await openTestLab(repeatableSurroundings())
    await loadSample(lab, sample)
    const index = await rebuilt(lab)
    const { sources, entries, procedures, steps, projects, machines, withdrawals } = await lab.dump()
    const all = [sources, entries, procedures, steps, projects, machines].flat()
    expect(index.documents).toBe(all.length)
    const query = readQuery('is:withdrawn', { now: 0, offsetAt: () => 0, projects: [] })
    const { hits } = search(index, query, { limit: 50, withdrawn: true })
    expect([hits.length, withdrawals!.length > 0]).toEqual([withdrawals!.length, true])
    lab.close()
  })
})

async function openWithSecret() {
  const storage = memoryStorage()
  const lab = await openTestLab(repeatableSurroundings(), storage)
  const around = lab.surroundings
  const project = acts.addProject(around, {
    title: 'Move the logger',
    aim: 'To its own disk',
    status: 'planned',
  })
  await commit(lab, project.change)
  const added = acts.addEntry(around, {
    project: project.project.id,
    kind: 'action',
    text: 'Logged in with zwiebelkuchen on the gate of the dome, then looked at the disk.',
  })
  await commit(lab, added.change)
  const other = acts.addEntry(around, {
    project: project.project.id,
    kind: 'observation',
    text: 'The rain gauge said nothing: /etc/fstab names the old disk by its letter.',
  })
  await commit(lab, other.change)
  return { lab, storage, entry: added.entry.id }
}

/** Every word of every segment as it is kept, decoded, and what can be read in the bytes themselves. */
async function wordsKept(lab: OpenLab, storage: ReturnType<typeof memoryStorage>): Promise<string[]> {
  const { segments } = await new FindStore(lab.id, storage).read()
  return [...segments.values()].flatMap((bytes) => {
    const { terms } = new Segment(bytes)
    const decoded = Array.from({ length: terms.length }, (_, at) => terms.get(at))
    return [...decoded, ...new TextDecoder('latin1').decode(bytes).split(/[^a-z]+/)]
  })
}
