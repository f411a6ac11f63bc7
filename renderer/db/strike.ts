/** Striking out, over all tables in one transaction. The pure part stands in shared/safety/strike.ts. */
import type { RevisionId } from '../../shared/lab/ids.ts'
import type {
  Capture,
  Draft,
  Link,
  LinkEnd,
  Revision,
  TextDraft,
  TextNodeId,
} from '../../shared/lab/model.ts'
import { changeBetween, foldText } from '../../shared/lab/text.ts'
import {
  hasSecret,
  maskDeep,
  maskEnd,
  maskText,
  strikeEnd,
  strikeOperation,
  strikeRevisions,
} from '../../shared/safety/strike.ts'
import { revisionsOf } from './applier.ts'
import { deriveAll } from './linkStates.ts'
import type { LabDatabase } from './schema.ts'

const encode = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Media type of original bytes that were emptied because they held a struck-out text. */
export const STRUCK_MEDIA_TYPE = 'application/vnd.stillroom.struck-out'

/**
 * Masks the secret in every record. Called inside a transaction over all tables.
 * @returns how many records were rewritten
 */
export async function strikeEverywhere(db: LabDatabase, secret: string): Promise<number> {
  const captures = await strikeCaptures(db, secret)
  const revisions = await strikeAllRevisions(db, secret)
  const links = new LinkStriker(db, secret)
  const rewritten =
    captures +
    revisions.size +
    (await strikePlainTables(db, secret)) +
    (await links.strikeTable()) +
    (await strikeChanges(db, secret, revisions, links)) +
    (await strikeDrafts(db, secret))
  if (rewritten > 0) await renewDerived(db)
  return rewritten
}

async function strikeCaptures(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  const emptied = new Set<string>()
  await db.captures.each((capture: Capture) => {
    if (capture.text.includes(secret)) emptied.add(capture.sha256)
  })
  await db.captures.toCollection().modify((capture, ref) => {
    const text = maskText(capture.text, secret)
    if (text === capture.text) return
    ref.value = { ...capture, text }
    count++
  })
  await db.blobs.toCollection().modify((blob, ref) => {
    if (!emptied.has(blob.sha256) && !hasSecret(blob.bytes, secret, encode)) return
    ref.value = { ...blob, bytes: new Uint8Array(), mediaType: STRUCK_MEDIA_TYPE }
    count++
  })
  return count
}

async function strikeAllRevisions(db: LabDatabase, secret: string): Promise<Map<RevisionId, Revision>> {
  const nodes = (await db.revisions.orderBy('[node+number]').keys()) as unknown as [TextNodeId, number][]
  const struck = new Map<RevisionId, Revision>()
  for (const node of new Set(nodes.map(([id]) => id)))
    for (const revision of strikeRevisions(await revisionsOf(db, node), secret))
      struck.set(revision.id, revision)
  await db.revisions.bulkPut([...struck.values()])
  return struck
}

/** Tables whose records hold text in plain fields. */
const plainTables = ['projects', 'sources', 'procedures', 'strikes', 'settings'] as const

async function strikePlainTables(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  for (const name of plainTables)
    await db
      .table(name)
      .toCollection()
      .modify((record: unknown, ref) => {
        const masked = maskDeep(record, secret)
        if (masked === record) return
        ref.value = masked
        count++
      })
  return count
}

/** Takes the quotes of links anew from the masked texts, at the revisions that they name. */
class LinkStriker {
  private readonly known = new Map<string, Promise<string | null>>()
  constructor(
    private readonly db: LabDatabase,
    private readonly secret: string,
  ) {}

  async strike(link: Link): Promise<Link> {
    return { ...link, newer: await this.strikeEnd(link.newer), older: await this.strikeEnd(link.older) }
  }

  async strikeTable(): Promise<number> {
    let count = 0
    for (const link of await this.db.links.toArray()) {
      const struck = await this.strike(link)
      if (JSON.stringify(struck) === JSON.stringify(link)) continue
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
      const struck = strikeOperation(operation, secret, revisions, (link) => struckLinks.get(link.id) ?? link)
      return withoutStruckBytes(struck, secret)
    })
    if (JSON.stringify(operations) === JSON.stringify(change.operations)) continue
    await db.changes.put({ ...change, operations })
    count++
  }
  return count
}

function withoutStruckBytes<T>(operation: T, secret: string): T {
  const removed = operation as { op?: string; table?: string; before?: { bytes: Uint8Array } }
  if (removed.op !== 'remove' || removed.table !== 'blobs' || !removed.before) return operation
  if (!hasSecret(removed.before.bytes, secret, encode)) return operation
  return {
    ...operation,
    before: { ...removed.before, bytes: new Uint8Array(), mediaType: STRUCK_MEDIA_TYPE },
  }
}

async function strikeDrafts(db: LabDatabase, secret: string): Promise<number> {
  let count = 0
  for (const draft of await db.drafts.toArray()) {
    const struck =
      draft.owner === 'text' ? await strikeTextDraft(db, draft, secret) : maskDeep<Draft>(draft, secret)
    if (JSON.stringify(struck) === JSON.stringify(draft)) continue
    await db.drafts.put(struck)
    count++
  }
  return count
}

/** The base may have been masked, so the change from it is taken anew. */
async function strikeTextDraft(db: LabDatabase, draft: TextDraft, secret: string): Promise<Draft> {
  const revisions = await revisionsOf(db, draft.node.id)
  const base = foldText(revisions.slice(0, revisions.findIndex(({ id }) => id === draft.base) + 1))
  const text = maskText(draft.text, secret)
  return text === draft.text ? draft : { ...draft, text, changeSet: changeBetween(base, text) }
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
  const texts = await db.texts.filter(({ text }) => text.includes(secret)).count()
  const captures = await db.captures.filter(({ text }) => text.includes(secret)).count()
  return texts + captures
}
