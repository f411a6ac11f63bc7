/**
 * The life of a step: what it began with, how it came to be, what was changed, and who holds it. Told from the stored
 * Changes of its texts; a Change that only moved it or said its place changed no text and is not among them.
 */
import type { Act, Change, Operation, TextOperation } from '../lab/change.ts'
import type { PartId, RevisionId } from '../lab/ids.ts'
import type { Entry, Link, Part, PartKind, Revision, Step, Version } from '../lab/model.ts'
import { instantOf, type Moment } from '../lab/moment.ts'
import { changeText } from '../lab/text.ts'
import { compareTexts, type Difference } from '../sources/difference.ts'

/** An entry that the step rests on. */
export interface LifeEntry {
  readonly entry: Entry
  /** When it happened. */
  readonly at: Moment
  readonly isWithdrawn: boolean
}

/** One time that a version with the step was followed. */
export interface LifeRun {
  readonly at: Moment
  readonly version: number
  /** What came of the step, in a few words. */
  readonly outcome: string
}

export interface LifeRecords {
  /** Those that the step has now. */
  readonly parts: readonly Part[]
  /** All revisions of each part's text, in order. */
  readonly revisions: ReadonlyMap<PartId, readonly Revision[]>
  /** The links of its parts that stand now. */
  readonly links: readonly Link[]
  /** All entries that it rests on, over any number of hops. */
  readonly entries: readonly LifeEntry[]
  /** Problems that it rests on or whose answer it rests on, each with what ended it. */
  readonly problems: readonly { readonly problem: LifeEntry; readonly ended: LifeEntry | null }[]
  /** The versions of its procedure, the first one first. */
  readonly versions: readonly Version[]
  readonly runs: readonly LifeRun[]
}

/** What was done, and by whom; null where nobody gave a name. */
export interface Deed {
  readonly act: Act
  readonly who: string | null
}

interface PartDeed extends Deed {
  readonly part: PartId
  /** null where it cannot be told any more. */
  readonly kind: PartKind | null
}

export type LifeEvent = { readonly at: Moment } & (
  | {
      readonly kind: 'entry'
      readonly role: 'note' | 'problem' | 'fix'
      /** The earliest that the step rests on. */
      readonly isFirst: boolean
      readonly entry: LifeEntry
    }
  | { readonly kind: 'step'; readonly what: 'begun' | 'removed' | 'brought back'; readonly deed: Deed }
  | {
      readonly kind: 'carry'
      readonly what: 'made' | 'taken back'
      readonly deed: PartDeed
      readonly link: Link
    }
  | {
      readonly kind: 'words'
      readonly deed: PartDeed
      /** When the last of the changes was kept that are told as one. */
      readonly until: Moment
      readonly difference: Difference
    }
  | {
      readonly kind: 'version'
      readonly version: Version
      /** The step's texts are still those of the version. */
      readonly isAsNow: boolean
    }
  | { readonly kind: 'run'; readonly run: LifeRun }
)

/** Words that changed, before they are compared. */
type WordsEvent = Omit<Extract<LifeEvent, { kind: 'words' }>, 'difference'> & {
  readonly before: string
  readonly after: string
}
type RawEvent = Exclude<LifeEvent, { kind: 'words' }> | WordsEvent

/** Words of one part that were typed with no more than this between them are told as one. Milliseconds. */
const ONE_SITTING = 10 * 60_000

/**
 * The life of a step as a dated list, the oldest first.
 * @param changes those named by the revisions of its parts' texts, in the order of their commits
 */
export function lifeOf(step: Step, records: LifeRecords, changes: readonly Change[]): LifeEvent[] {
  const told = new StepTeller(step, records).tell(changes)
  const events = [...entryEvents(records), ...told, ...versionEvents(step, records), ...runEvents(records)]
  const inOrder = events
    .map((event, place) => ({ event, place }))
    .sort((a, b) => instantOf(a.event.at) - instantOf(b.event.at) || a.place - b.place)
  return joinWords(inOrder.map(({ event }) => event)).map(toEvent)
}

function entryEvents({ entries, problems }: LifeRecords): RawEvent[] {
  const byTime = (a: LifeEntry, b: LifeEntry): number =>
    instantOf(a.at) - instantOf(b.at) || (a.entry.id < b.entry.id ? -1 : 1)
  const first = [...entries].sort(byTime)[0]
  const roles = new Map<string, { readonly role: 'note' | 'problem' | 'fix'; readonly entry: LifeEntry }>()
  if (first) roles.set(first.entry.id, { role: 'note', entry: first })
  for (const { problem, ended } of problems) {
    roles.set(problem.entry.id, { role: 'problem', entry: problem })
    if (ended) roles.set(ended.entry.id, { role: 'fix', entry: ended })
  }
  return [...roles.values()]
    .sort((a, b) => byTime(a.entry, b.entry))
    .map(({ role, entry }) => ({
      ...{ kind: 'entry', at: entry.at, role, entry },
      isFirst: entry.entry.id === first?.entry.id,
    }))
}

/** Tells what Changes did to one step. */
class StepTeller {
  private readonly kinds = new Map<string, PartKind>()
  private readonly texts = new Map<RevisionId, { readonly before: string; readonly after: string }>()
  private wasBegun = false

  constructor(
    private readonly step: Step,
    private readonly records: LifeRecords,
  ) {
    for (const { id, kind } of records.parts) this.kinds.set(id, kind)
    for (const revisions of records.revisions.values())
      revisions.reduce((before, { id, changeSet }) => {
        const after = changeText(before, changeSet)
        this.texts.set(id, { before, after })
        return after
      }, '')
  }

