/** Striking out, over all tables in one transaction. The pure part stands in shared/safety. */
import type { RevisionId } from '../../shared/lab/ids.ts'
import type { Blob, Capture, Draft, Link, LinkEnd, Revision, TextNodeId } from '../../shared/lab/model.ts'
import { foldText } from '../../shared/lab/text.ts'
import { isSame } from '../../shared/lab/fields.ts'
import { mapWords } from '../../shared/journal/seal/words.ts'
import { hasSecret, maskFields, maskText, maskWords, placesOfSecret } from '../../shared/safety/mask.ts'
import { maskEnd, strikeEnd, strikeOperation, strikeTexts } from '../../shared/safety/strike.ts'
import { revisionsOf } from './applier.ts'
import { deriveAll } from './linkStates.ts'
import type { LabDatabase, Setting } from './schema.ts'

const encode = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Media type of original bytes that were emptied because they held a struck-out text. */
export const STRUCK_MEDIA_TYPE = 'application/vnd.stillroom.struck-out'

/**
 * Masks the secret in every record. Called inside a transaction over all tables.
 * @returns how many records were rewritten, and the blobs whose bytes were emptied
 */
export async function strikeEverywhere(
  db: LabDatabase,
  secret: string,
): Promise<{ readonly count: number; readonly emptied: readonly string[] }> {
  const emptied = await findBytesOfStruck(db, secret)
  const captures = await strikeCaptures(db, secret)
  const blobs = await strikeBlobs(db, secret, emptied)
  const texts = await strikeAllTexts(db, secret)
  const links = new LinkStriker(db, secret)
  const rewritten =
    captures +
    blobs.length +
    texts.count +
    (await strikePlainTables(db, secret)) +
    (await strikeJournalTables(db, secret)) +
    (await links.strikeTable()) +
    (await strikeChanges(db, secret, emptied, texts.revisions, links))
  if (rewritten > 0) await renewDerived(db)
  return { count: rewritten, emptied: blobs }
}

/**
 * Digests of the original bytes of captures that show the secret, also of captures that undo took away. The bytes need
 * not hold it in one run: markup may stand within it.
 */
async function findBytesOfStruck(db: LabDatabase, secret: string): Promise<Set<string>> {
  const struck = new Set<string>()
  const look = (capture: Capture): void => {
    if (placesOfSecret(capture.text, secret).length > 0) struck.add(capture.sha256)
  }
  await db.captures.each(look)
  await db.changes.each(({ operations }) => {
    for (const operation of operations)
      if (operation.op === 'remove' && operation.table === 'captures') look(operation.before)
  })
  return struck
}

async function strikeCaptures(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  await db.captures.toCollection().modify((capture, ref) => {
    const struck = maskFields(capture, secret)
    if (struck === capture) return
    ref.value = struck
    count++
  })
  return count
}

/** @returns the blobs that were emptied */
async function strikeBlobs(db: LabDatabase, secret: string, emptied: ReadonlySet<string>): Promise<string[]> {
  const struckBlobs: string[] = []
  await db.blobs.toCollection().modify((blob, ref) => {
    const struck = strikeBlob(blob, secret, emptied)
    if (struck === blob) return
    ref.value = struck
    struckBlobs.push(blob.sha256)
  })
  return struckBlobs
}

function strikeBlob(blob: Blob, secret: string, emptied: ReadonlySet<string>): Blob {
  const isStruck = emptied.has(blob.sha256) || hasSecret(blob.bytes, secret, encode)
  return isStruck ? { ...blob, bytes: new Uint8Array(), mediaType: STRUCK_MEDIA_TYPE } : blob
}

/** Revisions and drafts, text by text. */
async function strikeAllTexts(db: LabDatabase, secret: string) {
  const keys = (await db.revisions.orderBy('[node+number]').keys()) as unknown as [TextNodeId, number][]
  const drafts = await db.drafts.toArray()
  const struckDrafts = drafts
    .filter((draft) => draft.owner === 'composer')
    .flatMap((draft) => {
      const struck = maskFields<Draft>(draft, secret)
      return struck === draft ? [] : [struck]
    })
  const revisions = new Map<RevisionId, Revision>()
  for (const node of new Set(keys.map(([id]) => id))) {
    const own = drafts.filter((draft) => draft.owner === 'text').filter((draft) => draft.node.id === node)
    const struck = strikeTexts(await revisionsOf(db, node), own, secret)
    for (const revision of struck.revisions) revisions.set(revision.id, revision)
    struckDrafts.push(...struck.drafts)
  }
  await db.revisions.bulkPut([...revisions.values()])
  await db.drafts.bulkPut(struckDrafts)
  return { revisions, count: revisions.size + struckDrafts.length }
}

