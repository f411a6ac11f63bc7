/** Keeps the derived table of links: inside the transaction of each Change, and as a whole when it is rebuilt. */
import type { LinkId, PartId, ProcedureId, RevisionId } from '../../shared/lab/ids.ts'
import type {
  CaptureHead,
  EndState,
  Link,
  LinkEnd,
  LinkState,
  Parameter,
  TextNodeId,
  TextRecord,
  Revision,
} from '../../shared/lab/model.ts'
import { headOf } from '../../shared/lab/capture-head.ts'
import { foldText } from '../../shared/lab/text.ts'
import { carriedViewOf } from '../../shared/provenance/carriedView.ts'
import { placeholdersIn } from '../../shared/procedure/values/placeholders.ts'
import { olderText, type OlderText } from '../../shared/provenance/alignment/olderText.ts'
import { deriveEnd, deriveLinkState, isAstray, type PresentText } from '../../shared/provenance/linkState.ts'
import { foldPieces, slicePieces } from '../../shared/provenance/pieces.ts'
import { isSelectorTrue, rangeOfSelector } from '../../shared/provenance/selectors.ts'
import { lastRevisionOf, revisionsOf } from './applier.ts'
import type { LabDatabase } from './schema.ts'

/** What one Change did to links and to the texts at their ends. */
export interface Touched {
  readonly changedTexts: ReadonlySet<TextNodeId>
  readonly changedParameters: ReadonlySet<ProcedureId>
  readonly newLinks: readonly Link[]
  readonly goneLinks: readonly LinkId[]
}

/** Brings the table up to what the Change left behind. */
export async function updateLinkStates(db: LabDatabase, touched: Touched): Promise<LinkId[]> {
  await db.linkStates.bulkDelete([...touched.goneLinks])
  const compared = await partsOf(db, touched.changedParameters)
  const changed = new Set([...touched.changedTexts, ...compared])
  const nodes = [...changed]
  const stale =
    nodes.length === 0
      ? []
      : await db.linkStates
          .where('newer.node')
          .anyOf(nodes)
          .or('older.node')
          .anyOf(nodes)
          .distinct()
          .toArray()
  const fresh = new Set(touched.newLinks.map((link) => link.id))
  const reader = new PresentReader(db)
  for (const link of touched.newLinks)
    if (await db.links.get(link.id)) await db.linkStates.put(await stateOfNewLink(db, reader, link))
  for (const state of stale) {
    if (fresh.has(state.link)) continue
    const link = await db.links.get(state.link)
    if (link) await db.linkStates.put(await stateAfter(reader, link, state, changed))
  }
  return [...fresh, ...stale.map((state) => state.link)]
}

async function partsOf(db: LabDatabase, procedures: ReadonlySet<ProcedureId>): Promise<TextNodeId[]> {
  if (procedures.size === 0) return []
  const parts = await db.parts
    .where('procedure')
    .anyOf([...procedures])
    .toArray()
  return parts.map(({ id }) => id)
}

/** Reads each present text once, and each older one that words are looked for by. */
class PresentReader {
  private readonly texts = new Map<string, Promise<PresentText>>()
  private readonly olderTexts = new Map<string, Promise<OlderText | null>>()
  private readonly parameters = new Map<ProcedureId, Promise<Parameter[]>>()
  constructor(private readonly db: LabDatabase) {}

  read(end: LinkEnd): Promise<PresentText> {
    const known = this.texts.get(end.node.id)
    if (known) return known
    const reading = this.load(end)
    this.texts.set(end.node.id, reading)
    return reading
  }

  /** The text that an end's selectors speak of; null where it is not known. */
  readOlder(end: LinkEnd): Promise<OlderText | null> {
    const key = `${end.node.id} ${end.revision ?? ''}`
    const known = this.olderTexts.get(key)
    if (known) return known
    const reading = textAtRevision(this.db, this, end).then((then) => then && olderText(then.text))
    this.olderTexts.set(key, reading)
    return reading
  }

  private async load({ node }: LinkEnd): Promise<PresentText> {
    if (node.kind === 'source') return null
    if (node.kind !== 'capture') {
      const present = (await this.db.texts.get(node.id)) ?? null
      return present && node.kind === 'part' ? this.withView(node.id, present) : present
    }
    const capture = await this.db.captures.get(node.id)
    if (!capture) return null
    const { text, revision } = capture
    return { text, pieces: [{ revision, start: 0, end: text.length }] }
  }

  /** A part's text together with what links compare it as. */
  async withView<T extends NonNullable<PresentText>>(part: PartId, present: T): Promise<T> {
    if (placeholdersIn(present.text).length === 0) return present
    const record = await this.db.parts.get(part)
    if (!record) return present
    const { procedure } = record
    const reading =
      this.parameters.get(procedure) ?? this.db.parameters.where('procedure').equals(procedure).toArray()
    this.parameters.set(procedure, reading)
    return { ...present, view: carriedViewOf(present.text, await reading) }
  }
}

