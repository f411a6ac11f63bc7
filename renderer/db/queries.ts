/** Reading. Every query returns records of the domain; nothing above this folder knows that IndexedDB exists. */
import type { StoredChange } from '../../shared/lab/change.ts'
import type { StandingPart, StandingText } from '../../shared/lab/acts.ts'
import type {
  CaptureId,
  ChangeId,
  EntryId,
  LinkId,
  MachineId,
  ProcedureId,
  ProjectId,
  SourceId,
  StepId,
  WindowId,
} from '../../shared/lab/ids.ts'
import type {
  Blob,
  Capture,
  CaptureHead,
  Draft,
  Entry,
  EntryTags,
  Fetch,
  Folder,
  LeftOut,
  Link,
  LinkState,
  Machine,
  Mark,
  Parameter,
  Part,
  Piece,
  Procedure,
  Project,
  Remark,
  Revision,
  Silence,
  Source,
  Step,
  Strike,
  TextNodeId,
  TextRecord,
  Verdict,
  Version,
  Withdrawal,
} from '../../shared/lab/model.ts'
import type { StandingLink } from '../../shared/provenance/moving.ts'
import { lastRevisionOf, revisionsOf } from './applier.ts'
import type { LabDatabase } from './schema.ts'
import { TraceQueries } from './traceQueries.ts'

/** All of a project that its three panes show, but for the texts of captures. */
export interface ProjectRecords {
  readonly sources: Source[]
  readonly captures: CaptureHead[]
  readonly entries: Entry[]
  readonly withdrawals: Withdrawal[]
  readonly entryTags: EntryTags[]
  /** In the order in which they were set. */
  readonly marks: Mark[]
  readonly procedures: Procedure[]
  readonly steps: Step[]
  readonly parts: Part[]
  readonly parameters: Parameter[]
  /** Oldest first. */
  readonly versions: Version[]
  readonly remarks: Remark[]
  readonly silences: Silence[]
  readonly leftOut: LeftOut[]
  readonly fetches: Fetch[]
  readonly texts: TextRecord[]
  /** Revisions after the first, for each entry: its amendments. */
  readonly amendments: Revision[]
  readonly links: Link[]
  readonly linkStates: LinkState[]
  /** The last Change that these records include. */
  readonly sequence: number
}

/** What the list of sources shows, of the whole lab. */
export interface SourceRecords {
  /** Those that were merged into others too. In the order of their ids. */
  readonly sources: Source[]
  readonly heads: CaptureHead[]
  readonly folders: Folder[]
  /** Ids of sources and captures that some newer thing of any project came from; equal ids stand once for each link. */
  readonly used: string[]
  /** The last Change that these records include. */
  readonly sequence: number
}

/** Records that some Changes touched, read again. */
export interface TouchedRecords {
  readonly texts: TextRecord[]
  readonly linkStates: LinkState[]
  /** For each text, its revisions after the first. */
  readonly laterRevisions: Revision[]
}

export class Queries {
  readonly trace: TraceQueries

  constructor(private readonly db: LabDatabase) {
    this.trace = new TraceQueries(db)
  }

  async projects(): Promise<Project[]> {
    return this.db.projects.orderBy('id').toArray()
  }

