/**
 * A project as its panes show it: the records that stand, by id. Read whole once, then brought up to date Change by
 * Change, so that an entry written costs what one entry costs, however long the journal is.
 */
import type { Operation, StoredChange, TableName, Tables } from '../../shared/lab/change.ts'
import { inJournalOrder } from '../../shared/journal/entry-facts.ts'
import { compareSteps } from '../../shared/lab/acts.ts'
import type { EntryId, LinkId, ProcedureId, ProjectId, StepId } from '../../shared/lab/ids.ts'
import type {
  CaptureHead,
  Entry,
  EntryTags,
  Fetch,
  LeftOut,
  Link,
  LinkState,
  Mark,
  Parameter,
  Part,
  PartKind,
  Piece,
  Procedure,
  Remark,
  Revision,
  Silence,
  Source,
  Step,
  TextNodeId,
  Version,
} from '../../shared/lab/model.ts'
import type { ProjectRecords, TouchedRecords } from '../db/queries.ts'

type ById<T> = ReadonlyMap<string, T>

export interface ProjectView {
  readonly project: ProjectId
  readonly sources: ById<Source>
  readonly captures: ById<CaptureHead>
  readonly entries: ById<Entry>
  /** Entries that were withdrawn and not brought back. */
  readonly withdrawn: ReadonlySet<string>
  readonly entryTags: ReadonlyMap<string, EntryTags>
  /** What was set on entries after they were written, in order, by entry. */
  readonly marks: ReadonlyMap<string, readonly Mark[]>
  readonly procedures: ById<Procedure>
  readonly steps: ById<Step>
  readonly parts: ById<Part>
  readonly parameters: ById<Parameter>
  readonly versions: ById<Version>
  readonly remarks: ById<Remark>
  readonly silences: ById<Silence>
  readonly leftOut: ById<LeftOut>
  readonly fetches: ById<Fetch>
  readonly texts: ReadonlyMap<TextNodeId, string>
  /** The identities of the texts' characters. */
  readonly pieces: ReadonlyMap<TextNodeId, readonly Piece[]>
  /** An entry's revisions after its first, in order. */
  readonly amendments: ReadonlyMap<TextNodeId, readonly Revision[]>
  readonly links: ById<Link>
  readonly states: ReadonlyMap<LinkId, LinkState>
  readonly sequence: number
}

const byId = <T extends { readonly id: string }>(records: readonly T[]): Map<string, T> =>
  new Map(records.map((record) => [record.id, record]))

/** The view of what was read of a project. */
export function toView(project: ProjectId, read: ProjectRecords): ProjectView {
  return {
    project,
    sources: byId(read.sources),
    captures: byId(read.captures),
    entries: byId(read.entries),
    withdrawn: new Set(read.withdrawals.reduce(withWithdrawal, new Set<string>())),
    entryTags: new Map(read.entryTags.map((tags) => [tags.entry, tags])),
    procedures: byId(read.procedures),
    steps: byId(read.steps),
    parts: byId(read.parts),
    parameters: byId(read.parameters),
    versions: byId(read.versions),
    remarks: byId(read.remarks),
    silences: byId(read.silences),
    leftOut: byId(read.leftOut),
    fetches: byId(read.fetches),
    marks: groupByEntry(read.marks),
    texts: new Map(read.texts.map(({ node, text }) => [node, text])),
    pieces: new Map(read.texts.map(({ node, pieces }) => [node, pieces])),
    amendments: groupByNode(read.amendments),
    links: byId(read.links),
    states: new Map(read.linkStates.map((state) => [state.link, state])),
    sequence: read.sequence,
  }
}

function withWithdrawal(set: Set<string>, { entry, withdrawn }: Tables['withdrawals']): Set<string> {
  if (withdrawn) set.add(entry)
  else set.delete(entry)
  return set
}

