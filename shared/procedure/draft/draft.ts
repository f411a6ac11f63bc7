/**
 * A draft of steps from entries of a journal: the path that worked. Dead ends, repeats and what was undone are dropped,
 * each with its reason; what changed something becomes a step, with what the machine answered as “expect”.
 */
import { fileOf, inJournalOrder } from '../../journal/entry-facts.ts'
import type { LabId } from '../../lab/ids.ts'
import type { Entry, FileState, Link, Place, Range, StepPartKind } from '../../lab/model.ts'
import { deedsOf, isChanging, type Deed } from '../coverage/deeds.ts'
import { answeredBy } from '../coverage/fates.ts'
import type { JournalRecords } from '../coverage/records.ts'
import { sortDeeds, type Dropped, type Sorted } from './dropped.ts'
import { codeFrom, expectedFrom, joinTexts, leadOf, wordsFrom, type PartText, type Picked } from './parts.ts'

export interface DraftPart extends PartText {
  readonly kind: StepPartKind
  /** Of a part of the kind `file`. */
  readonly file: FileState | null
}

/** One proposed step. */
export interface DraftRow {
  /** The id of the entry that it begins with: stable while the entries stay. */
  readonly id: string
  /** Where it happens; null where the journal does not say. */
  readonly place: Place | null
  /** In the order in which a step shows them. */
  readonly parts: readonly DraftPart[]
  /** Why a person should look at it before taking it; null for a step that the journal shows to have worked. */
  readonly doubt: 'outcome unknown' | 'effect unknown' | null
  readonly deeds: readonly Deed[]
}

export interface Draft {
  readonly rows: readonly DraftRow[]
  readonly dropped: readonly Dropped[]
}

export interface DraftOptions {
  readonly lab: LabId
  /** Entries to draft from; null for all that stand: the path that worked. */
  readonly chosen: ReadonlySet<string> | null
  /** Links of the project: which fix answered which problem. */
  readonly links: Iterable<Link>
  /** Whether a procedure holds a deed already; none is held where nothing is said. */
  readonly isCarried?: (deed: Deed) => boolean
  /** Whether a procedure holds the words of an entry already: what it says beside its commands. */
  readonly isTold?: (entry: Entry) => boolean
}

/** Proposes steps. Nothing is changed; `acceptDraft` makes the Change for those that a person takes. */
export function draftFrom(journal: JournalRecords, options: DraftOptions): Draft {
  const { chosen } = options
  const own =
    chosen === null
      ? journal
      : { ...journal, entries: new Map([...journal.entries].filter(([id]) => chosen.has(id))) }
  const answers = answeredBy(options.links, own)
  const deeds = deedsOf(own)
  const sorted = sortDeeds(deeds, answers, options.isCarried ?? (() => false))
  return new Drafting(own, options, deeds, sorted, answers).draft()
}

interface Growing {
  readonly id: string
  readonly place: Place | null
  readonly deeds: Deed[]
  readonly texts: Map<StepPartKind, PartText[]>
  file: FileState | null
}

class Drafting {
  private readonly rows: Growing[] = []
  /** Reasons that wait for the step that they led to. */
  private waiting: { readonly entry: Entry; readonly text: PartText }[] = []
  /** The row that the next output belongs to. */
  private asked: Growing | null = null
  private readonly dropped: Dropped[]
  private readonly byEntry = new Map<string, Deed[]>()

  constructor(
    private readonly journal: JournalRecords,
    private readonly options: Pick<DraftOptions, 'lab' | 'isTold'>,
    deeds: readonly Deed[],
    private readonly sorted: Sorted,
    private readonly answers: ReadonlyMap<string, Entry>,
  ) {
    this.dropped = [...sorted.dropped]
    for (const deed of deeds) {
      const own = this.byEntry.get(deed.entry.id)
      if (own) own.push(deed)
      else this.byEntry.set(deed.entry.id, [deed])
    }
  }

  draft(): Draft {
    const standing = [...this.journal.entries.values()].filter(({ id }) => !this.journal.withdrawn.has(id))
    for (const entry of inJournalOrder(standing, this.journal.marks)) this.take(entry)
    this.giveReasons(this.rows.at(-1) ?? null)
    return { rows: this.rows.map((row) => this.finish(row)), dropped: this.dropped }
  }

  private take(entry: Entry): void {
    if (entry.kind !== 'action' && entry.kind !== 'file' && this.options.isTold?.(entry))
      return this.pass(entry)
    switch (entry.kind) {
      case 'action':
        return this.takeCommands(entry)
      case 'fix':
      case 'decision':
        return this.answers.has(entry.id) ? this.takeAnswer(entry) : this.takeUnanswering(entry)
      case 'output':
        return this.takeOutput(entry)
      case 'file':
        return this.takeFile(entry)
      case 'observation':
        return this.takeReason(entry, this.rows.at(-1) ?? null)
      case 'problem':
        return this.takeProblem(entry)
      case 'list':
        return this.takeList(entry)
    }
  }

  private takeUnanswering(entry: Entry): void {
    if (entry.kind === 'fix') return this.takeCommands(entry)
    return this.takeReason(entry, null)
  }

