import fc from 'fast-check'
import { expect, test } from 'vitest'
import { graphOf, LabGraph } from '../../../../renderer/trace/labGraph.ts'
import { loadTrace, type LoadedTrace } from '../../../../renderer/trace/loadTrace.ts'
import { keptWords, looseWords, placesLeft, wordsAt } from '../../../../renderer/trace/words.ts'
import {
  readLinks,
  readLinksApart,
  type LinksMessage,
  type LinksWorker,
} from '../../../../renderer/workers/links.ts'
import { answerProblem, removeSteps } from '../../../../shared/lab/acts.ts'
import { toGraphLink, type GraphLink } from '../../../../shared/provenance/graph.ts'
import { flattenTrace } from '../../../../shared/provenance/trace.ts'
import { recordsOf } from '../../support/records.ts'
import { carriedTwice, markNow, reuse, rewrite } from './scene.ts'

/** The hops as nested lists of the things that they lead to. */
type Nested = readonly [string, readonly Nested[]]
const nested = ({ hops }: Pick<LoadedTrace, 'hops'>): readonly Nested[] =>
  hops.map((hop) => [hop.node.id, nested(hop)] as const)

test('a part is traced back to its entry and on to the source, with its way in', async () => {
  const { scene, entry, part } = await carriedTwice()
  const trace = await loadTrace(scene.lab, { kind: 'part', id: part }, 'back')
  expect([trace.start.label.name, trace.start.label.detail]).toEqual(['Why of step 1', 'Move the logger'])
  expect(nested(trace)).toEqual([[entry, [[scene.capture.id, []]]]])
  const { labels } = trace
  expect(labels.get(scene.capture.id)).toMatchObject({
    name: 'Moving a root file system',
    projects: [scene.project],
  })
  expect(labels.get(scene.capture.id)!.detail).toMatch(
    /^https:\/\/notes\.example\.org\/move, added by hand 2026-03-02 21:\d\d:\d\d \+01:00$/,
  )
  expect(labels.get(entry)!.name).toMatch(/^2026-03-02 21:\d\d:\d\d \+01:00, observation$/)
  expect((await loadTrace(scene.lab, { kind: 'part', id: part }, 'forward')).hops).toEqual([])
})

test('what came of a source came of its captures, over procedures', async () => {
  const { scene, entry, part } = await carriedTwice()
  const reused = await reuse(scene, part)
  const traced = { kind: 'source', id: scene.source.id } as const
  expect((await loadTrace(scene.lab, traced, 'back')).hops).toEqual([])
  const trace = await loadTrace(scene.lab, traced, 'forward')
  expect(nested(trace)).toEqual([[entry, [[part, [[reused.part, []]]]]]])
  expect(trace.labels.get(reused.part)).toMatchObject({
    name: 'Why of step 1',
    detail: 'Move the dome’s computer',
  })
})

test('a chain is followed to its end, however many procedures it leads through', async () => {
  const { scene, part } = await carriedTwice()
  const parts = [part]
  for (let i = 0; i < 30; i++) parts.push((await reuse(scene, parts.at(-1)!)).part)
  for (const isRead of [false, true]) {
    expect(graphOf(scene.lab).isRead).toBe(isRead)
    const { hops } = await loadTrace(scene.lab, { kind: 'part', id: parts.at(-1)! }, 'back')
    const chain = flattenTrace(hops)
    expect(chain.map(({ node }) => node.id as string).slice(0, 30)).toEqual(parts.slice(0, 30).reverse())
    expect([chain.at(-1)!.node.kind, chain.every(({ continues }) => continues === 'here')]).toEqual([
      'capture',
      true,
    ])
    await graphOf(scene.lab).upToDate()
  }
})

test('a step and a procedure are traced with all their parts', async () => {
  const { scene, entry, part, step } = await carriedTwice()
  const page = scene.fromSource('rsync -aHAX / /mnt/new/')
  const doing = await scene.carry(page, { at: 'step', step, kind: 'do' })
  const ofStep = await loadTrace(scene.lab, { kind: 'step', id: step }, 'back')
  expect(ofStep.start.label).toMatchObject({ kind: 'step', name: 'Step 1', detail: 'Move the logger' })
  expect(new Set(ofStep.hops.map(({ link }) => link.newer.node.id))).toEqual(new Set([part, doing]))
  expect(ofStep.hops.map(({ node }) => node.id as string).sort()).toEqual([scene.capture.id, entry].sort())
  const whole = await loadTrace(scene.lab, { kind: 'procedure', id: scene.procedure }, 'back')
  expect(whole.start.label).toMatchObject({ kind: 'procedure', name: 'Move the logger' })
  expect(new Set(flattenTrace(whole.hops).map(({ link }) => link.id))).toEqual(
    new Set(flattenTrace(ofStep.hops).map(({ link }) => link.id)),
  )
})

