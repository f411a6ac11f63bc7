/** A lab with 200,000 links, written straight into its tables: 40,000 entries that quote captures, and 80,000 parts. */
import { databaseNameOf, OpenLab } from '../../../renderer/db/lab.ts'
import { LabDatabase } from '../../../renderer/db/schema.ts'
import { systemSurroundings } from '../../../renderer/db/surroundings.ts'
import type {
  CaptureId,
  EntryId,
  LabId,
  PartId,
  ProcedureId,
  ProjectId,
  RevisionId,
  SourceId,
  StepId,
} from '../../../shared/lab/ids.ts'
import type { EndState, Link, LinkEnd, LinkNode, LinkState } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import { makeSelector } from '../../../shared/provenance/selectors.ts'

/**
 * Every entry quotes one capture, every first part two entries, every further part two first parts: from a capture to the
 * further parts it is three hops.
 */
export const sizes = { captures: 2000, entries: 40_000, first: 40_000, further: 40_000 }
const PARTS_A_PROCEDURE = 80

const around = systemSurroundings()
const { ids } = around
const at = '2026-05-04T10:00:00+02:00' as Moment

let state = 20260504
function random(below: number): number {
  state = (state * 1664525 + 1013904223) >>> 0
  return Math.floor((state / 2 ** 32) * below)
}

/** A thing that links join, with its text. */
interface Thing {
  readonly node: LinkNode
  readonly revision: RevisionId
  readonly text: string
}

export interface LinkedLab {
  readonly lab: OpenLab
  readonly links: readonly Link[]
  readonly sources: readonly SourceId[]
  readonly further: readonly PartId[]
}

/**
 * Makes such a lab and opens it.
 * @param sources among so many the captures are shared out: one for a page that was read again and again
 */
export async function makeLinkedLab(sources: number): Promise<LinkedLab> {
  const id = ids.make<LabId>()
  const db = new LabDatabase(databaseNameOf(id), { indexedDB, IDBKeyRange })
  await db.open()
  const project = ids.make<ProjectId>()
  await db.projects.put({
    ...{ id: project, title: 'All that is linked', aim: '', status: 'under way', created: at },
    ...{ tags: [], folder: null },
  })
  const filler = new Filler(db, project)
  const made = await filler.captures(sources)
  const entries = await filler.entries(made.captures)
  const first = await filler.parts(sizes.first, entries)
  const further = await filler.parts(sizes.further, first)
  await filler.flush()
  db.close()
  const lab = await OpenLab.open(id, { indexedDB, IDBKeyRange }, around)
  return {
    ...{ lab, links: filler.links, sources: made.sources },
    further: further.map(({ node }) => node.id as PartId),
  }
}

/** So many records are written at once. */
const BATCH = 5000

class Filler {
  readonly links: Link[] = []
  private readonly waiting = new Map<string, object[]>()

  constructor(
    private readonly db: LabDatabase,
    private readonly project: ProjectId,
  ) {}

  async captures(count: number): Promise<{ sources: SourceId[]; captures: Thing[] }> {
    const sources = Array.from({ length: count }, () => ids.make<SourceId>())
    for (const [i, id] of sources.entries())
      await this.put('sources', {
        ...{ id, title: `Notes on the rack ${i}`, address: `https://notes.example.org/${i}`, kind: 'page' },
        ...{ wayIn: 'dropped', added: at, projects: [this.project], author: null, dated: null },
        ...{ bookmarked: null, tags: [], folders: [], pinned: false, setAside: false, remark: '' },
        mergedInto: null,
      })
    const captures: Thing[] = []
    for (let i = 0; i < sizes.captures; i++) {
      const thing = makeThing({ kind: 'capture', id: ids.make<CaptureId>() }, i)
      const { node, revision, text } = thing
      await this.put('captureHeads', {
        ...{ id: node.id, source: sources[i % count]!, taken: at, revision, length: text.length },
        ...{ sha256: i.toString(16).padStart(64, '0'), wayIn: 'dropped', saved: null, pages: [], notes: [] },
      })
      captures.push(thing)
    }
    return { sources, captures }
  }

