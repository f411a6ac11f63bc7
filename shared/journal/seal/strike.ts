/** Striking out in a sealed journal: which salts go, and the seal that says so. */
import type { ProjectId } from '../../lab/ids.ts'
import type { Strike } from '../../lab/model.ts'
import { holdersOf, readChain } from './chain.ts'
import { headOf, saltsBySeal } from './check.ts'
import type { JournalRecords, Seal, SealSalts, Taken } from './model.ts'
import { digestWords, sealRecord, type Sealed, type Sealing } from './seal.ts'
import { Standing } from './standing.ts'

/** What is to be written after a strike. */
export interface StruckSeals {
  /** The seal of the strike in this project and its salts; null where no text of this journal was touched. */
  readonly sealed: Sealed | null
  /** Salts of older seals, without those that go. They replace what stands under the same seal. */
  readonly salts: readonly SealSalts[]
}

/**
 * Seals a strike. The salt of every text that it changed goes, so that nobody can find out by guessing what stood there;
 * the texts as they stand now are sealed anew by the strike's own seal. The seals before it stay as they are.
 *
 * @param before the journal before the strike
 * @param after the journal after it, the strike's own record included
 * @param emptied SHA-256 of blobs whose bytes the strike emptied, of the whole lab
 */
export function strikeSeals(
  project: ProjectId,
  seals: readonly Seal[],
  salts: readonly SealSalts[],
  before: JournalRecords,
  after: JournalRecords,
  strike: Strike,
  emptied: readonly string[],
  sealing: Sealing,
): StruckSeals {
  const { read } = readChain(seals)
  const { current } = holdersOf(read)
  const saltsOf = saltsBySeal(salts)
  const was = new Standing(before, read)
  const is = new Standing(after, read)
  const gone = new Map<Seal, string[]>()
  const taken: Taken[] = []
  for (const { root, number, place, sha256 } of current.values()) {
    const words = was.wordsAt(root.number, root.field)
    const now = is.wordsAt(root.number, root.field)
    if (words === now) continue
    const { seal } = read[number - 1]!
    const salt = saltsOf.get(seal.id)?.[place]
    const matched = salt !== undefined && words !== null && digestWords(salt, words) === sha256
    taken.push({ seal: root.number, field: root.field, gone: sha256, matched, now: now ?? '' })
    gone.set(seal, [...(gone.get(seal) ?? []), place])
  }
  const own = emptied.filter((sha256) => seals.some(({ body }) => body.includes(`"${sha256}"`)))
  if (taken.length === 0 && own.length === 0) return { sealed: null, salts: [] }
  const thing = { table: 'strikes', record: strike, taken, emptied: own } as const
  return {
    sealed: sealRecord(project, headOf(seals), thing, sealing),
    salts: [...gone].map(([{ id }, places]) => without(id, saltsOf.get(id) ?? {}, places)),
  }
}

function without(seal: SealSalts['seal'], salts: SealSalts['salts'], places: readonly string[]): SealSalts {
  return {
    seal,
    salts: Object.fromEntries(Object.entries(salts).filter(([place]) => !places.includes(place))),
  }
}