test('a version is traced by the links that were there when it was marked, with its parts as they were called', async () => {
  const { scene, entry, part, step } = await carriedTwice()
  const version = await markNow(scene, 'As it was done')
  const page = scene.fromSource('rsync -aHAX / /mnt/new/')
  const { text } = (await scene.lab.queries.standing(part))!
  await scene.carry(page, { at: 'text', part, step, kind: 'why', offset: text.length })
  const traced = { kind: 'version', id: version.id } as const
  const expected = [[entry, [[scene.capture.id, []]]]]
  const trace = await loadTrace(scene.lab, traced, 'back')
  expect([trace.start.label.name, trace.start.label.text]).toEqual(['Version 1', 'As it was done'])
  expect([nested(trace), [...trace.beside], trace.start.names!.get(part)]).toEqual([
    expected,
    [],
    'Why of step 1',
  ])
  const now = await loadTrace(scene.lab, { kind: 'procedure', id: scene.procedure }, 'back')
  expect(now.hops).toHaveLength(2)
  // The step goes; the version still knows what it was called.
  const standing = await scene.lab.queries.standingParts([(await scene.lab.queries.findPart(part))!])
  const record = (await scene.lab.queries.trace.findStep(step))!
  await scene.commit(removeSteps(scene.lab.surroundings, [record], standing))
  expect((await loadTrace(scene.lab, traced, 'back')).start.names!.get(part)).toBe('Why of step 1')
})

test('of selected words only the links that meet them are followed; the others stand beside', async () => {
  const { scene, entry, part } = await carriedTwice()
  await rewrite(scene, { kind: 'part', id: part }, (text) => `${text}\n\nIt is printed on the label.`)
  const { text } = (await scene.lab.queries.standing(part))!
  const at = (words: string) => ({ start: text.indexOf(words), end: text.indexOf(words) + words.length })
  const quoted = await loadTrace(scene.lab, { kind: 'part', id: part, ranges: [at('PARTUUID')] }, 'back')
  expect([quoted.start.words, nested(quoted)]).toEqual(['PARTUUID', [[entry, [[scene.capture.id, []]]]]])
  expect([...quoted.beside]).toEqual([])
  const own = await loadTrace(scene.lab, { kind: 'part', id: part, ranges: [at('on the label')] }, 'back')
  expect(own.hops).toEqual([])
  expect(own.beside.get(part)!.map(({ node }) => node.id)).toEqual([entry])
})

test('what was carried out of an entry’s own words is not traced to the page that the entry quotes', async () => {
  const { scene, entry } = await carriedTwice()
  await rewrite(scene, { kind: 'entry', id: entry }, (text) => `${text}\n\nThe label is on the left.`)
  const { text } = (await scene.lab.queries.standing(entry))!
  const record = (await scene.lab.queries.findEntry(entry))!
  const fragment = scene.fromEntry(record, text)
  const own = 'The label is on the left.'
  const start = text.indexOf(own)
  const selector = {
    quote: { type: 'TextQuoteSelector', exact: own, prefix: '', suffix: '' },
    position: { type: 'TextPositionSelector', start, end: start + own.length },
  } as const
  const place = { at: 'new step', procedure: scene.procedure, after: null } as const
  const id = (await scene.carry({ ...fragment, selectors: [selector] }, place)) as never
  const trace = await loadTrace(scene.lab, { kind: 'part', id }, 'back')
  expect(nested(trace)).toEqual([[entry, []]])
  expect(trace.beside.get(entry)!.map(({ node }) => node.id)).toEqual([scene.capture.id])
})

test('a reworded part shows its words of now and how much was kept', async () => {
  const { scene, part } = await carriedTwice()
  await rewrite(scene, { kind: 'part', id: part }, (text) => text.replace('disk', 'drive'))
  const { hops, start } = await loadTrace(scene.lab, { kind: 'part', id: part }, 'back')
  const [hop] = hops
  expect(hop!.state!.type).toBe('derives')
  expect(wordsAt(hop!.state!.newer.places, start.label.text!)).toContain('Name the drive by its PARTUUID.')
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
  const { labels } = await loadTrace(scene.lab, { kind: 'part', id: part }, 'back')
  expect(labels.get(entry)!.state).toBe('withdrawn')
})

