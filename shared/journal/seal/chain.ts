/** A chain of seals by itself: its numbers, its hashes, and which digest holds for each text. */
import { canonicalJson, sha256Of, type Json } from './canonical.ts'
import { sealedTables, type Seal, type SealBody, type SealedTable } from './model.ts'
import { NO_SEAL, sealIdOf } from './seal.ts'
import { isSame } from '../../lab/fields.ts'
import type { BreakCode } from './sentences.ts'

/** A seal and what its body says; null where the body cannot be read. */
export interface ReadSeal {
  readonly seal: Seal
  readonly body: SealBody | null
  /** The digests in its record, by place. */
  readonly digests: ReadonlyMap<string, string>
}

/** Where a chain breaks first. */
export interface ChainBreak {
  readonly code: BreakCode
  readonly number: number
  readonly of: Seal['of'] | null
}

/** Reads every seal, and finds the first that is not what it should be. @param seals in order */
export function readChain(seals: readonly Seal[]): {
  readonly read: readonly ReadSeal[]
  readonly broken: ChainBreak | null
} {
  let broken: ChainBreak | null = null
  let before = NO_SEAL
  const project = seals[0]?.project
  const read = seals.map((seal, i): ReadSeal => {
    const body = maybeBody(seal.body)
    const code = body ? maybeCode(seal, body, i + 1, before, project) : 'unreadable'
    if (code) broken ??= { code, number: i + 1, of: body?.of ?? null }
    before = seal.hash
    return { seal, body, digests: digestsIn(body?.record) }
  })
  return { read, broken }
}

function maybeCode(
  seal: Seal,
  body: SealBody,
  number: number,
  before: string,
  project: Seal['project'] | undefined,
): BreakCode | null {
  if (body.number !== number || seal.number !== number) return 'number'
  if (sha256Of(seal.body) !== seal.hash) return 'hash'
  if (body.before !== before) return 'before'
  return body.project === project && isLabelled(seal, body) ? null : 'label'
}

/** Whether what stands beside the body is what the body says, and nothing else. */
function isLabelled(seal: Seal, { project, number, of, before }: SealBody): boolean {
  const { body, hash } = seal
  return isSame(seal, { id: sealIdOf(project, number), project, number, of, body, hash, before })
}

const bodyFields = ['before', 'late', 'number', 'of', 'project', 'record', 'sealed', 'version']

/** What a body says; null for text that is no body in its canonical form. */
export function maybeBody(text: string): SealBody | null {
  let body: unknown
  try {
    body = JSON.parse(text)
    if (canonicalJson(body as Json) !== text) return null
  } catch {
    return null
  }
  return isBody(body) ? body : null
}

type Fields = Readonly<Record<string, unknown>>
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function isBody(value: unknown): value is SealBody {
  return (
    isFields(value) &&
    Object.keys(value).sort().join() === bodyFields.join() &&
    value['version'] === 1 &&
    Number.isInteger(value['number']) &&
    typeof value['late'] === 'boolean' &&
    [value['before'], value['project'], value['sealed']].every((text) => typeof text === 'string') &&
    isFields(value['of']) &&
    sealedTables.includes(value['of']['table'] as SealedTable) &&
    typeof value['of']['id'] === 'string' &&
    isFields(value['record'])
  )
}

/** Digests of words in a body's record, by place. */
export function digestsIn(record: unknown): Map<string, string> {
  const found = new Map<string, string>()
  const walk = (value: unknown, place: string): void => {
    if (typeof value !== 'object' || value === null) return
    if (isDigest(value)) found.set(place, value.sha256)
    else
      for (const [name, item] of Object.entries(value)) walk(item, place === '' ? name : `${place}.${name}`)
  }
  walk(record, '')
  return found
}

/** Whether this stands for words. */
export function isDigest(value: unknown): value is { readonly sha256: string } {
  return isFields(value) && Object.keys(value).join() === 'sha256' && typeof value['sha256'] === 'string'
}

/** What a strike's body says of one text, its words as a digest. */
export interface SealedTaken {
  readonly seal: number
  readonly field: string
  readonly gone: string
  readonly matched: boolean
  readonly now: { readonly sha256: string }
}

/** The texts that a strike's seal names; none for other seals. */
export function takenIn(body: SealBody): SealedTaken[] {
  const { taken } = body.record as { readonly taken?: unknown }
  if (body.of.table !== 'strikes' || !Array.isArray(taken)) return []
  return taken.filter(
    (item): item is SealedTaken =>
      isFields(item) &&
      Number.isInteger(item['seal']) &&
      typeof item['field'] === 'string' &&
      typeof item['gone'] === 'string' &&
      typeof item['matched'] === 'boolean' &&
      isDigest(item['now']),
  )
}

/** The digest that a text must match now: of its own seal, or of the last strike that changed the text. */
export interface Holder {
  /** The seal that the text was sealed by first, and its place there. */
  readonly root: { readonly number: number; readonly field: string }
  readonly number: number
  readonly place: string
  readonly sha256: string
  /** The strikes that changed it, by the numbers of their seals, oldest first. */
  readonly strikes: readonly number[]
  /** Whether it matched whenever it was struck. */
  readonly matched: boolean
}

export interface Holders {
  /** By `rootKey`. */
  readonly current: ReadonlyMap<string, Holder>
  /** The first strike that names a text which no seal holds as it says. */
  readonly broken: ChainBreak | null
}

/** The key of a text in `Holders`. */
export function rootKey(number: number, field: string): string {
  return `${number} ${field}`
}

/** For every sealed text the digest that holds for it. */
export function holdersOf(read: readonly ReadSeal[]): Holders {
  const current = new Map<string, Holder>()
  let broken: ChainBreak | null = null
  read.forEach(({ body, digests }, i) => {
    if (!body) return
    const number = i + 1
    const taken = takenIn(body)
    const fields = body.of.table === 'strikes' ? /^taken\.\d+\.now$/ : null
    for (const [field, sha256] of digests)
      if (!fields?.test(field))
        current.set(rootKey(number, field), {
          root: { number, field },
          ...{ number, place: field, sha256, strikes: [], matched: true },
        })
    taken.forEach(({ seal: of, field, gone, matched, now }, at) => {
      const key = rootKey(of, field)
      const old = current.get(key)
      if (!old || old.sha256 !== gone) broken ??= { code: 'taken', number, of: body.of }
      else
        current.set(key, {
          root: old.root,
          ...{ number, place: `taken.${at}.now`, sha256: now.sha256 },
          strikes: [...old.strikes, number],
          matched: old.matched && matched,
        })
    })
  })
  return { current, broken }
}