function groupByEntry(marks: readonly Mark[]): Map<string, readonly Mark[]> {
  const groups = new Map<string, Mark[]>()
  for (const mark of marks) groups.set(mark.entry, [...(groups.get(mark.entry) ?? []), mark])
  return groups
}

function groupByNode(revisions: readonly Revision[]): Map<TextNodeId, Revision[]> {
  const groups = new Map<TextNodeId, Revision[]>()
  for (const revision of revisions)
    groups.set(revision.node, [...(groups.get(revision.node) ?? []), revision])
  return groups
}

/** What some Changes touched, so that it can be read again. */
export function touchedBy(changes: readonly StoredChange[]) {
  const nodes = new Set<TextNodeId>()
  const links = new Set<LinkId>()
  const sources = new Set<Tables['sources']['id']>()
  for (const operation of changes.flatMap((change) => change.operations)) {
    if (operation.op === 'text') nodes.add(operation.node.id)
    else if (operation.table === 'links') links.add(recordOf(operation, 'links')!.id)
    else if (operation.table === 'sources') sources.add(recordOf(operation, 'sources')!.id)
    else if (operation.table === 'captures') sources.add(recordOf(operation, 'captures')!.source)
  }
  return { nodes: [...nodes], links: [...links], sources: [...sources] }
}

function recordOf<T extends TableName>(operation: Operation, table: T): Tables[T] | null {
  if (operation.op === 'text' || operation.table !== table) return null
  return (operation.op === 'put' ? operation.record : operation.before) as Tables[T]
}

/** Whether a Change rewrote or filled so much that the project is read anew. */
export function needsReload(changes: readonly StoredChange[]): boolean {
  return changes.length > 50 || changes.some(({ act }) => act === 'strike out' || act === 'load the sample')
}

/** The view after some Changes. Records of other projects pass by. */
export function advanceView(
  view: ProjectView,
  changes: readonly StoredChange[],
  touched: TouchedRecords,
  captures: readonly CaptureHead[],
): ProjectView {
  const draft = new ViewDraft(view)
  for (const operation of changes.flatMap((change) => change.operations)) draft.apply(operation)
  draft.takeTexts(touchedBy(changes).nodes, touched)
  for (const capture of captures)
    if (draft.sources.has(capture.source)) draft.captures.set(capture.id, capture)
  return { ...view, ...draft.result(), sequence: changes.at(-1)?.sequence ?? view.sequence }
}

/** Copies a map only when it is first written to, so that untouched lists keep their identity for React. */
class ViewDraft {
  sources
  captures
  entries
  entryTags
  marks
  procedures
  steps
  parts
  beside
  links
  texts
  pieces
  amendments
  states
  withdrawn

  constructor(private readonly view: ProjectView) {
    this.sources = new Map(view.sources)
    this.captures = new Map(view.captures)
    this.entries = new LazyMap(view.entries)
    this.entryTags = new LazyMap(view.entryTags)
    this.procedures = new Map(view.procedures)
    this.steps = new Map(view.steps)
    this.parts = new Map(view.parts)
    this.beside = {
      parameters: new LazyMap(view.parameters),
      versions: new LazyMap(view.versions),
      remarks: new LazyMap(view.remarks),
      silences: new LazyMap(view.silences),
      leftOut: new LazyMap(view.leftOut),
      fetches: new LazyMap(view.fetches),
    }
    this.links = new LazyMap(view.links)
    this.marks = new LazyMap(view.marks)
    this.texts = new LazyMap(view.texts)
    this.pieces = new LazyMap(view.pieces)
    this.amendments = new LazyMap(view.amendments)
    this.states = new LazyMap(view.states)
    this.withdrawn = new Set(view.withdrawn)
  }

  apply(operation: Operation): void {
    if (operation.op === 'text') return
    if (operation.op === 'remove') this.remove(operation.table, operation.before)
    else this.put(operation)
  }

