/** A lab of many tagged sources that is learnt from, without a database: each text is made when it is read. */
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { TagLearner } from '../../../renderer/workers/tagsLearner.ts'
import type { TagQueries } from '../../../renderer/workers/tagsThings.ts'
import type { StoredChange } from '../../../shared/lab/change.ts'
import type { SourceId } from '../../../shared/lab/ids.ts'
import type { Capture, Source } from '../../../shared/lab/model.ts'
import { madeUpText } from './tags-speed.ts'

/** About 40 kB each. */
const WORDS = 7000

/** The queries of a lab of that many tagged sources. `touch` makes a Change of the first of them. */
export function madeUpLab(count: number, words = WORDS): TagQueries & { touch(): void } {
  const sources = Array.from({ length: count }, (_, at): Source => {
    const { id, title, tags } = madeUpText(at, 0)
    return { id, title, tags, address: null, author: null, remark: '', mergedInto: null } as unknown as Source
  })
  const byId = new Map(sources.map((source, at) => [source.id, { source, at }]))
  const changes: StoredChange[] = []
  const none = () => Promise.resolve([])
  return {
    touch: () => {
      const operation = { op: 'put', table: 'sources', record: sources[0]!, before: null } as const
      const change = { sequence: changes.length + 1, act: 'change a source', operations: [operation] }
      changes.push(change as unknown as StoredChange)
      const { source, at } = byId.get(sources[0]!.id)!
      const tags = [...source.tags.slice(0, 4), `tag-${changes.length % 2 === 0 ? 'a' : 'b'}`]
      byId.set(source.id, { source: { ...source, tags }, at })
    },
    sequence: () => Promise.resolve(changes.length),
    changesAfter: (sequence) => Promise.resolve(changes.slice(sequence)),
    sources: () => Promise.resolve(sources),
    findSource: (id: SourceId) => Promise.resolve(byId.get(id)?.source),
    findNewestCapture: (id: SourceId) =>
      Promise.resolve({ text: madeUpText(byId.get(id)!.at, words).text } as Capture),
    findText: () => Promise.resolve(undefined),
    projects: none,
    verdicts: none,
    allEntryTags: none,
    withdrawnAmong: () => Promise.resolve(new Set()),
  }
}

/** How long learning everything takes, in milliseconds of the processor, without the making of the texts. */
export async function timeOfLesson(count: number): Promise<number> {
  const lab = madeUpLab(count)
  const start = process.cpuUsage()
  await new TagLearner(lab).catchUp()
  const whole = process.cpuUsage(start).user
  const again = process.cpuUsage()
  for (const { id } of await lab.sources()) await lab.findNewestCapture(id)
  return (whole - process.cpuUsage(again).user) / 1000
}

/** What a learner keeps in memory after a lesson, in bytes for each byte of the texts that it was taught by. */
export async function keptOfLesson(count: number): Promise<number> {
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc') as () => void
  const lab = madeUpLab(count)
  collect()
  const before = process.memoryUsage().heapUsed
  const learner = new TagLearner(lab)
  await learner.catchUp()
  collect()
  const kept = process.memoryUsage().heapUsed - before
  // The learner is asked afterwards, so that it cannot have been collected.
  if (learner.model.texts.size !== count) throw new Error('not all was learnt')
  const sample = await lab.findNewestCapture((await lab.sources())[0]!.id)
  return kept / (count * sample!.text.length)
}

/** How many times longer a suggestion takes right after a Change that teaches something than without one. */
export async function costOfCatchingUp(count: number): Promise<number> {
  const lab = madeUpLab(count, 300)
  const learner = new TagLearner(lab, undefined, 600_000)
  const node = { kind: 'source', id: (await lab.sources())[1]!.id } as const
  const time = async (isTaught: boolean): Promise<number> => {
    if (isTaught) lab.touch()
    const start = performance.now()
    await learner.suggest(node)
    return performance.now() - start
  }
  await time(false)
  const ratios: number[] = []
  for (let round = 0; round < 7; round++) {
    const plain = await time(false)
    ratios.push((await time(true)) / plain)
  }
  return ratios.sort((one, other) => one - other)[3]!
}
