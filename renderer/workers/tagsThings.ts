/** The things of a lab that tags are learnt from, read as they stand: sources, entries, projects, and what was said of them. */
import { textOfEntry, textOfProject, textOfSource, type TaggedThing } from '../../shared/find/known-things.ts'
import { compareText } from '../../shared/find/tag-terms.ts'
import type { Operation, StoredChange } from '../../shared/lab/change.ts'
import type { EntryId, SourceId } from '../../shared/lab/ids.ts'
import type { Source, TaggedNode, Verdict } from '../../shared/lab/model.ts'
import type { Queries } from '../db/queries.ts'

/** The queries that are needed here. */
export type TagQueries = Pick<
  Queries,
  | 'allEntryTags'
  | 'changesAfter'
  | 'findNewestCapture'
  | 'findSource'
  | 'findText'
  | 'projects'
  | 'sequence'
  | 'sources'
  | 'verdicts'
  | 'withdrawnAmong'
>

/** A name has at most so many UTF-16 code units. */
const LONGEST_NAME = 60

export class TaggedThings {
  /** By node, then by the verdict's own id. */
  private readonly verdicts = new Map<string, Map<string, Verdict>>()
  private readonly entryTags = new Map<EntryId, readonly string[]>()
  private readonly kinds = new Map<string, TaggedNode['kind']>()

  constructor(private readonly queries: TagQueries) {}

  /** Reads what stands beside the things, and tells which there are to learn from, in the order of their ids. */
  async begin(): Promise<TaggedNode[]> {
    for (const verdict of await this.queries.verdicts()) this.noteVerdict(verdict, true)
    for (const { entry, tags } of await this.queries.allEntryTags()) this.entryTags.set(entry, tags)
    const sources = (await this.queries.sources()).filter(({ tags }) => tags.length > 0)
    const projects = (await this.queries.projects()).filter(({ tags }) => tags.length > 0)
    const judged = [...this.verdicts.values()].flatMap((said) => [...said.values()].map(({ node }) => node))
    const all: TaggedNode[] = [
      ...judged,
      ...[...this.entryTags.keys()].map((id) => ({ kind: 'entry', id }) as const),
      ...sources.map(({ id }) => ({ kind: 'source', id }) as const),
      ...projects.map(({ id }) => ({ kind: 'project', id }) as const),
    ]
    return [...new Map(all.map((node) => [node.id, node])).values()].sort((one, other) =>
      compareText(one.id, other.id),
    )
  }

  /** Takes note of what some Changes did beside the things, and tells which things they touched. */
  async noteChanges(changes: readonly StoredChange[]): Promise<TaggedNode[]> {
    const touched = new Map<string, TaggedNode>()
    for (const operation of changes.flatMap(({ operations }) => operations))
      for (const node of this.noteOperation(operation)) touched.set(node.id, node)
    // A source shows the texts of those that were merged into it.
    for (const { kind, id } of [...touched.values()]) {
      const into = kind === 'source' ? (await this.queries.findSource(id))?.mergedInto : null
      if (into) touched.set(into, { kind: 'source', id: into })
    }
    return [...touched.values()]
  }

  private noteOperation(operation: Operation): TaggedNode[] {
    if (operation.op === 'text') return operation.node.kind === 'entry' ? [operation.node] : []
    const isPut = operation.op === 'put'
    switch (operation.table) {
      case 'sources': {
        const records = isPut ? [operation.record, operation.before] : [operation.before]
        return records.flatMap((source) => (source ? sourceNodes(source) : []))
      }
      case 'captures':
        return [{ kind: 'source', id: (isPut ? operation.record : operation.before).source }]
      case 'projects':
        return [{ kind: 'project', id: (isPut ? operation.record : operation.before).id }]
      case 'withdrawals':
      case 'marks':
        return [{ kind: 'entry', id: (isPut ? operation.record : operation.before).entry }]
      case 'entryTags': {
        const { entry, tags } = isPut ? operation.record : operation.before
        if (isPut) this.entryTags.set(entry, tags)
        else this.entryTags.delete(entry)
        return [{ kind: 'entry', id: entry }]
      }
      case 'verdicts': {
        const verdict = isPut ? operation.record : operation.before
        this.noteVerdict(verdict, isPut)
        return [verdict.node]
      }
      case 'blobs':
      case 'entries':
      case 'folders':
      case 'machines':
      case 'links':
      case 'parts':
      case 'procedures':
      case 'steps':
      case 'parameters':
      case 'versions':
      case 'remarks':
      case 'silences':
      case 'leftOut':
      case 'fetches':
      case 'strikes':
        return []
    }
  }