  /** Everything about one project, read in one transaction so that it fits together. */
  project(project: ProjectId): Promise<ProjectRecords> {
    return this.db.transaction('r', this.db.tables, async () => {
      const { db } = this
      const entries = await db.entries.where('project').equals(project).sortBy('id')
      const procedures = await db.procedures.where('project').equals(project).sortBy('id')
      const procedureIds = procedures.map(({ id }) => id)
      const parts = await db.parts.where('procedure').anyOf(procedureIds).toArray()
      const sources = await db.sources.where('projects').equals(project).sortBy('id')
      const nodes = [...entries.map(({ id }) => id), ...parts.map(({ id }) => id)]
      const links = await db.links.where('newer.node.id').anyOf(nodes).sortBy('id')
      return {
        sources,
        captures: await this.captureHeads(sources.map(({ id }) => id)),
        entries,
        withdrawals: await db.withdrawals
          .where('entry')
          .anyOf(entries.map(({ id }) => id))
          .sortBy('id'),
        entryTags: (await db.entryTags.bulkGet(entries.map(({ id }) => id))).filter(
          (tags) => tags !== undefined,
        ),
        marks: await db.marks
          .where('entry')
          .anyOf(entries.map(({ id }) => id))
          .sortBy('id'),
        procedures,
        steps: await db.steps.where('procedure').anyOf(procedureIds).toArray(),
        parts,
        parameters: await db.parameters.where('procedure').anyOf(procedureIds).toArray(),
        versions: await this.versionsOf(procedureIds),
        remarks: await db.remarks.where('procedure').anyOf(procedureIds).sortBy('id'),
        silences: await db.silences.where('procedure').anyOf(procedureIds).sortBy('id'),
        leftOut: await db.leftOut.where('procedure').anyOf(procedureIds).sortBy('id'),
        fetches: await db.fetches.where('procedure').anyOf(procedureIds).sortBy('id'),
        texts: (await db.texts.bulkGet(nodes)).filter((text) => text !== undefined),
        amendments: await this.amendments(entries),
        links,
        linkStates: (await db.linkStates.bulkGet(links.map(({ id }) => id))).filter(
          (state) => state !== undefined,
        ),
        sequence: await this.sequence(),
      }
    })
  }

  /** The versions of some procedures, the first one of each first. */
  async versionsOf(procedures: readonly ProcedureId[]): Promise<Version[]> {
    const all: Version[] = []
    for (const id of procedures)
      all.push(
        ...(await this.db.versions.where('[procedure+number]').between([id, 0], [id, Infinity]).toArray()),
      )
    return all
  }

  /** Everything about sources of every project, but for texts. Read in one transaction so that it fits together. */
  labSources(): Promise<SourceRecords> {
    const { db } = this
    return db.transaction('r', [db.sources, db.captureHeads, db.folders, db.links, db.changes], async () => ({
      sources: await db.sources.orderBy('id').toArray(),
      heads: await db.captureHeads.orderBy('id').toArray(),
      folders: await db.folders.toArray(),
      used: await this.usedNodes(),
      sequence: await this.sequence(),
    }))
  }

  /** Ids of all things that something newer came from, one for each link but for those from capture to capture. */
  private async usedNodes(): Promise<string[]> {
    const used: string[] = []
    await this.db.links.each(({ newer, older }) => {
      if (newer.node.kind !== 'capture' && (older.node.kind === 'capture' || older.node.kind === 'source'))
        used.push(older.node.id)
    })
    return used
  }

  /** The captures of some sources, without their texts. */
  async captureHeads(sources: readonly SourceId[]): Promise<CaptureHead[]> {
    return this.db.captureHeads
      .where('source')
      .anyOf([...sources])
      .sortBy('id')
  }

  /** The captures of a source and of those that were merged into it, without their texts, oldest first. */
  async capturesOf(source: SourceId): Promise<CaptureHead[]> {
    const merged = await this.db.sources.where('mergedInto').equals(source).primaryKeys()
    return this.captureHeads([source, ...(merged as SourceId[])])
  }

  /** The machines of the lab, those that were set aside too. */
  async machines(): Promise<Machine[]> {
    return this.db.machines.orderBy('id').toArray()
  }