  async entries(captures: readonly Thing[]): Promise<Thing[]> {
    const entries: Thing[] = []
    for (let i = 0; i < sizes.entries; i++) {
      const thing = makeThing({ kind: 'entry', id: ids.make<EntryId>() }, i)
      await this.put('entries', {
        ...{ id: thing.node.id, project: this.project, kind: 'observation', moment: at },
        ...{ happened: null, under: null, place: null, ran: null, file: null },
      })
      await this.putText(thing)
      await this.join(thing, captures[i % captures.length]!)
      entries.push(thing)
    }
    return entries
  }

  /** Parts, two to a step, each of which quotes two of the older things. */
  async parts(count: number, older: readonly Thing[]): Promise<Thing[]> {
    const parts: Thing[] = []
    let [procedure, step] = [ids.make<ProcedureId>(), ids.make<StepId>()]
    for (let i = 0; i < count; i++) {
      if (i % PARTS_A_PROCEDURE === 0) {
        procedure = ids.make<ProcedureId>()
        await this.put('procedures', { id: procedure, project: this.project, created: at, place: null })
      }
      if (i % 2 === 0) {
        step = ids.make<StepId>()
        const position = `a${String(i % PARTS_A_PROCEDURE).padStart(3, '0')}V`
        await this.put('steps', {
          ...{ id: step, procedure, position, level: 'step', place: null, pointOfNoReturn: false },
        })
      }
      const thing = makeThing({ kind: 'part', id: ids.make<PartId>() }, i)
      const kind = i % 2 === 0 ? 'do' : 'expect'
      await this.put('parts', { id: thing.node.id, procedure, step, kind, file: null })
      await this.putText(thing)
      // Each older thing is quoted twice, by parts of different procedures.
      await this.join(thing, older[i % older.length]!)
      await this.join(thing, older[random(older.length)]!)
      parts.push(thing)
    }
    return parts
  }

  async flush(): Promise<void> {
    for (const [table, records] of this.waiting)
      await this.db.table<object, string>(table).bulkPut(records.splice(0))
  }

  private async putText({ node, revision, text }: Thing): Promise<void> {
    await this.put('texts', { node: node.id, text, pieces: [{ revision, start: 0, end: text.length }] })
  }

  private async join(newer: Thing, older: Thing): Promise<void> {
    const link: Link = {
      ...{ id: ids.make<Link['id']>(), made: at, way: 'drag' },
      ...{ newer: endOf(newer), older: endOf(older) },
    }
    const linkState: LinkState = {
      ...{ link: link.id, type: 'quotes', kept: 1, loose: false },
      ...{ newer: stateOf(newer), older: stateOf(older) },
    }
    this.links.push(link)
    await this.put('links', link)
    await this.put('linkStates', linkState)
  }

  private async put(table: string, record: object): Promise<void> {
    const records = this.waiting.get(table) ?? []
    this.waiting.set(table, records)
    records.push(record)
    if (records.length >= BATCH) await this.db.table<object, string>(table).bulkPut(records.splice(0))
  }
}

function makeThing(node: LinkNode, i: number): Thing {
  const text = `Name the disk ${i} by its PARTUUID, and copy with rsync -aHAX / /mnt/new${i % 7}/.`
  return { node, revision: ids.make<RevisionId>(), text }
}

/** The words that every link carries. */
const words = { start: 0, end: 30 }

const endOf = ({ node, revision, text }: Thing): LinkEnd => ({
  ...{ node, revision },
  ranges: [makeSelector(text, words)],
})

const stateOf = ({ node, revision }: Thing): EndState => ({
  ...{ node: node.id, pieces: [[{ revision, ...words }]], places: [words], loose: false },
})