  private noteVerdict(verdict: Verdict, isThere: boolean): void {
    const said = this.verdicts.get(verdict.node.id) ?? new Map<string, Verdict>()
    if (isThere) said.set(verdict.id, verdict)
    else said.delete(verdict.id)
    this.verdicts.set(verdict.node.id, said)
  }

  /** The verdicts on a thing that count: the latest for each tag. */
  private saidOf(id: string): Verdict[] {
    const inOrder = [...(this.verdicts.get(id)?.values() ?? [])].sort((one, other) =>
      compareText(one.id, other.id),
    )
    return [...new Map(inOrder.map((verdict) => [verdict.tag, verdict])).values()]
  }

  /** A thing as it is to be learnt. One that was withdrawn or merged into another has no say; its verdicts have. */
  async readToLearn(node: TaggedNode): Promise<TaggedThing> {
    this.kinds.set(node.id, node.kind)
    const { tags, isStanding } = await this.tagsOf(node)
    const learnt = isStanding ? tags : []
    const said = this.saidOf(node.id)
    const isRead = learnt.length + said.length > 0
    return { id: node.id, tags: learnt, said, text: isRead ? await this.textOf(node) : textOfEntry('') }
  }

  /** A thing as it is to be suggested for. */
  async read(node: TaggedNode): Promise<TaggedThing> {
    const { tags } = await this.tagsOf(node)
    return { id: node.id, tags, said: this.saidOf(node.id), text: await this.textOf(node) }
  }

  private async tagsOf(node: TaggedNode): Promise<{ tags: readonly string[]; isStanding: boolean }> {
    switch (node.kind) {
      case 'source': {
        const source = await this.queries.findSource(node.id)
        return { tags: source?.tags ?? [], isStanding: source?.mergedInto === null }
      }
      case 'project': {
        const project = (await this.queries.projects()).find(({ id }) => id === node.id)
        return { tags: project?.tags ?? [], isStanding: true }
      }
      case 'entry': {
        const tags = this.entryTags.get(node.id) ?? []
        const isStanding = tags.length === 0 || (await this.queries.withdrawnAmong([node.id])).size === 0
        return { tags, isStanding }
      }
    }
  }

  private async textOf(node: TaggedNode): Promise<TaggedThing['text']> {
    switch (node.kind) {
      case 'source': {
        const source = await this.queries.findSource(node.id)
        if (!source) return textOfEntry('')
        const newest = await this.queries.findNewestCapture(node.id)
        return textOfSource(source, newest?.text ?? null)
      }
      case 'project': {
        const project = (await this.queries.projects()).find(({ id }) => id === node.id)
        return project ? textOfProject(project) : textOfEntry('')
      }
      case 'entry':
        return textOfEntry((await this.queries.findText(node.id))?.text ?? '')
    }
  }

  /** A thing that was learnt from, by its id, and what it is called. */
  async nameOf(id: string): Promise<{ readonly node: TaggedNode; readonly name: string }> {
    const node = { kind: this.kinds.get(id) ?? 'source', id } as TaggedNode
    const { title, address, text } = await this.textOf(node)
    const line = text.split('\n').find((one) => one.trim() !== '') ?? ''
    return { node, name: shortened(title || address || line) }
  }
}

function sourceNodes({ id, mergedInto }: Source): TaggedNode[] {
  const ids: SourceId[] = mergedInto ? [id, mergedInto] : [id]
  return ids.map((one) => ({ kind: 'source', id: one }))
}

function shortened(words: string): string {
  const line = words.replace(/\s+/g, ' ').trim()
  return line.length <= LONGEST_NAME ? line : `${line.slice(0, LONGEST_NAME - 1).trimEnd()}…`
}