  private put(operation: Operation & { op: 'put' }): void {
    switch (operation.table) {
      case 'sources':
        this.putSource(operation.record)
        break
      case 'entries':
        if (operation.record.project === this.view.project)
          this.entries.set(operation.record.id, operation.record)
        break
      case 'withdrawals':
        withWithdrawal(this.withdrawn, operation.record)
        break
      case 'marks': {
        const { entry } = operation.record
        if (this.entries.has(entry))
          this.marks.set(entry, [...(this.marks.get(entry) ?? []), operation.record])
        break
      }
      case 'procedures':
        if (operation.record.project === this.view.project)
          this.procedures.set(operation.record.id, operation.record)
        break
      case 'steps':
        if (this.procedures.has(operation.record.procedure))
          this.steps.set(operation.record.id, operation.record)
        break
      case 'parts':
        if (this.procedures.has(operation.record.procedure))
          this.parts.set(operation.record.id, operation.record)
        break
      case 'parameters':
      case 'versions':
      case 'remarks':
      case 'silences':
      case 'leftOut':
      case 'fetches':
        if (this.procedures.has(operation.record.procedure))
          (this.beside[operation.table] as LazyMap<string, unknown>).set(
            operation.record.id,
            operation.record,
          )
        break
      case 'links':
        if (this.isOurs(operation.record.newer.node.id)) this.links.set(operation.record.id, operation.record)
        break
      case 'entryTags':
        if (this.entries.has(operation.record.entry))
          this.entryTags.set(operation.record.entry, operation.record)
        break
      case 'captures':
      case 'folders':
      case 'machines':
      case 'verdicts':
      case 'blobs':
      case 'projects':
      case 'strikes':
        break
    }
  }

  /** A source that another project alone uses leaves with its captures. */
  private putSource(source: Source): void {
    if (source.projects.includes(this.view.project)) {
      this.sources.set(source.id, source)
      return
    }
    this.sources.delete(source.id)
    for (const capture of [...this.captures.values()])
      if (capture.source === source.id) this.captures.delete(capture.id)
  }

  private remove(table: TableName, record: Tables[TableName]): void {
    const maps: Partial<Record<TableName, { delete(key: string): boolean }>> = {
      sources: this.sources,
      captures: this.captures,
      procedures: this.procedures,
      steps: this.steps,
      parts: this.parts,
      links: this.links,
      ...this.beside,
    }
    if (table === 'entryTags') this.entryTags.delete((record as EntryTags).entry)
    const { id } = record as { id: string }
    maps[table]?.delete(id)
    if (table === 'links') this.states.delete(id as LinkId)
  }

  takeTexts(nodes: readonly TextNodeId[], touched: TouchedRecords): void {
    for (const node of nodes) {
      this.texts.delete(node)
      this.pieces.delete(node)
    }
    for (const { node, text, pieces } of touched.texts) {
      if (!this.isOurs(node)) continue
      this.texts.set(node, text)
      this.pieces.set(node, pieces)
    }
    for (const [node, revisions] of groupByNode(touched.laterRevisions))
      if (this.entries.has(node)) this.amendments.set(node, revisions)
    for (const state of touched.linkStates) if (this.links.has(state.link)) this.states.set(state.link, state)
  }

  private isOurs(node: string): boolean {
    return this.entries.has(node) || this.parts.has(node)
  }

  result() {
    const { sources, captures, procedures, steps, parts, withdrawn } = this
    return {
      sources,
      captures,
      procedures,
      steps,
      parts,
      withdrawn,
      parameters: this.beside.parameters.result(),
      versions: this.beside.versions.result(),
      remarks: this.beside.remarks.result(),
      silences: this.beside.silences.result(),
      leftOut: this.beside.leftOut.result(),
      fetches: this.beside.fetches.result(),
      entries: this.entries.result(),
      entryTags: this.entryTags.result(),
      links: this.links.result(),
      marks: this.marks.result(),
      texts: this.texts.result(),
      pieces: this.pieces.result(),
      amendments: this.amendments.result(),
      states: this.states.result(),
    }
  }
}

