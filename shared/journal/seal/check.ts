/** Checking a journal against its seals. */
import { isSame } from '../../lab/fields.ts'
import { foldText } from '../../lab/text.ts'
import { foldPieces } from '../../provenance/pieces.ts'
import { MASK } from '../../safety/mask.ts'
import type { Failure } from '../../lab/result.ts'
import type { Revision } from '../../lab/model.ts'
import type { Json } from './canonical.ts'
import { holdersOf, readChain, rootKey, type Holder, type Holders, type ReadSeal } from './chain.ts'
import type { JournalRecords, Seal, SealBody, SealHead, SealSalts } from './model.ts'
import { digestWords } from './seal.ts'
import { breakSentence, heldSentence, type SealBreak } from './sentences.ts'
import { sealedBy, Standing } from './standing.ts'
import { replaceWords } from './words.ts'

/** A text out of which something was struck. */
export interface StruckText {
  /** The seal of the record, the record, and the place in it. */
  readonly number: number
  readonly of: Seal['of']
  readonly field: string
  /** The seals of the strikes, oldest first. */
  readonly strikes: readonly number[]
}

export interface Held {
  readonly ok: true
  /** Null where nothing is sealed. */
  readonly head: SealHead | null
  readonly count: number
  readonly struck: readonly StruckText[]
  /** How many seals were made long after their records. */
  readonly late: number
  readonly sentence: string
}

export interface Broken extends Failure<'broken'> {
  readonly firstBreak: SealBreak
}

/** The head of a chain; null for none. */
export function headOf(seals: readonly Seal[]): SealHead | null {
  const last = seals.at(-1)
  return last ? { number: last.number, hash: last.hash } : null
}

/**
 * Checks a project's journal: every seal follows the one before, every record says what was sealed, every text that was
 * struck is named by a strike, and nothing stands beside the seals.
 *
 * A chain that was cut off at its end, or made anew as a whole, is found only against a head that was noted before.
 *
 * @param seals of the project, in the order of their ids
 * @param noted heads that were noted earlier, in an export or on paper
 */
export function checkSeals(
  seals: readonly Seal[],
  salts: readonly SealSalts[],
  records: JournalRecords,
  noted: readonly SealHead[] = [],
): Held | Broken {
  const { read, broken } = readChain(seals)
  const holders = holdersOf(read)
  const standing = new Standing(records, read)
  const known = saltsBySeal(salts)
  const found =
    firstOf(
      broken && { ...broken, field: null },
      holders.broken && { ...holders.broken, field: null },
      findDoubled(read),
      findChanged(read, holders, known, standing),
      findOffHead(seals, noted),
    ) ??
    findUnsealed(read, records) ??
    findWronglyShown(records) ??
    findStraySalt(seals, salts)
  if (found) return { ok: false, code: 'broken', sentence: breakSentence(found), firstBreak: found }
  return held(read, holders)
}

function held(read: readonly ReadSeal[], { current }: Holders): Held {
  const struck = [...current.values()]
    .filter(({ strikes }) => strikes.length > 0)
    .map(({ root, strikes }) => ({ ...root, of: read[root.number - 1]!.seal.of, strikes }))
  const late = read.filter(({ body }) => body?.late).length
  const head = headOf(read.map(({ seal }) => seal))
  const sentence = heldSentence(read.length, struck.length, late, head)
  return { ok: true, head, count: read.length, struck, late, sentence }
}

/** The one with the lowest number; the first of these where several have it. */
function firstOf(...breaks: readonly (SealBreak | null)[]): SealBreak | null {
  const found = breaks.filter((at) => at !== null)
  return found.reduce<SealBreak | null>(
    (first, at) => (first && (first.number ?? Infinity) <= (at.number ?? Infinity) ? first : at),
    null,
  )
}

function findDoubled(read: readonly ReadSeal[]): SealBreak | null {
  const sealed = new Set<string>()
  for (const [i, one] of read.entries())
    for (const name of sealedBy(one)) {
      if (sealed.has(name)) return { code: 'doubled', number: i + 1, of: one.body?.of ?? null, field: null }
      sealed.add(name)
    }
  return null
}

