/** Heads and breaks, for people: what they note, and where they are led. */
import type { EntryId } from '../../lab/ids.ts'
import type { JournalRecords, SealHead } from './model.ts'
import type { SealBreak } from './sentences.ts'

/** A head as it is noted, and as it stands in HEAD.txt: the number, a space, the SHA-256. */
export function headText({ number, hash }: SealHead): string {
  return `${number} ${hash}`
}

/** Reads a head that somebody noted; also with a colon, other spaces, and capitals. Null for anything else. */
export function maybeHead(text: string): SealHead | null {
  const match = /^\s*(\d{1,10})[\s:,]+([0-9a-f]{64})\s*$/i.exec(text)
  const number = Number(match?.[1])
  return match && number > 0 ? { number, hash: match[2]!.toLowerCase() } : null
}

/** The entry to be shown for a place where a chain breaks; null where there is none or it is gone. */
export function findBrokenEntry({ of }: SealBreak, records: JournalRecords): EntryId | null {
  const id = of && entryNamed(of, records)
  return records.entries.find((entry) => entry.id === id)?.id ?? null
}

function entryNamed(
  { table, id }: NonNullable<SealBreak['of']>,
  records: JournalRecords,
): string | undefined {
  switch (table) {
    case 'entries':
    case 'texts':
      return id
    case 'revisions':
      return records.revisions.find((revision) => revision.id === id)?.node
    case 'strikes':
      return records.strikes.find((strike) => strike.id === id)?.node.id
    case 'withdrawals':
    case 'marks':
      return records[table].find((record) => record.id === id)?.entry
  }
}