/** Tables whose records hold text in plain fields. */
const plainTables = [
  'projects',
  'machines',
  'folders',
  'sources',
  'entryTags',
  'verdicts',
  'captureHeads',
  'procedures',
  'steps',
  'parts',
  'parameters',
  'versions',
  'remarks',
  'silences',
  'leftOut',
  'fetches',
  'strikes',
  'settings',
] as const

async function strikePlainTables(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  for (const name of plainTables)
    await db
      .table(name)
      .toCollection()
      .modify((record: object, ref) => {
        const masked =
          name === 'settings' ? maskSetting(record as Setting, secret) : maskFields(record, secret)
        if (masked === record) return
        ref.value = masked
        count++
      })
  return count
}

/** Tables of the journal, whose ids and moments are sealed as they stand: only the words in them are masked. */
async function strikeJournalTables(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  for (const name of ['entries', 'marks'] as const)
    await db
      .table(name)
      .toCollection()
      .modify((record: object, ref) => {
        const struck = mapWords(name, record, (words) => maskText(words, secret))
        if (struck === record) return
        ref.value = struck
        count++
      })
  return count
}

function maskSetting(setting: Setting, secret: string): Setting {
  const value = maskWords(setting.value, secret)
  return value === setting.value ? setting : { ...setting, value }
}

/** Takes the quotes of links anew from the masked texts, at the revisions that they name. */
class LinkStriker {
  private readonly known = new Map<string, Promise<string | null>>()
  constructor(
    private readonly db: LabDatabase,
    private readonly secret: string,
  ) {}

  /** The link itself where its quotes held nothing of it. */
  async strike(link: Link): Promise<Link> {
    const struck = {
      ...link,
      newer: await this.strikeEnd(link.newer),
      older: await this.strikeEnd(link.older),
    }
    return isSame(struck, link) ? link : struck
  }

  async strikeTable(): Promise<number> {
    let count = 0
    for (const link of await this.db.links.toArray()) {
      const struck = await this.strike(link)
      if (struck === link) continue
      await this.db.links.put(struck)
      count++
    }
    return count
  }

  private async strikeEnd(end: LinkEnd): Promise<LinkEnd> {
    if (end.ranges.length === 0) return end
    const text = await this.textOf(end)
    const reach = Math.max(...end.ranges.map((range) => range.position.end))
    return text === null || text.length < reach ? maskEnd(end, this.secret) : strikeEnd(end, text)
  }

  private textOf(end: LinkEnd): Promise<string | null> {
    const key = `${end.node.id} ${end.revision}`
    const known = this.known.get(key) ?? this.load(end)
    this.known.set(key, known)
    return known
  }

  private async load({ node, revision }: LinkEnd): Promise<string | null> {
    if (node.kind === 'source') return null
    if (node.kind === 'capture') return (await this.db.captures.get(node.id))?.text ?? null
    const revisions = await revisionsOf(this.db, node.id)
    const at = revisions.findIndex(({ id }) => id === revision)
    return at < 0 ? null : foldText(revisions.slice(0, at + 1))
  }
}

async function strikeChanges(
  db: LabDatabase,
  secret: string,
  emptied: ReadonlySet<string>,
  revisions: ReadonlyMap<RevisionId, Revision>,
  links: LinkStriker,
): Promise<number> {
  let count = 0
  for (const sequence of await db.changes.toCollection().primaryKeys()) {
    const change = (await db.changes.get(sequence))!
    const struckLinks = new Map<string, Link>()
    for (const operation of change.operations) {
      if (operation.op === 'text' || operation.table !== 'links') continue
      const link = operation.op === 'put' ? operation.record : operation.before
      struckLinks.set(link.id, await links.strike(link))
    }
    const operations = change.operations.map((operation) => {
      if (operation.op === 'remove' && operation.table === 'blobs') {
        const before = strikeBlob(operation.before, secret, emptied)
        return before === operation.before ? operation : { ...operation, before }
      }
      return strikeOperation(operation, secret, revisions, (link) => struckLinks.get(link.id) ?? link)
    })
    const named = maskFields(change, secret)
    if (named === change && operations.every((operation, i) => operation === change.operations[i])) continue
    await db.changes.put({ ...named, operations })
    count++
  }
  return count
}

/** Texts and link states hold what was struck; both follow from what was just rewritten. */
async function renewDerived(db: LabDatabase): Promise<void> {
  const { texts, linkStates } = await deriveAll(db)
  await db.texts.clear()
  await db.texts.bulkPut(texts)
  await db.linkStates.clear()
  await db.linkStates.bulkPut(linkStates)
}

/** In how many entries, sources and procedure parts a text stands now, to be shown before it is struck out. */
export async function countPlaces(db: LabDatabase, secret: string): Promise<number> {
  const texts = await db.texts.filter(({ text }) => placesOfSecret(text, secret).length > 0).count()
  const captures = await db.captures.filter(({ text }) => placesOfSecret(text, secret).length > 0).count()
  return texts + captures
}