  /** Entries of the whole lab that say or were given a place, withdrawn ones left out, with all their marks. */
  placedEntries(): Promise<{ entries: Entry[]; marks: Map<string, Mark[]> }> {
    const { db } = this
    return db.transaction('r', [db.entries, db.marks, db.withdrawals], async () => {
      const placed = new Set<string>()
      const marks = await this.allMarks()
      for (const [entry, own] of marks) if (own.some(({ says }) => says.kind === 'place')) placed.add(entry)
      const all = await db.entries.filter(({ id, place }) => place !== null || placed.has(id)).toArray()
      const gone = await this.allWithdrawn()
      return { entries: all.filter(({ id }) => !gone.has(id)), marks }
    })
  }

  /** What problems of the whole lab are read from. */
  labProblems(): Promise<{
    entries: Map<string, Entry>
    withdrawn: Set<string>
    marks: Map<string, Mark[]>
    links: Link[]
    texts: Map<string, string>
  }> {
    const { db } = this
    const tables = [db.entries, db.marks, db.withdrawals, db.links, db.texts]
    return db.transaction('r', tables, async () => {
      const own = await db.entries
        .filter(({ kind }) => ['problem', 'fix', 'decision'].includes(kind))
        .toArray()
      const ids = own.map(({ id }) => id)
      return {
        entries: new Map(own.map((entry) => [entry.id, entry])),
        withdrawn: await this.allWithdrawn(),
        marks: await this.allMarks(),
        links: await db.links.where('newer.node.id').anyOf(ids).sortBy('id'),
        texts: new Map(
          (await db.texts.bulkGet(ids)).flatMap((record) => (record ? [[record.node, record.text]] : [])),
        ),
      }
    })
  }

  /** Every thing of the lab that can be found, by its id alone. */
  findableIds(): Promise<{
    readonly sources: SourceId[]
    readonly entries: EntryId[]
    readonly procedures: ProcedureId[]
    readonly steps: StepId[]
    readonly projects: ProjectId[]
    readonly machines: MachineId[]
  }> {
    const { db } = this
    const tables = [db.sources, db.entries, db.procedures, db.steps, db.projects, db.machines]
    const keysOf = async <Id>(table: {
      toCollection(): { primaryKeys(): PromiseLike<string[]> }
    }): Promise<Id[]> => (await table.toCollection().primaryKeys()) as Id[]
    return db.transaction('r', tables, async () => ({
      sources: await keysOf(db.sources),
      entries: await keysOf(db.entries),
      procedures: await keysOf(db.procedures),
      steps: await keysOf(db.steps),
      projects: await keysOf(db.projects),
      machines: await keysOf(db.machines),
    }))
  }

  /** Entries with all that is said of them, those that are not there left out; read together so that it fits together. */
  entryMatters(ids: readonly EntryId[]): Promise<
    {
      readonly entry: Entry
      readonly text: string
      readonly pieces: readonly Piece[]
      readonly marks: Mark[]
      readonly tags: readonly string[]
      readonly isWithdrawn: boolean
    }[]
  > {
    const { db } = this
    return db.transaction('r', [db.entries, db.texts, db.marks, db.entryTags, db.withdrawals], async () => {
      const own = [...ids]
      // Asked for at once: one behind the other they take twice as long.
      const [entries, texts, tags, marks, withdrawn] = await Promise.all([
        db.entries.bulkGet(own),
        db.texts.bulkGet(own),
        db.entryTags.bulkGet(own),
        db.marks.where('entry').anyOf(own).sortBy('id'),
        this.withdrawnAmong(own),
      ])
      return entries.flatMap((entry, at) =>
        entry
          ? [
              {
                entry,
                text: texts[at]?.text ?? '',
                pieces: texts[at]?.pieces ?? [],
                marks: marks.filter((mark) => mark.entry === entry.id),
                tags: tags[at]?.tags ?? [],
                isWithdrawn: withdrawn.has(entry.id),
              },
            ]
          : [],
      )
    })
  }

  /** The entries of a journal in the order in which they were written. */
  async entryIdsOf(project: ProjectId): Promise<EntryId[]> {
    // Keys of one value of an index come in their own order (Indexed Database API 3.0, §2.6).
    return (await this.db.entries.where('project').equals(project).primaryKeys()) as EntryId[]
  }

