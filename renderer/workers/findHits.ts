/**
 * Hits with all that the screen needs to show them, read from the store as it stands when asked: what was struck out since is
 * not in it, and what is gone since is left out.
 */
import { fileOf, momentOf } from '../../shared/journal/entry-facts.ts'
import type { FindAnswer, FindHit, TakenQuery } from '../../shared/find/index/answer.ts'
import {
  isFoundEntry,
  parametersInOrder,
  partsInOrder,
  remarksInOrder,
  valuesOfParameter,
  versionsInOrder,
  type PartMatter,
} from '../../shared/find/lab/documents.ts'
import { findExcerpt, findMarks } from '../../shared/find/marks.ts'
import { toReadingText } from '../../shared/find/reading-text.ts'
import type { EntryId, MachineId, ProcedureId, ProjectId, SourceId, StepId } from '../../shared/lab/ids.ts'
import type { LinkNode, Parameter, PartKind, Range, Version } from '../../shared/lab/model.ts'
import type { Queries } from '../db/queries.ts'
import type { FoundExcerpt, FoundGoal, FoundHit, FoundProject } from './found.ts'
import { ThingReads, type ThingQueries } from './thingReads.ts'

export type HitQueries = ThingQueries & Pick<Queries, 'besideProcedure' | 'entryMatters'>

/** How long an excerpt is, UTF-16 code units. */
const EXCERPT = 240
/** Texts that are longer are looked through from a little before the first word of the query on, for so far. */
const LONGEST_LOOK = 100_000

/** All hits of an answer that still stand, in its order. */
export async function showHits(
  queries: HitQueries,
  { hits, taken }: Pick<FindAnswer, 'hits' | 'taken'>,
): Promise<FoundHit[]> {
  // All entries in one transaction: forty of their own take longer than everything else here.
  const entries = hits.flatMap(({ thing, id }) => (isFoundEntry(thing) ? [id as EntryId] : []))
  const matters = entries.length === 0 ? [] : await queries.entryMatters(entries)
  const shower = new HitShower(queries, taken, new Map(matters.map((matter) => [matter.entry.id, matter])))
  const shown = await Promise.all(hits.map((hit) => shower.show(hit)))
  return shown.flatMap((hit) => hit ?? [])
}

type EntryMatter = Awaited<ReturnType<HitQueries['entryMatters']>>[number]

type Shown = Omit<FoundHit, keyof Omit<FindHit, 'moment'>>

class HitShower {
  private readonly reads: ThingReads

  constructor(
    private readonly queries: HitQueries,
    private readonly taken: TakenQuery,
    private readonly entries: ReadonlyMap<EntryId, EntryMatter>,
  ) {
    this.reads = new ThingReads(queries)
  }

  async show(hit: FindHit): Promise<FoundHit | null> {
    const shown = await this.shownOf(hit)
    return shown && { ...hit, ...shown }
  }

  private shownOf({ thing, id }: FindHit): Promise<Shown | null> {
    switch (thing) {
      case 'entry':
      case 'problem':
      case 'file':
        return this.entry(id as EntryId)
      case 'source':
        return this.source(id as SourceId)
      case 'procedure':
        return this.procedure(id as ProcedureId)
      case 'step':
        return this.step(id as StepId)
      case 'project':
        return this.project(id as ProjectId)
      case 'machine':
        return this.machine(id as MachineId)
      case 'command':
        // Commands are found in the entries that they stand in.
        return Promise.resolve(null)
    }
  }

  private async entry(id: EntryId): Promise<Shown | null> {
    const matter = this.entries.get(id)
    if (!matter) return null
    const { entry, text, marks, isWithdrawn } = matter
    return {
      ...this.titled(fileOf(entry, marks)?.path ?? ''),
      excerpt: this.excerpt(text),
      kind: entry.kind,
      moment: momentOf(entry, marks),
      isWithdrawn,
      projects: await this.projectsOf([entry.project]),
      procedure: null,
      goal: { kind: 'node', node: { kind: 'entry', id }, ranges: this.marks(text) },
    }
  }

