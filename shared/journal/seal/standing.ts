/** What a journal's records say now, in the form in which they were sealed. */
import type { Json } from './canonical.ts'
import { takenIn, type ReadSeal } from './chain.ts'
import type { JournalRecords, SealBody, SealedText, SealedThing } from './model.ts'
import { textsOf } from './texts.ts'
import { findAt, replaceWords, toSealedRecord } from './words.ts'

/** Finds what a seal was put on, as it stands now. */
export class Standing {
  private readonly entries
  private readonly revisions
  private readonly withdrawals
  private readonly marks
  private readonly strikes
  private readonly texts
  private readonly records = new Map<number, Json | null>()

  constructor(
    { entries, revisions, withdrawals, marks, strikes }: JournalRecords,
    private readonly read: readonly ReadSeal[],
  ) {
    this.entries = byId(entries)
    this.revisions = byId(revisions)
    this.withdrawals = byId(withdrawals)
    this.marks = byId(marks)
    this.strikes = byId(strikes)
    this.texts = textsOf(revisions)
  }

  /**
   * The record of a seal as it would be sealed now, its words in the open.
   * @param number of the seal
   * @returns null where it is gone or cannot be put together
   */
  find(number: number): Json | null {
    const known = this.records.get(number)
    if (known !== undefined) return known
    const body = this.read[number - 1]?.body
    // A strike names only seals before it; whatever else a body says is not followed.
    this.records.set(number, null)
    const record = body ? this.maybeRecord(body) : null
    this.records.set(number, record)
    return record
  }

  /** The words at a place of a seal's record now; null where there are none. */
  wordsAt(number: number, field: string): string | null {
    const words = findAt(this.find(number), field)
    return typeof words === 'string' ? words : null
  }

  /** All words of a seal's record now, by place. */
  wordsOf(number: number): Map<string, string> {
    const words = new Map<string, string>()
    const table = this.read[number - 1]?.body?.of.table
    const record = this.find(number)
    if (table && record !== null)
      replaceWords(table, record, (text, place) => {
        words.set(place, text)
        return text
      })
    return words
  }

  /** A record that lacks what it must have cannot be put together; the check says so, whatever it lacks. */
  private maybeRecord(body: SealBody): Json | null {
    try {
      const thing = this.maybeThing(body)
      return thing && toSealedRecord(thing)
    } catch (error) {
      if (error instanceof TypeError) return null
      throw error
    }
  }

  private maybeThing(body: SealBody): SealedThing | null {
    const { table, id } = body.of
    switch (table) {
      case 'entries':
        return this.maybeEntry(id, body)
      case 'revisions': {
        const text = this.maybeText(id)
        return text && { table, ...text }
      }
      case 'withdrawals':
      case 'marks': {
        const record = this[table].get(id)
        return record ? ({ table, record } as SealedThing) : null
      }
      case 'strikes':
        return this.maybeStrike(id, body)
    }
  }

  private maybeEntry(id: string, body: SealBody): SealedThing | null {
    const record = this.entries.get(id)
    const revision = findAt(body.record, 'revision.id')
    const first = typeof revision === 'string' ? this.maybeText(revision) : null
    return record && (first || revision === undefined) ? { table: 'entries', record, first } : null
  }

  private maybeText(revision: string): SealedText | null {
    const record = this.revisions.get(revision)
    const text = record && this.texts.get(record.id)
    return record && text !== undefined ? { record, text } : null
  }

  private maybeStrike(id: string, body: SealBody): SealedThing | null {
    const record = this.strikes.get(id)
    if (!record) return null
    const taken = takenIn(body).map(({ seal, field, gone, matched }) => {
      const words = seal < body.number ? this.wordsAt(seal, field) : null
      return { seal, field, gone, matched, now: words ?? '' }
    })
    const emptied = (findAt(body.record, 'emptied') ?? []) as readonly string[]
    return { table: 'strikes', record, taken, emptied }
  }
}

function byId<T extends { readonly id: string }>(records: readonly T[]): ReadonlyMap<string, T> {
  return new Map(records.map((record) => [record.id, record]))
}

/** What a seal was put on, by table and id: its record, and of an entry the first revision too. */
export function sealedBy({ body }: ReadSeal): string[] {
  if (!body) return []
  const { table, id } = body.of
  const revision = table === 'entries' ? findAt(body.record, 'revision.id') : undefined
  return [`${table} ${id}`, ...(typeof revision === 'string' ? [`revisions ${revision}`] : [])]
}