  tell(changes: readonly Change[]): RawEvent[] {
    for (const one of changes.flatMap(({ operations }) => operations)) {
      if (one.op === 'text' || one.table !== 'parts') continue
      const part = one.op === 'put' ? one.record : one.before
      if (part.step === this.step.id) this.kinds.set(part.id, part.kind)
    }
    const told = changes.flatMap((change) => this.ofChange(change))
    const known = new Set(told.flatMap((event) => (event.kind === 'carry' ? [event.link.id] : [])))
    const others = this.records.links.filter(({ id, newer }) => !known.has(id) && this.isOwn(newer.node.id))
    return [
      ...told,
      // One that stands for another was made by an act that wrote no word here.
      ...others.map((link) =>
        this.carried('made', link, link.made, {
          act: link.revises ? 'set a link again' : 'carry',
          who: null,
        }),
      ),
    ]
  }

  private isOwn(node: string): boolean {
    return this.kinds.has(node) || this.records.revisions.has(node as PartId)
  }

  private ofChange(change: Change): RawEvent[] {
    const { at, act, who, operations } = change
    const deed: Deed = { act, who }
    const fates = operations.flatMap((one) => this.fated(one, at, deed))
    // The words go and come back with their step.
    if (fates.some((event) => event.kind === 'step' && event.what !== 'begun')) return fates
    const carries = operations.flatMap((one) => this.carriedBy(one, at, deed))
    const words = operations.flatMap((one) =>
      one.op === 'text' && this.isOwn(one.node.id) && !carries.some((carry) => speaksOf(carry, one))
        ? this.worded(one.node.id as PartId, one.toRevision, at, deed)
        : [],
    )
    return [...fates, ...carries, ...words]
  }

  private fated(one: Operation, at: Moment, deed: Deed): RawEvent[] {
    if (one.op === 'text' || one.table !== 'steps') return []
    const { id } = one.op === 'put' ? one.record : one.before
    const what = id === this.step.id ? this.fateOf(one.op, one.before !== null) : null
    return what ? [{ kind: 'step', at, what, deed }] : []
  }

  private carriedBy(one: Operation, at: Moment, deed: Deed): RawEvent[] {
    if (one.op === 'text' || one.table !== 'links') return []
    const link = one.op === 'put' ? one.record : one.before
    if (!this.isOwn(link.newer.node.id)) return []
    return [this.carried(one.op === 'put' ? 'made' : 'taken back', link, at, deed)]
  }

  private fateOf(op: 'put' | 'remove', wasThere: boolean): 'begun' | 'removed' | 'brought back' | null {
    if (op === 'remove') return 'removed'
    if (wasThere) return null
    const isFirst = !this.wasBegun
    this.wasBegun = true
    return isFirst ? 'begun' : 'brought back'
  }

  private carried(what: 'made' | 'taken back', link: Link, at: Moment, deed: Deed): RawEvent {
    return { kind: 'carry', what, at, link, deed: this.ofPart(link.newer.node.id as PartId, deed) }
  }

  private worded(part: PartId, revision: RevisionId, at: Moment, deed: Deed): RawEvent[] {
    const words = this.texts.get(revision)
    if (!words || words.before === words.after) return []
    return [{ kind: 'words', at, until: at, deed: this.ofPart(part, deed), ...words }]
  }

  private ofPart(part: PartId, deed: Deed): PartDeed {
    return { ...deed, part, kind: this.kinds.get(part) ?? null }
  }
}

/** Whether a carry says already what happened to a text: its words came with it, or went with it when it was taken back. */
function speaksOf(event: RawEvent, { node, toRevision }: TextOperation): boolean {
  if (event.kind !== 'carry') return false
  const { act, part } = event.deed
  const isReversal = act === 'undo' || act === 'redo'
  return isReversal ? part === node.id : event.link.newer.revision === toRevision
}

function versionEvents({ id }: Step, { versions, parts, revisions }: LifeRecords): RawEvent[] {
  const now = new Map(parts.map((part) => [part.id, revisions.get(part.id)?.at(-1)?.id]))
  return versions
    .filter(({ steps }) => steps.some((step) => step.id === id))
    .map((version) => {
      const held = version.parts.filter(({ part }) => part.step === id)
      const isSame = held.every(({ part, revision }) => now.get(part.id) === revision)
      return { kind: 'version', at: version.marked, version, isAsNow: isSame && held.length === now.size }
    })
}

function runEvents({ runs }: LifeRecords): RawEvent[] {
  return runs.map((run) => ({ kind: 'run', at: run.at, run }))
}

/** Words that one person typed into one part in one sitting are told as one; where nothing is other in the end, not at all. */
function joinWords(events: readonly RawEvent[]): RawEvent[] {
  const joined: RawEvent[] = []
  for (const event of events) {
    const last = joined.at(-1)
    if (event.kind === 'words' && last?.kind === 'words' && isOneSitting(last, event))
      joined[joined.length - 1] = { ...last, after: event.after, until: event.until }
    else joined.push(event)
  }
  return joined.filter((event) => event.kind !== 'words' || event.before !== event.after)
}

function isOneSitting(last: WordsEvent, next: WordsEvent): boolean {
  return (
    last.deed.part === next.deed.part &&
    last.deed.act === 'write' &&
    next.deed.act === 'write' &&
    last.deed.who === next.deed.who &&
    last.after === next.before &&
    instantOf(next.at) - instantOf(last.until) <= ONE_SITTING
  )
}

function toEvent(event: RawEvent): LifeEvent {
  if (event.kind !== 'words') return event
  const { before, after, ...rest } = event
  return { ...rest, difference: compareTexts(before, after) }
}