  private async source(id: SourceId): Promise<Shown | null> {
    const read = await this.reads.source(id)
    if (!read) return null
    const { source, capture } = read
    const node: LinkNode = { kind: 'source', id }
    const own = [source.remark, source.address ?? '', source.author ?? ''].map((text) =>
      this.ofNode(text, node),
    )
    const texts = capture ? [this.ofNode(capture.text, { kind: 'capture', id: capture.id })] : []
    return {
      ...this.titled(source.title),
      kind: source.kind,
      moment: source.added,
      isWithdrawn: false,
      projects: await this.projectsOf(source.projects),
      procedure: null,
      ...this.best([...texts, ...own], { kind: 'node', node, ranges: [] }),
    }
  }

  private async procedure(id: ProcedureId): Promise<Shown | null> {
    const matter = await this.queries.procedureMatter(id)
    if (!matter) return null
    const { procedure, parts } = matter
    const { parameters, versions } = await this.queries.besideProcedure(id)
    const more = [
      ...parametersInOrder(parameters).map((parameter) => this.ofParameter(parameter)),
      ...versionsInOrder(versions).map((version) => this.ofVersion(version)),
    ]
    return {
      ...this.ofParts(parts, 'title', id, more),
      kind: null,
      moment: procedure.created,
      isWithdrawn: false,
      projects: await this.projectsOf([procedure.project]),
      procedure: null,
    }
  }

  private async step(id: StepId): Promise<Shown | null> {
    const matter = await this.reads.step(id)
    if (!matter) return null
    const { procedure, parts, remarks, title, number } = matter
    return {
      ...this.ofParts(parts, 'heading', procedure.id, remarksInOrder(remarks).map(withoutGoal)),
      kind: null,
      moment: null,
      isWithdrawn: false,
      projects: await this.projectsOf([procedure.project]),
      procedure: { id: procedure.id, title, step: id, number },
    }
  }

  private async project(id: ProjectId): Promise<Shown | null> {
    const project = await this.reads.project(id)
    if (!project) return null
    return {
      ...this.titled(project.title),
      excerpt: this.excerpt(project.aim),
      kind: null,
      moment: project.created,
      isWithdrawn: false,
      projects: [{ id, title: project.title }],
      procedure: null,
      goal: { kind: 'project', id },
    }
  }

  private async machine(id: MachineId): Promise<Shown | null> {
    const read = await this.reads.machine(id)
    if (!read) return null
    const { machine, signs } = read
    const texts = [machine.notes, signs].map(withoutGoal)
    return {
      ...this.titled(machine.name),
      kind: null,
      moment: machine.created,
      isWithdrawn: false,
      projects: [],
      procedure: null,
      ...this.best(texts, { kind: 'machine', id }),
    }
  }

  /**
   * The text that is the title is shown anyway; words that stand in it alone lead to it.
   * @param more texts that are no parts
   */
  private ofParts(
    parts: readonly PartMatter[],
    titleKind: PartKind,
    procedure: ProcedureId,
    more: readonly OwnText[],
  ) {
    const texts = partsInOrder(parts).map(({ part, text }) => ({
      ...this.ofNode(text, { kind: 'part', id: part.id }),
      isTitle: part.kind === titleKind,
    }))
    const title = texts.find(({ isTitle }) => isTitle)
    const first = title ?? texts[0]
    const otherwise: FoundGoal = first?.goal() ?? { kind: 'procedure', id: procedure }
    const others = [...texts.filter((one) => one !== title), ...more]
    const named = title?.text ?? ''
    const shown = toReadingText(named, { start: 0, end: named.length }, this.marks(named))
    return { title: shown.text, titleMarks: shown.marks, ...this.best(others, otherwise) }
  }

  private ofNode(text: string, node: LinkNode): OwnText & { readonly goal: () => FoundGoal } {
    return { text, goal: () => ({ kind: 'node', node, ranges: this.marks(text) }) }
  }