  /** A step with its procedure, the texts of its parts and the remarks on it; undefined where it does not stand. */
  async stepMatter(id: StepId) {
    const step = await this.db.steps.get(id)
    const procedure = step && (await this.db.procedures.get(step.procedure))
    if (!step || !procedure) return undefined
    return {
      step,
      procedure,
      parts: await this.partMatters(await this.db.parts.where('step').equals(id).toArray()),
      remarks: await this.db.remarks
        .where('procedure')
        .equals(procedure.id)
        .filter((remark) => remark.step === id)
        .toArray(),
    }
  }

  /** All rows of a procedure, in any order. */
  async stepsOf(procedure: ProcedureId): Promise<Step[]> {
    return this.db.steps.where('procedure').equals(procedure).toArray()
  }

  /** A procedure with the texts of the parts that are its own; undefined where it does not stand. */
  async procedureMatter(id: ProcedureId) {
    const procedure = await this.db.procedures.get(id)
    if (!procedure) return undefined
    const parts = await this.db.parts.where('procedure').equals(id).toArray()
    return { procedure, parts: await this.partMatters(parts.filter(({ step }) => step === null)) }
  }

  /** What a procedure asks for, and what its versions say of themselves. */
  async besideProcedure(id: ProcedureId) {
    return {
      parameters: await this.db.parameters.where('procedure').equals(id).toArray(),
      versions: await this.versionsOf([id]),
    }
  }

  private async partMatters(parts: readonly Part[]): Promise<{ part: Part; text: string }[]> {
    const texts = await this.db.texts.bulkGet(parts.map(({ id }) => id))
    return parts.map((part, at) => ({ part, text: texts[at]?.text ?? '' }))
  }

  /** What names a machine in its place; of procedures and steps the procedures that have it anywhere. */
  async placedOn(machine: MachineId) {
    const { db } = this
    const marked = await db.marks.where('says.set.machine').equals(machine).toArray()
    const entries = await db.entries.where('place.machine').equals(machine).primaryKeys()
    const steps = await db.steps.where('place.machine').equals(machine).toArray()
    const own = await db.procedures.where('place.machine').equals(machine).primaryKeys()
    return {
      entries: [...new Set([...(entries as EntryId[]), ...marked.map(({ entry }) => entry)])],
      procedures: [...new Set([...(own as ProcedureId[]), ...steps.map(({ procedure }) => procedure)])],
    }
  }

  async findProject(id: ProjectId): Promise<Project | undefined> {
    return this.db.projects.get(id)
  }

  private async allMarks(): Promise<Map<string, Mark[]>> {
    const marks = new Map<string, Mark[]>()
    await this.db.marks.orderBy('id').each((mark) => {
      const own = marks.get(mark.entry)
      if (own) own.push(mark)
      else marks.set(mark.entry, [mark])
    })
    return marks
  }

  private async allWithdrawn(): Promise<Set<string>> {
    const gone = new Set<string>()
    await this.db.withdrawals.orderBy('id').each(({ entry, withdrawn }) => {
      if (withdrawn) gone.add(entry)
      else gone.delete(entry)
    })
    return gone
  }

  /** The folders of the lab, for sources and for projects. */
  async folders(): Promise<Folder[]> {
    return this.db.folders.toArray()
  }

  async verdicts(): Promise<Verdict[]> {
    return this.db.verdicts.orderBy('id').toArray()
  }

  async allEntryTags(): Promise<EntryTags[]> {
    return this.db.entryTags.toArray()
  }