/** The first seal whose record says something else, or whose salts are not those that should stand. */
function findChanged(
  read: readonly ReadSeal[],
  { current }: Holders,
  salts: ReadonlyMap<string, SealSalts['salts']>,
  standing: Standing,
): SealBreak | null {
  const held = placesHeld(current)
  for (const [i, { seal, body, digests }] of read.entries()) {
    const number = i + 1
    const at = (code: SealBreak['code'], field: string | null = null): SealBreak => ({
      code,
      number,
      of: body?.of ?? null,
      field,
    })
    if (!body) return at('unreadable')
    const record = standing.find(number)
    if (record === null) return at('missing')
    if (saysElse(record, body, digests)) return at('changed')
    for (const field of digests.keys()) {
      const holder = current.get(rootKey(number, field))
      const code = holder && maybeWrong(holder, standing, salts, read)
      if (code) return at(code, field)
    }
    for (const place of Object.keys(salts.get(seal.id) ?? {}))
      if (!held.has(rootKey(number, place))) return at(digests.has(place) ? 'salt left' : 'stray salt', place)
  }
  return null
}

/** The places whose digests hold for a text now; only they have a salt. */
function placesHeld(current: Holders['current']): ReadonlySet<string> {
  return new Set([...current.values()].map(({ number, place }) => rootKey(number, place)))
}

function maybeWrong(
  { root, number, place, sha256, strikes, matched }: Holder,
  standing: Standing,
  salts: ReadonlyMap<string, SealSalts['salts']>,
  read: readonly ReadSeal[],
): SealBreak['code'] | null {
  if (!matched) return 'unmatched'
  const words = standing.wordsAt(root.number, root.field)
  const salt = salts.get(read[number - 1]!.seal.id)?.[place]
  if (salt === undefined) return 'no salt'
  if (words === null || digestWords(salt, words) !== sha256) return 'words'
  return strikes.length > 0 && !words.includes(MASK) ? 'no mask' : null
}

/** Whether a record differs from what was sealed in anything but words. */
function saysElse(record: Json, { of, record: sealed }: SealBody, digests: ReadSeal['digests']): boolean {
  const now = replaceWords(of.table, record, (_words, place) => ({ sha256: digests.get(place) ?? '' }))
  return !isSame(now, sealed)
}

function findOffHead(seals: readonly Seal[], noted: readonly SealHead[]): SealBreak | null {
  for (const { number, hash } of noted) {
    const seal = seals[number - 1]
    if (!seal) return { code: 'head', number: null, of: null, field: null }
    if (seal.hash !== hash) return { code: 'head', number, of: null, field: null }
  }
  return null
}

function findUnsealed(read: readonly ReadSeal[], records: JournalRecords): SealBreak | null {
  const sealed = new Set(read.flatMap(sealedBy))
  for (const table of ['entries', 'revisions', 'withdrawals', 'marks'] as const)
    for (const { id } of records[table])
      if (!sealed.has(`${table} ${id}`))
        return { code: 'unsealed', number: null, of: { table, id }, field: null }
  return null
}

/** The first entry whose derived text, which is what is shown, does not follow from its revisions. */
function findWronglyShown({ entries, revisions, texts }: JournalRecords): SealBreak | null {
  const own = new Map<string, Revision[]>()
  for (const revision of [...revisions].sort((a, b) => a.number - b.number))
    own.set(revision.node, [...(own.get(revision.node) ?? []), revision])
  const shown = new Map(texts.map((text) => [text.node as string, text]))
  const wrong = [...new Set([...entries.map(({ id }) => id), ...shown.keys()])].find(
    (id) => !isShownAsWritten(shown.get(id), own.get(id) ?? []),
  )
  return wrong === undefined
    ? null
    : { code: 'shown', number: null, of: { table: 'texts', id: wrong }, field: 'text' }
}

function isShownAsWritten(
  shown: JournalRecords['texts'][number] | undefined,
  revisions: readonly Revision[],
): boolean {
  if (revisions.length === 0 || revisions.at(-1)!.ended) return shown === undefined
  return (
    shown !== undefined && shown.text === foldText(revisions) && isSame(shown.pieces, foldPieces(revisions))
  )
}

/** The salts by seal. */
export function saltsBySeal(salts: readonly SealSalts[]): ReadonlyMap<string, SealSalts['salts']> {
  return new Map(salts.map((own) => [own.seal, own.salts]))
}

/** Salts stand once for each seal that has words, and for no other. */
function findStraySalt(seals: readonly Seal[], salts: readonly SealSalts[]): SealBreak | null {
  const free = new Set<string>(seals.map(({ id }) => id))
  const isStray = salts.some(
    (own) => !free.delete(own.seal) || Object.keys(own).sort().join() !== 'salts,seal',
  )
  return isStray ? { code: 'stray salt', number: null, of: null, field: null } : null
}