async function stateOfNewLink(db: LabDatabase, reader: PresentReader, link: Link): Promise<LinkState> {
  const [newer, older] = [await endOf(db, reader, link.newer), await endOf(db, reader, link.older)]
  return deriveLinkState(link, newer, older, await reader.read(link.newer))
}

async function endOf(db: LabDatabase, reader: PresentReader, end: LinkEnd): Promise<EndState> {
  const then = await textAtRevision(db, reader, end)
  checkSelectors(end, then?.text ?? null)
  const pieces = end.ranges.map((selector) => slicePieces(then?.pieces ?? [], rangeOfSelector(selector)))
  return endAsOfNow(reader, end, pieces)
}

/** Where an end is now. The text that it was carried from is read only where it is needed. */
async function endAsOfNow(
  reader: PresentReader,
  end: LinkEnd,
  pieces: EndState['pieces'],
): Promise<EndState> {
  const present = await reader.read(end)
  const older = isAstray(pieces, present) ? await reader.readOlder(end) : null
  return deriveEnd(end, pieces, present, older)
}

/** A link is a record for good: what it quotes must stand where it says. Anything else is a bug of who made it. */
function checkSelectors({ node, ranges }: LinkEnd, text: string | null): void {
  if (text !== null && !ranges.every((selector) => isSelectorTrue(text, selector)))
    throw new RangeError(`a link quotes words that do not stand in ${node.kind} ${node.id}`)
}

/** The text that an end's selectors speak of, with the identities of its characters; null where it is not known. */
async function textAtRevision(db: LabDatabase, reader: PresentReader, end: LinkEnd): Promise<PresentText> {
  const { node, revision, ranges } = end
  if (ranges.length === 0 || node.kind === 'source') return null
  if (node.kind === 'capture') return reader.read(end)
  const last = await lastRevisionOf(db, node.id)
  if (last?.id === revision && !last.ended) return reader.read(end)
  return foldTo(await revisionsOf(db, node.id), revision)
}

function foldTo(revisions: readonly Revision[], revision: RevisionId | null): PresentText {
  const until = revisions.slice(0, revisions.findIndex(({ id }) => id === revision) + 1)
  return until.length === 0 ? null : { text: foldText(until), pieces: foldPieces(until) }
}

async function stateAfter(
  reader: PresentReader,
  link: Link,
  before: LinkState,
  changed: ReadonlySet<string>,
): Promise<LinkState> {
  const end = async (recorded: LinkEnd, state: EndState): Promise<EndState> =>
    changed.has(state.node) ? endAsOfNow(reader, recorded, state.pieces) : state
  const newer = await end(link.newer, before.newer)
  const older = await end(link.older, before.older)
  return deriveLinkState(link, newer, older, await reader.read(link.newer))
}

/** What the derived tables ought to hold, made from nothing but links, captures and revisions. */
export async function deriveAll(
  db: LabDatabase,
): Promise<{ texts: TextRecord[]; linkStates: LinkState[]; captureHeads: CaptureHead[] }> {
  const texts = await foldAllTexts(db)
  const presents = new Map<string, PresentText>(texts.map((text) => [text.node, text]))
  const reader = new (class extends PresentReader {
    override read(end: LinkEnd): Promise<PresentText> {
      const { node } = end
      if (node.kind !== 'part' && node.kind !== 'entry') return super.read(end)
      const present = presents.get(node.id) ?? null
      return present && node.kind === 'part' ? this.withView(node.id, present) : Promise.resolve(present)
    }
  })(db)
  const linkStates: LinkState[] = []
  for (const link of await db.links.toArray()) {
    const newer = await foldedEnd(db, reader, link.newer)
    const older = await foldedEnd(db, reader, link.older)
    linkStates.push(deriveLinkState(link, newer, older, await reader.read(link.newer)))
  }
  const captureHeads: CaptureHead[] = []
  await db.captures.each((capture) => captureHeads.push(headOf(capture)))
  return { texts, linkStates, captureHeads }
}

async function foldedEnd(db: LabDatabase, reader: PresentReader, end: LinkEnd): Promise<EndState> {
  const { node, revision, ranges } = end
  if (node.kind === 'source' || node.kind === 'capture' || ranges.length === 0) return endOf(db, reader, end)
  const then = foldTo(await revisionsOf(db, node.id), revision)
  const pieces = ranges.map((selector) => slicePieces(then?.pieces ?? [], rangeOfSelector(selector)))
  return endAsOfNow(reader, end, pieces)
}

async function foldAllTexts(db: LabDatabase): Promise<TextRecord[]> {
  const byNode = new Map<TextNodeId, Parameters<typeof foldText>[0][number][]>()
  for (const revision of await db.revisions.orderBy('[node+number]').toArray())
    byNode.set(revision.node, [...(byNode.get(revision.node) ?? []), revision])
  const texts: TextRecord[] = []
  for (const [node, revisions] of byNode)
    if (!revisions.at(-1)!.ended)
      texts.push({ node, text: foldText(revisions), pieces: foldPieces(revisions) })
  return texts
}