  /** @param entries in the order of their ids */
  private async amendments(entries: readonly Entry[]): Promise<Revision[]> {
    const [first, last] = [entries[0], entries.at(-1)]
    if (!first || !last) return []
    // One walk over the keys, since a search for each entry's second revision takes seconds in a long journal.
    const keys = (await this.db.revisions
      .where('[node+number]')
      .between([first.id, 0], [last.id, Infinity])
      .keys()) as unknown as [TextNodeId, number][]
    const own = new Set<TextNodeId>(entries.map(({ id }) => id))
    const amended = keys.filter(([node, number]) => number === 2 && own.has(node))
    const all = await Promise.all(amended.map(([node]) => revisionsOf(this.db, node)))
    return all.flatMap((revisions) => revisions.slice(1))
  }

  /** Sources of the whole lab, those of other projects too. */
  async sources(): Promise<Source[]> {
    return this.db.sources.orderBy('id').toArray()
  }

  async findCapture(id: CaptureId): Promise<Capture | undefined> {
    return this.db.captures.get(id)
  }

  /** The newest capture of a source or of one that was merged into it; undefined for a link without text. */
  async findNewestCapture(source: SourceId): Promise<Capture | undefined> {
    const newest = (await this.capturesOf(source)).at(-1)
    return newest && this.findCapture(newest.id)
  }

  async findBlob(sha256: string): Promise<Blob | undefined> {
    return this.db.blobs.get(sha256)
  }

  async findSource(id: SourceId): Promise<Source | undefined> {
    return this.db.sources.get(id)
  }

  async findText(node: TextNodeId): Promise<TextRecord | undefined> {
    return this.db.texts.get(node)
  }

  /** A text as it stands, with its last revision; undefined where it does not stand. */
  standing(node: TextNodeId): Promise<StandingText | undefined> {
    return this.db.transaction('r', this.db.texts, this.db.revisions, async () => {
      const record = await this.db.texts.get(node)
      const last = await lastRevisionOf(this.db, node)
      return record && last ? { text: record.text, revision: last.id } : undefined
    })
  }

  /** Parts of a step or of a whole procedure with all that goes with them when they are removed. */
  standingParts(parts: readonly Part[]): Promise<StandingPart[]> {
    return Promise.all(
      parts.map(async (part) => ({
        part,
        text: (await this.standing(part.id))!,
        links: await this.db.links.where('newer.node.id').equals(part.id).toArray(),
      })),
    )
  }

  /** All links with an end at a node, with their states. */
  async standingLinks(node: string): Promise<StandingLink[]> {
    const [from, to] = [await this.linksFrom([node]), await this.linksTo([node])]
    const states = new Map([...from.states, ...to.states].map((state) => [state.link, state]))
    const links = new Map([...from.links, ...to.links].map((link) => [link.id, link]))
    return [...links.values()].flatMap((link) => {
      const state = states.get(link.id)
      return state ? [{ link, state }] : []
    })
  }

  /** A link that stands. */
  async findLink(id: LinkId): Promise<Link | undefined> {
    return this.db.links.get(id)
  }

  /** Links that stand no more, as they were when they went. Reads the past from its end until all are found. */
  async goneLinks(ids: readonly LinkId[]): Promise<Link[]> {
    const wanted = new Set<string>(ids)
    const found: Link[] = []
    if (wanted.size === 0) return found
    await this.db.changes
      .orderBy('sequence')
      .reverse()
      .until(() => wanted.size === 0)
      .each(({ operations }) => {
        for (const operation of operations)
          if (operation.op === 'remove' && operation.table === 'links' && wanted.delete(operation.before.id))
            found.push(operation.before)
      })
    return found
  }

  /** What some Changes touched, as it is now: the texts, and the states of links at either end of them. */
  touched(nodes: readonly TextNodeId[], links: readonly LinkId[]): Promise<TouchedRecords> {
    const { db } = this
    return db.transaction('r', [db.texts, db.revisions, db.linkStates, db.links], async () => {
      const texts = (await db.texts.bulkGet([...nodes])).filter((text) => text !== undefined)
      const near = await db.linkStates
        .where('newer.node')
        .anyOf([...nodes])
        .or('older.node')
        .anyOf([...nodes])
        .toArray()
      const named = (await db.linkStates.bulkGet([...links])).filter((state) => state !== undefined)
      const revisions = await Promise.all(nodes.map(async (node) => (await revisionsOf(db, node)).slice(1)))
      return { texts, linkStates: [...near, ...named], laterRevisions: revisions.flat() }
    })
  }

