/** The sample lab among distractors, asked as the program asks it. */
import { loadSample } from '../../../renderer/labs/loadSample.ts'
import { sample } from '../../../renderer/labs/sample/index.ts'
import { AskReads } from '../../../renderer/workers/askReads.ts'
import { allThings, readThings } from '../../../renderer/workers/findThings.ts'
import type { AskSurroundings, AskThing } from '../../../shared/find/ask/thing.ts'
import { emptyIndex, withDocuments, type LabIndex } from '../../../shared/find/index/lab-index.ts'
import { nearEndOf } from '../../../shared/provenance/trace.ts'
import { openTestLab } from '../../unit/support/lab.ts'
import type { Distractors } from './distractors.ts'
import { idsOfSample } from './sample-keys.ts'

export interface AskedLab extends AskSurroundings {
  readonly index: LabIndex
  /** Ids by the sample's keys. */
  readonly ids: ReadonlyMap<string, string>
}

/** @param others null for the sample alone */
export async function askedLab(others: Distractors | null): Promise<AskedLab> {
  const lab = await openTestLab()
  if (!(await loadSample(lab, sample))) throw new Error('the sample was refused')
  const { queries } = lab
  const read = await readThings(queries, await allThings(queries))
  const documents = [...read.documents, ...(others?.documents ?? [])]
  const index = withDocuments(emptyIndex, { documents, removed: [], sequence: 1 })
  const reads = new AskReads(queries, index)
  const byId = new Map(others?.things.map((thing) => [thing.id, thing]))
  const journal = others?.things.filter(({ thing }) => thing === 'entry' || thing === 'problem') ?? []
  return {
    index,
    ids: await idsOfSample(lab),
    readLinks: async (nodes, direction) => [
      ...(await reads.readLinks(nodes, direction)),
      ...(others?.links ?? []).filter((link) => nodes.includes(nearEndOf(link, direction).node.id)),
    ],
    readThings: async (refs) => [
      ...(await reads.readThings(refs.filter(({ id }) => !byId.has(id)))),
      ...refs.flatMap(({ id }): AskThing[] => (byId.has(id) ? [byId.get(id)!] : [])),
    ],
    readAround: async (entry, before, after) => {
      if (!byId.has(entry)) return reads.readAround(entry, before, after)
      const at = journal.findIndex(({ id }) => id === entry)
      return {
        before: journal.slice(Math.max(0, at - before), at),
        after: journal.slice(at + 1, at + 1 + after),
      }
    },
    readSteps: async (procedure) =>
      byId.has(procedure)
        ? (others?.things.filter((thing) => thing.procedure === procedure) ?? [])
        : reads.readSteps(procedure),
  }
}