test('of more links than are shown at once the nearest are, and it is said how many more there are', async () => {
  const { scene, entry, part } = await carriedTwice()
  await reuse(scene, part)
  await reuse(scene, part)
  const traced = { kind: 'source', id: scene.source.id } as const
  const trace = await loadTrace(scene.lab, traced, 'forward', 3)
  expect(flattenTrace(trace.hops)).toHaveLength(3)
  expect([...trace.left]).toEqual([[part, 1]])
  const least = await loadTrace(scene.lab, traced, 'forward', 1)
  expect(nested(least)).toEqual([[entry, []]])
  expect([...least.left]).toEqual([[entry, 1]])
})

test('a trace out of the graph is the trace that reading level by level gives', async () => {
  const { scene, part, step } = await carriedTwice()
  await reuse(scene, part)
  const subjects = [
    { kind: 'step', id: step },
    { kind: 'source', id: scene.source.id },
    { kind: 'procedure', id: scene.procedure },
  ] as const
  const before = await Promise.all(subjects.map((one) => loadTrace(scene.lab, one, 'forward')))
  await graphOf(scene.lab).upToDate()
  expect(graphOf(scene.lab).isRead).toBe(true)
  const behind = await Promise.all(subjects.map((one) => loadTrace(scene.lab, one, 'forward')))
  expect(behind).toEqual(before)
})

test('the graph of a lab follows its Changes, undo too', async () => {
  const { scene, part, entry } = await carriedTwice()
  const graph = new LabGraph(scene.lab, (lab, take) => readLinks(lab.queries, take, 1))
  const sizes = [(await graph.upToDate()).size]
  const problem = await scene.entry('problem', 'The root did not mount.')
  const fix = await scene.entry('fix', 'Named it by PARTUUID.')
  await scene.commit(answerProblem(scene.lab.surroundings, fix.id, problem.id, 'button'))
  await reuse(scene, part)
  sizes.push((await graph.upToDate()).size)
  await scene.lab.committer.undo()
  sizes.push((await graph.upToDate()).size)
  await scene.lab.committer.redo()
  sizes.push((await graph.upToDate()).size)
  expect(sizes).toEqual([2, 4, 3, 4])
  const now = await graph.upToDate()
  const { links } = await recordsOf(scene.lab)
  for (const { newer, older } of links)
    for (const id of [newer.node.id, older.node.id, entry])
      expect(now.near(id, 'back')).toEqual(
        links.filter((link) => link.newer.node.id === id).map((link) => toGraphLink(link)),
      )
})

test('links are read whole in whatever batches', async () => {
  const { scene, part } = await carriedTwice()
  for (let i = 0; i < 5; i++) await reuse(scene, part)
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 9 }), async (batch) => {
      const read: GraphLink[] = []
      const sequence = await readLinks(scene.lab.queries, (links) => read.push(...links), batch)
      expect(read).toEqual((await recordsOf(scene.lab)).links.map((link) => toGraphLink(link)))
      expect(sequence).toBe(await scene.lab.queries.sequence())
    }),
  )
})

/** A worker that answers with these messages. */
function workerSaying(messages: readonly LinksMessage[]) {
  const worker = {
    onmessage: null as LinksWorker['onmessage'],
    onerror: null,
    isEnded: false,
    postMessage: () => {
      for (const data of messages) worker.onmessage?.({ data })
    },
    terminate: () => {
      worker.isEnded = true
    },
  }
  return worker
}

test('a worker that reads ends with what it read, and with what broke it', async () => {
  const { scene } = await carriedTwice()
  const all = (await recordsOf(scene.lab)).links.map((link) => toGraphLink(link))
  const good = workerSaying([
    { kind: 'links', links: all },
    { kind: 'done', sequence: 7 },
  ])
  const read: GraphLink[] = []
  expect(
    await readLinksApart(
      scene.lab.id,
      (links) => read.push(...links),
      () => good,
    ),
  ).toBe(7)
  expect([read, good.isEnded]).toEqual([all, true])
  const bad = workerSaying([{ kind: 'broken', reason: 'no such lab' }])
  await expect(
    readLinksApart(
      scene.lab.id,
      () => undefined,
      () => bad,
    ),
  ).rejects.toThrow('no such lab')
  expect(bad.isEnded).toBe(true)
})