  async captureHead(id: CaptureId): Promise<CaptureHead | undefined> {
    return this.db.captureHeads.get(id)
  }

  /** The links that lead from these nodes to what they came from, or to them from what came of them. In no order. */
  linksAt(nodes: readonly string[], direction: 'back' | 'forward'): Promise<Link[]> {
    return this.db.links
      .where(direction === 'back' ? 'newer.node.id' : 'older.node.id')
      .anyOf([...nodes])
      .toArray()
  }

  /** Links that lead from newer things to these nodes: what came of them, in every project of the lab. */
  async linksTo(nodes: readonly string[]): Promise<{ links: Link[]; states: LinkState[] }> {
    const links = await this.db.links
      .where('older.node.id')
      .anyOf([...nodes])
      .sortBy('id')
    return { links, states: await this.statesOf(links) }
  }

  /** Links that lead from these nodes to what they came from. */
  async linksFrom(nodes: readonly string[]): Promise<{ links: Link[]; states: LinkState[] }> {
    const links = await this.db.links
      .where('newer.node.id')
      .anyOf([...nodes])
      .sortBy('id')
    return { links, states: await this.statesOf(links) }
  }

  private async statesOf(links: readonly Link[]): Promise<LinkState[]> {
    return (await this.db.linkStates.bulkGet(links.map(({ id }) => id))).filter(
      (state) => state !== undefined,
    )
  }

  async findEntry(id: string): Promise<Entry | undefined> {
    return this.db.entries.get(id)
  }

  async findPart(id: string): Promise<Part | undefined> {
    return this.db.parts.get(id)
  }

  async findProcedure(id: string): Promise<Procedure | undefined> {
    return this.db.procedures.get(id)
  }

  /** Those of some entries that were withdrawn and not brought back. */
  async withdrawnAmong(entries: readonly string[]): Promise<Set<string>> {
    const withdrawn = new Set<string>()
    const records = await this.db.withdrawals.where('entry').anyOf(entries).sortBy('id')
    for (const { entry, withdrawn: isWithdrawn } of records)
      if (isWithdrawn) withdrawn.add(entry)
      else withdrawn.delete(entry)
    return withdrawn
  }

  /** All revisions of a text, in order. */
  revisions(node: TextNodeId): Promise<Revision[]> {
    return revisionsOf(this.db, node)
  }

  /** The Changes after a number, in order; at most the first so many. */
  changesAfter(sequence: number, most = Infinity): Promise<StoredChange[]> {
    const after = this.db.changes.where('sequence').above(sequence)
    // The primary key: what comes is in its order.
    return most === Infinity ? after.sortBy('sequence') : after.limit(most).toArray()
  }

  async findChange(id: ChangeId): Promise<StoredChange | undefined> {
    return this.db.changes.where('id').equals(id).first()
  }

  /** Number of the last Change; 0 in an empty lab. */
  async sequence(): Promise<number> {
    return (await this.db.changes.orderBy('sequence').last())?.sequence ?? 0
  }

  /** How often text was struck out. There is no way back, so that it only grows. */
  async countStrikes(): Promise<number> {
    return this.db.strikes.count()
  }

  async strikes(): Promise<Strike[]> {
    return this.db.strikes.orderBy('id').toArray()
  }

  async drafts(): Promise<Draft[]> {
    return this.db.drafts.toArray()
  }

  async draftsOf(window: WindowId): Promise<Draft[]> {
    return (await this.drafts()).filter((draft) => draft.window === window)
  }
}