class LazyMap<K, V> {
  private copy: Map<K, V> | null = null
  constructor(private readonly original: ReadonlyMap<K, V>) {}
  private get writable(): Map<K, V> {
    return (this.copy ??= new Map(this.original))
  }
  get(key: K): V | undefined {
    return (this.copy ?? this.original).get(key)
  }
  has(key: K): boolean {
    return (this.copy ?? this.original).has(key)
  }
  set(key: K, value: V): void {
    this.writable.set(key, value)
  }
  delete(key: K): boolean {
    return this.has(key) && this.writable.delete(key)
  }
  result(): ReadonlyMap<K, V> {
    return this.copy ?? this.original
  }
}

/** A project's entries in the order of the journal; withdrawn ones and later additions included. */
export function entriesInOrder(view: Pick<ProjectView, 'entries' | 'marks'>): Entry[] {
  return inJournalOrder(view.entries.values(), view.marks)
}

/** The steps of a procedure in order. */
export function stepsOf(view: ProjectView, procedure: ProcedureId): Step[] {
  return [...view.steps.values()].filter((step) => step.procedure === procedure).sort(compareSteps)
}

/** What stands beside the procedures of a project, grouped; the same groups as long as nothing of it changes. */
function grouped<T, K>(
  keyOf: (record: T) => K,
  compare: (a: T, b: T) => number,
): (records: ById<T>, key: K) => readonly T[] {
  const groups = new WeakMap<ById<T>, Map<K, T[]>>()
  const none: readonly T[] = []
  return (records, key) => {
    let own = groups.get(records)
    if (!own) {
      own = new Map<K, T[]>()
      for (const record of [...records.values()].sort(compare))
        own.set(keyOf(record), [...(own.get(keyOf(record)) ?? []), record])
      groups.set(records, own)
    }
    return own.get(key) ?? none
  }
}

const parametersBy = grouped(
  (one: Parameter) => one.procedure,
  (a, b) => (a.position === b.position ? (a.id < b.id ? -1 : 1) : a.position < b.position ? -1 : 1),
)
const versionsBy = grouped(
  (one: Version) => one.procedure,
  (a, b) => a.number - b.number,
)
const remarksBy = grouped(
  (one: Remark) => one.step,
  (a, b) => (a.id < b.id ? -1 : 1),
)

/** The parameters of a procedure in their order. */
export function parametersOf(view: ProjectView, procedure: ProcedureId): readonly Parameter[] {
  return parametersBy(view.parameters, procedure)
}

/** The versions of a procedure, the first one first. */
export function versionsOf(view: ProjectView, procedure: ProcedureId): readonly Version[] {
  return versionsBy(view.versions, procedure)
}

/** The remarks on a step, oldest first. */
export function remarksOf(view: ProjectView, step: StepId): readonly Remark[] {
  return remarksBy(view.remarks, step)
}

/** The parts of a step, by kind. */
export function partsOfStep(view: ProjectView, step: StepId): Map<PartKind, Part> {
  const parts = [...view.parts.values()].filter((part) => part.step === step)
  return new Map(parts.map((part) => [part.kind, part]))
}

/** A procedure's own part of a kind. */
export function partOfProcedure(view: ProjectView, procedure: ProcedureId, kind: PartKind): Part | undefined {
  return [...view.parts.values()].find(
    (part) => part.procedure === procedure && part.step === null && part.kind === kind,
  )
}

/** The links that lead from a text of this project to what it came from, oldest first. */
export function linksFrom(view: ProjectView, node: string): Link[] {
  return [...view.links.values()].filter((link) => link.newer.node.id === node)
}

/** The links that lead to an entry or a source of this project from what came of it. */
export function linksTo(view: ProjectView, node: EntryId | string): Link[] {
  return [...view.links.values()].filter((link) => link.older.node.id === node)
}