  private takeCommands(entry: Entry): void {
    this.asked = null
    const own = this.deedsOf(entry, this.sorted.kept)
    const checks = this.deedsOf(entry, this.sorted.checks)
    if (own.length > 0) {
      const row = this.begin(entry, own)
      const lead = leadOf(this.textOf(entry))
      this.add(row, 'do', lead && wordsFrom(this.from(entry), lead))
      const code = codeFrom(this.from(entry), this.joined(entry, [...own, ...checks]), 'sh')
      this.add(row, 'do', code)
      this.asked = row
      return
    }
    const row = this.rows.at(-1)
    if (checks.length === 0 || !row) return
    this.add(row, 'do', codeFrom(this.from(entry), this.joined(entry, checks), 'sh'))
    row.deeds.push(...checks)
    this.asked = row
  }

  /** A problem and what ended it stand at the step that it came up in. */
  private takeAnswer(entry: Entry): void {
    const row = this.rows.at(-1)
    const problem = this.answers.get(entry.id)!
    if (!row) return this.takeUnanswering(entry)
    this.asked = null
    if (this.journal.entries.has(problem.id)) this.add(row, 'if it fails', wordsFrom(this.from(problem)))
    this.add(row, 'if it fails', wordsFrom(this.from(entry)))
    row.deeds.push(...this.deedsOf(entry, this.sorted.kept))
  }

  /** What stands in the procedure already is not told at another step again. */
  private pass(entry: Entry): void {
    if (entry.kind === 'output') this.asked = null
    this.dropped.push({ entry, deed: null, reason: 'has it already', by: null })
  }

  private takeOutput(entry: Entry): void {
    if (this.asked) this.add(this.asked, 'expect', expectedFrom(this.from(entry)))
    this.asked = null
  }

  private takeFile(entry: Entry): void {
    const own = this.deedsOf(entry, this.sorted.kept)
    if (own.length === 0) return
    const row = this.begin(entry, own)
    row.file = fileOf(entry, this.journal.marks.get(entry.id))
    this.add(row, 'file', this.wholeOf(entry))
    this.asked = null
  }

  private takeReason(entry: Entry, row: Growing | null): void {
    const text = wordsFrom(this.from(entry))
    if (!text) return
    if (row) this.add(row, 'why', text)
    else this.waiting.push({ entry, text })
  }

  private takeProblem(entry: Entry): void {
    const isAnswered = [...this.answers.values()].some(({ id }) => id === entry.id)
    if (!isAnswered) this.dropped.push({ entry, deed: null, reason: 'no answer', by: null })
  }

  /** What is to be ticked off is a step that says so, item by item. */
  private takeList(entry: Entry): void {
    const text = wordsFrom(this.from(entry))
    if (text) this.add(this.begin(entry, []), 'do', text)
  }

  private begin(entry: Entry, deeds: readonly Deed[]): Growing {
    const place = deeds[0]?.place ?? null
    const row: Growing = { id: entry.id, place, deeds: [...deeds], texts: new Map(), file: null }
    this.rows.push(row)
    this.giveReasons(row)
    return row
  }

  private giveReasons(row: Growing | null): void {
    for (const { entry, text } of this.waiting)
      if (row) this.add(row, 'why', text)
      else this.dropped.push({ entry, deed: null, reason: 'no step', by: null })
    this.waiting = []
  }

  private add(row: Growing, kind: StepPartKind, text: PartText | null): void {
    if (text) row.texts.set(kind, [...(row.texts.get(kind) ?? []), text])
  }

  private finish({ id, place, deeds, texts, file }: Growing): DraftRow {
    const order: readonly StepPartKind[] = ['do', 'file', 'expect', 'if it fails', 'why']
    const parts = order.flatMap((kind): DraftPart[] => {
      const own = texts.get(kind)
      return own ? [{ ...joinTexts(own), kind, file: kind === 'file' ? file : null }] : []
    })
    const isUnknown = deeds.some(({ outcome }) => outcome === 'unknown')
    const isUnsure = deeds.some((deed) => !isChanging(deed) && !deed.effect.isKnown)
    return {
      id,
      place,
      parts,
      deeds,
      doubt: isUnknown ? 'outcome unknown' : isUnsure ? 'effect unknown' : null,
    }
  }

  private deedsOf(entry: Entry, among: ReadonlySet<Deed>): Deed[] {
    return (this.byEntry.get(entry.id) ?? []).filter((deed) => among.has(deed))
  }

  /** The ranges of deeds; those of one command with nothing dropped between them stand as they were typed. */
  private joined(entry: Entry, deeds: readonly Deed[]): Range[] {
    const text = this.textOf(entry)
    const ranges: Range[] = []
    for (const { range } of [...deeds].sort((a, b) => a.range.start - b.range.start)) {
      const last = ranges.at(-1)
      if (last && range.start < last.end) continue
      if (last && /^\s*(?:&&|;)[ \t]*$/u.test(text.slice(last.end, range.start)))
        ranges[ranges.length - 1] = { start: last.start, end: range.end }
      else ranges.push(range)
    }
    return ranges
  }

  /** A file's text is the truth of its state, so that nothing of it is trimmed. */
  private wholeOf(entry: Entry): PartText | null {
    const words = wordsFrom(this.from(entry))
    const text = this.textOf(entry)
    if (!words) return null
    const at = text.indexOf(words.text)
    const ranges = [{ start: at, end: at + words.text.length }]
    return { text, from: words.from.map(({ fragment }) => ({ fragment, ranges })) }
  }

  private textOf(entry: Entry): string {
    return this.journal.texts.get(entry.id) ?? ''
  }

  private from(entry: Entry): Picked {
    return { lab: this.options.lab, entry, text: this.textOf(entry) }
  }
}