  /** Its name, its values and its help in one. */
  private ofParameter(parameter: Parameter): OwnText {
    const { id, procedure, name, help } = parameter
    const values = valuesOfParameter(parameter).join(', ')
    const text = [[name, values].filter((part) => part !== '').join(': '), help]
      .filter((part) => part !== '')
      .join('\n\n')
    return { text, goal: () => ({ kind: 'parameter', procedure, id, words: this.wordsIn(text) }) }
  }

  private ofVersion({ procedure, number, line }: Version): OwnText {
    return { text: line, goal: () => ({ kind: 'version', procedure, number, words: this.wordsIn(line) }) }
  }

  /** The words that are marked in a text, each once as it is written. */
  private wordsIn(text: string): string[] {
    return [...new Set(this.marks(text).map(({ start, end }) => text.slice(start, end)))]
  }

  private titled(title: string): Pick<Shown, 'title' | 'titleMarks'> {
    return { title, titleMarks: this.marks(title) }
  }

  /**
   * The text that shows the most different words, of those the first, and where it leads to.
   * @param otherwise where to go if none shows any
   */
  private best(texts: readonly OwnText[], otherwise: FoundGoal): Pick<Shown, 'excerpt' | 'goal'> {
    const excerpts = texts.map(({ text }) => this.excerpt(text))
    const scores = excerpts.map(scoreOf)
    const at = scores.indexOf(Math.max(...scores))
    const goal = excerpts[at] && excerpts[at].marks.length > 0 ? texts[at]!.goal : null
    return { excerpt: excerpts[at] ?? this.excerpt(''), goal: goal?.() ?? otherwise }
  }

  private excerpt(text: string): FoundExcerpt {
    const { start: from, end: to } = this.lookedThrough(text)
    const looked = text.slice(from, to)
    const { start, end, marks } = findExcerpt(this.taken, looked, EXCERPT)
    return {
      ...toReadingText(looked, { start, end }, marks),
      isCutBefore: from + start > 0,
      isCutBehind: from + end < text.length,
    }
  }

  private marks(text: string): Range[] {
    const { start: from, end } = this.lookedThrough(text)
    return findMarks(this.taken, text.slice(from, end)).map((mark) => ({
      start: from + mark.start,
      end: from + mark.end,
    }))
  }

  /** Of a very long text the stretch that begins a little before the first of the words, as far as letters tell. */
  private lookedThrough(text: string): Range {
    if (text.length <= LONGEST_LOOK) return { start: 0, end: text.length }
    const lower = text.toLowerCase()
    const forms = [
      ...this.taken.words.flatMap(({ form, respelt }) => [form, ...respelt]),
      ...this.taken.phrases.flat(),
    ]
    const places = forms.map((form) => lower.indexOf(form)).filter((at) => at >= 0)
    const first = places.length === 0 ? 0 : Math.min(...places)
    const start = first <= EXCERPT ? 0 : text.lastIndexOf('\n', first - EXCERPT) + 1
    const near = first - start > LONGEST_LOOK / 2 ? first - EXCERPT : start
    return { start: near, end: Math.min(text.length, near + LONGEST_LOOK) }
  }

  private async projectsOf(ids: readonly ProjectId[]): Promise<FoundProject[]> {
    const read = await Promise.all(ids.map((id) => this.reads.project(id)))
    return read.flatMap((project) => (project ? [{ id: project.id, title: project.title }] : []))
  }
}

/** A text of a hit, and where its words lead to; null where the screen cannot go there. */
interface OwnText {
  readonly text: string
  readonly goal: (() => FoundGoal) | null
}

const withoutGoal = (text: string): OwnText => ({ text, goal: null })

/** Texts with words of the query first, the more different ones the better; then texts at all. */
function scoreOf({ text, marks }: FoundExcerpt): number {
  if (text === '') return 0
  return 1 + new Set(marks.map(({ start, end }) => text.slice(start, end).toLowerCase())).size
}
