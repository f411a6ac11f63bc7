/** Making seals. */
import type { ProjectId } from '../../lab/ids.ts'
import { compareMoments, type Moment } from '../../lab/moment.ts'
import { canonicalJson, sha256Of, toHex, type Json } from './canonical.ts'
import {
  sealedTables,
  type JournalRecords,
  type Seal,
  type SealBody,
  type SealedThing,
  type SealHead,
  type SealId,
  type SealSalts,
} from './model.ts'
import { textsOf } from './texts.ts'
import { replaceWords, toSealedRecord } from './words.ts'

/** Stands for the seal before the first. */
export const NO_SEAL = '0'.repeat(64)
/** Bytes of salt for each text: as many as the digest has, so that guessing the words tells nothing. */
export const SALT_BYTES = 32

/** What sealing needs from the machine. */
export interface Sealing {
  /** When the seal is made. */
  readonly at: Moment
  /** Gives that many random bytes, at once. */
  readonly randomBytes: (count: number) => Uint8Array
  /** For records that stood long before they are sealed. */
  readonly late?: boolean
}

export interface Sealed {
  readonly seal: Seal
  readonly salts: SealSalts
}

/** The key of a project's seal. */
export function sealIdOf(project: ProjectId, number: number): SealId {
  return `${project}:${String(number).padStart(10, '0')}` as SealId
}

/** What is hashed for words: the salt in lower-case hex on a line of its own, the words, and a last line feed. */
export function saltedWords(salt: string, words: string): string {
  return `${salt}\n${words}\n`
}

/** The digest that stands for words. */
export function digestWords(salt: string, words: string): string {
  return sha256Of(saltedWords(salt, words))
}

/**
 * Seals one record behind the last seal of its project.
 * @param previous the newest seal of the project, null for the first
 */
export function sealRecord(
  project: ProjectId,
  previous: SealHead | null,
  thing: SealedThing,
  { at, randomBytes, late = false }: Sealing,
): Sealed {
  const salts: Record<string, string> = {}
  const record = replaceWords(thing.table, toSealedRecord(thing), (words, place) => {
    const salt = toHex(randomBytes(SALT_BYTES))
    salts[place] = salt
    return { sha256: digestWords(salt, words) }
  })
  const seal = sealOf({
    version: 1,
    project,
    number: (previous?.number ?? 0) + 1,
    before: previous?.hash ?? NO_SEAL,
    sealed: at,
    late,
    of: { table: thing.table, id: thing.record.id },
    record,
  })
  return { seal, salts: { seal: seal.id, salts } }
}

/** The seal that a body makes. */
export function sealOf(body: SealBody): Seal {
  const text = canonicalJson(body as unknown as Json)
  const { project, number, of, before } = body
  return { id: sealIdOf(project, number), project, number, of, body: text, hash: sha256Of(text), before }
}

/** Seals several records in order, each behind the one before. */
export function sealRecords(
  project: ProjectId,
  previous: SealHead | null,
  things: readonly SealedThing[],
  sealing: Sealing,
): Sealed[] {
  const all: Sealed[] = []
  let last = previous
  for (const thing of things) {
    const sealed = sealRecord(project, last, thing, sealing)
    all.push(sealed)
    last = sealed.seal
  }
  return all
}

/**
 * Seals a journal that was written before there were seals, in the order in which it was written, as far as moments and
 * ids tell it. Strikes of that time have no seal: what they left is sealed as it stands.
 */
export function sealJournal(
  project: ProjectId,
  records: JournalRecords,
  sealing: Omit<Sealing, 'late'>,
): Sealed[] {
  return sealRecords(project, null, thingsOf(records), { ...sealing, late: true })
}

/** All that is to be sealed of a journal, oldest first; an entry stands before what is said of it. */
export function thingsOf(records: JournalRecords): SealedThing[] {
  const texts = textsOf(records.revisions)
  const firsts = new Map(
    records.revisions
      .filter(({ number }) => number === 1)
      .map((revision) => [revision.node as string, revision]),
  )
  const entries = records.entries.map((record): SealedThing => {
    const first = firsts.get(record.id)
    return {
      table: 'entries',
      record,
      first: first ? { record: first, text: texts.get(first.id) ?? '' } : null,
    }
  })
  const revisions = records.revisions
    .filter(({ number }) => number > 1)
    .map((record): SealedThing => ({ table: 'revisions', record, text: texts.get(record.id) ?? '' }))
  const withdrawals = records.withdrawals.map((record): SealedThing => ({ table: 'withdrawals', record }))
  const marks = records.marks.map((record): SealedThing => ({ table: 'marks', record }))
  return [...entries, ...revisions, ...withdrawals, ...marks].sort(compareThings)
}

/** By moment; of the same moment, entries stand before what is said of them, and revisions in their order. */
function compareThings(a: SealedThing, b: SealedThing): number {
  return (
    compareMoments(a.record.moment, b.record.moment) ||
    sealedTables.indexOf(a.table) - sealedTables.indexOf(b.table) ||
    numberOf(a) - numberOf(b) ||
    (a.record.id < b.record.id ? -1 : 1)
  )
}

const numberOf = (thing: SealedThing): number => (thing.table === 'revisions' ? thing.record.number : 0)
