/**
 * Makes sources of what a run takes in: decides what becomes of each thing and commits many at once, so that hundreds of
 * files are a few Changes and the lists are drawn a few times a second at most.
 */
import {
  addSource,
  changeSource,
  FolderFinder,
  makeChange,
  readAgain,
  type CaptureInput,
  type SourceFields,
  type Surroundings,
} from '../../../../shared/lab/acts.ts'
import type { Act, Change, Operation } from '../../../../shared/lab/change.ts'
import type { CaptureId, FolderId, ProjectId } from '../../../../shared/lab/ids.ts'
import type { Source } from '../../../../shared/lab/model.ts'
import { addressKey } from '../../../../shared/sources/address-key.ts'
import type { LabSources } from '../../../store/labSources.ts'
import { brokenSentence, type IntakeItem, type ItemEnd, type Keeper, type TakenIn } from '../intakeQueue.ts'
import { titleOfAddress } from '../matter.ts'
import { decide, type Decision } from './decide.ts'
import { KnownSources } from './known.ts'

/** When a batch is committed, whichever comes first. Times in milliseconds. */
export const batchBounds = { things: 25, bytes: 16 * 1024 * 1024, wait: 500, between: 250 } as const

export interface KeepingParts {
  readonly around: Surroundings
  readonly project: ProjectId
  readonly isInFolders: boolean
  /** What is read again gets a Change of its own, so that it can be taken back alone. */
  readonly isFew: boolean
  readonly wasTaken: (sha256: string) => boolean
  /** All sources of the lab as they stand; null where the lab is not open any more. */
  readonly labSources: () => LabSources | null
  readonly commit: (change: Change) => Promise<{ ok: true } | { ok: false; sentence: string }>
  readonly now: () => number
  readonly sleep: (ms: number) => Promise<void>
}

interface Pending {
  readonly item: IntakeItem
  /** null for an address without text. */
  readonly taken: TakenIn | null
  readonly told: IntakeItem
  readonly decision: Decision
}

type OnEnd = (item: IntakeItem, end: ItemEnd, sha256: string | null) => void

export class BatchKeeper implements Keeper {
  private pending: Pending[] = []
  private bytes = 0
  private known: KnownSources | null = null
  private lastCommit = -Infinity
  private timer: ReturnType<typeof setTimeout> | null = null
  /** One thing and one commit at a time. */
  private tail: Promise<void> = Promise.resolve()

  constructor(
    private readonly parts: KeepingParts,
    private readonly onEnd: OnEnd,
  ) {}

  keep(item: IntakeItem, taken: TakenIn): Promise<void> {
    return this.inTurn(() => this.take(item, taken, item))
  }

  keepLink(item: IntakeItem, address: string): Promise<void> {
    return this.inTurn(() => this.take({ ...item, address }, null, item))
  }

  finish(): Promise<void> {
    return this.inTurn(() => this.commit())
  }

  private inTurn(act: () => Promise<void>): Promise<void> {
    const turn = this.tail.then(act)
    this.tail = turn.catch(() => undefined)
    return turn
  }

  /** @param told the thing under which its end is told */
  private async take(item: IntakeItem, taken: TakenIn | null, told: IntakeItem): Promise<void> {
    const sha256 = taken?.sha256 ?? null
    if (sha256 !== null && this.parts.wasTaken(sha256))
      return this.onEnd(told, { kind: 'there', source: null, change: null }, sha256)
    // What lies in the same batch is not among the known ones before it is committed.
    if (this.pending.some((one) => isNear(one, item, taken))) await this.commit()
    const known = this.knownNow()
    if (!known) return this.onEnd(told, { kind: 'failed', sentence: notOpen(item.name) }, sha256)
    const decision = decide(known, { address: addressOf(item, taken), sha256 }, item)
    const isApart = this.parts.isFew && decision.kind === 'again'
    if (isApart) await this.commit()
    this.pending.push({ item, taken, told, decision })
    this.bytes += taken?.bytes.length ?? 0
    const isFull = this.pending.length >= batchBounds.things || this.bytes >= batchBounds.bytes
    if (isApart || isFull) return this.commit()
    this.timer ??= setTimeout(() => void this.finish(), batchBounds.wait)
  }

  private knownNow(): KnownSources | null {
    const all = this.parts.labSources()
    if (all === null) return null
    return this.known?.all === all ? this.known : (this.known = new KnownSources(all, this.parts.project))
  }

  private async commit(): Promise<void> {
    if (this.timer !== null) clearTimeout(this.timer)
    this.timer = null
    const batch = this.pending
    this.pending = []
    this.bytes = 0
    if (batch.length === 0) return
    const rest = this.lastCommit + batchBounds.between - this.parts.now()
    if (rest > 0) await this.parts.sleep(rest)
    await this.commitBatch(batch)
    this.lastCommit = this.parts.now()
  }

  private async commitBatch(batch: readonly Pending[]): Promise<void> {
    const all = this.parts.labSources()
    const fail = (sentenceOf: (name: string) => string): void => {
      for (const { told, taken } of batch)
        this.onEnd(told, { kind: 'failed', sentence: sentenceOf(told.name) }, taken?.sha256 ?? null)
    }
    if (all === null) return fail(notOpen)
    const { change, ends } = toChange(this.parts, all, batch)
    try {
      const isChange = change.operations.length > 0
      const result = isChange ? await this.parts.commit(change) : ({ ok: true } as const)
      if (!result.ok) return fail((name) => `“${name}” was not added. ${result.sentence}`)
    } catch (error) {
      console.error(error)
      return fail(brokenSentence)
    }
    batch.forEach(({ told, taken }, at) => this.onEnd(told, ends[at]!, taken?.sha256 ?? null))
  }
}

function notOpen(name: string): string {
  return `“${name}” was not added. Another lab was opened meanwhile. Open the first one and add it again.`
}

const addressOf = (item: IntakeItem, taken: TakenIn | null): string | null =>
  item.address ?? taken?.address ?? null

/** Whether deciding about a thing needs to know what becomes of the other one first. */
function isNear(one: Pending, item: IntakeItem, taken: TakenIn | null): boolean {
  const [address, other] = [addressOf(item, taken), addressOf(one.item, one.taken)]
  const isSamePage = address !== null && other !== null && addressKey(address) === addressKey(other)
  const isSameFile = item.again !== null && one.item.again === item.again
  const isSameBytes = taken !== null && one.taken?.sha256 === taken.sha256
  return isSameBytes || isSamePage || isSameFile
}

/** What one batch comes to: one Change, which may be empty, and an end for each of its things. */
function toChange(
  { around, project, isInFolders }: KeepingParts,
  all: LabSources,
  batch: readonly Pending[],
): { readonly change: Change; readonly ends: readonly ItemEnd[] } {
  const finder = new FolderFinder(around, [...all.folders.values()])
  const pieces = batch.map((one) => {
    const folder = isInFolders ? finder.ensure(one.item.directories) : null
    return toPiece(around, one, { project, folders: folder === null ? [] : [folder] })
  })
  const operations = pieces.flatMap((piece) => piece.operations)
  const change = makeChange(around, actOf(batch), [...finder.operations, ...operations])
  return { change, ends: pieces.map(({ toEnd }) => toEnd(change)) }
}

function actOf(batch: readonly Pending[]): Act {
  const kinds = new Set(batch.map(({ decision }) => decision.kind))
  if (kinds.has('add')) return batch.length === 1 ? 'add a source' : 'add sources'
  if (kinds.has('again')) return 'read again'
  return batch.length === 1 ? 'change a source' : 'change sources'
}

interface Where {
  readonly project: ProjectId
  readonly folders: readonly FolderId[]
}
interface Piece {
  readonly operations: readonly Operation[]
  readonly toEnd: (change: Change) => ItemEnd
}

function toPiece(around: Surroundings, { item, taken, decision }: Pending, where: Where): Piece {
  switch (decision.kind) {
    case 'add':
      return addingPiece(around, item, taken, where)
    case 'there': {
      const { source } = decision
      const operations = joining(around, source, where, {
        address: source.address ?? addressOf(item, taken),
      })
      const toEnd = ({ id }: Change): ItemEnd => ({
        kind: 'there',
        source,
        change: operations.length > 0 ? id : null,
      })
      return { operations, toEnd }
    }
    case 'again':
      // An address alone is there already or new, and never read again.
      return againPiece(around, item, taken!, decision, where)
  }
}

function addingPiece(around: Surroundings, item: IntakeItem, taken: TakenIn | null, where: Where): Piece {
  const address = addressOf(item, taken)
  const { source, change } = addSource(around, {
    title: item.title ?? taken?.title ?? titleOfAddress(address ?? ''),
    address,
    kind: taken === null ? 'link' : (item.kind ?? taken.kind),
    wayIn: item.wayIn,
    author: taken?.author ?? null,
    dated: taken?.dated ?? null,
    projects: [where.project],
    folders: where.folders,
    capture: taken && toCaptureInput(taken),
  })
  const notes = taken?.notes ?? []
  const toEnd = ({ id }: Change): ItemEnd => ({ kind: 'added', source, change: id, notes })
  return { operations: change.operations, toEnd }
}

function againPiece(
  around: Surroundings,
  item: IntakeItem,
  taken: TakenIn,
  { source, before }: Decision & { kind: 'again' },
  where: Where,
): Piece {
  const kind = item.kind ?? taken.kind
  const { capture, change } = readAgain(around, source, before, {
    kind,
    wayIn: item.wayIn,
    capture: toCaptureInput(taken),
  })
  const isNamed = source.title !== '' && source.title !== titleOfAddress(source.address ?? '')
  const operations = joining(around, source, where, {
    title: isNamed ? source.title : (item.title ?? taken.title),
    author: source.author ?? taken.author,
    dated: source.dated ?? taken.dated,
    address: source.address ?? addressOf(item, taken),
  })
  const id: CaptureId = capture.id
  const toEnd = (all: Change): ItemEnd => ({ kind: 'again', source, capture: id, change: all.id })
  return { operations: [...change.operations, ...operations], toEnd }
}

function toCaptureInput({ text, bytes, sha256, mediaType, saved, pages, notes }: TakenIn): CaptureInput {
  return { text, bytes, sha256, mediaType, saved, pages, notes }
}

/** Takes a source into the project and the folders, and fills in what it does not say yet. None where it stands so. */
export function joining(
  around: Surroundings,
  source: Source,
  { project, folders }: Where,
  fields: SourceFields = {},
): readonly Operation[] {
  const next: SourceFields = {
    ...fields,
    projects: [...new Set([...source.projects, project])],
    folders: [...new Set([...source.folders, ...folders])],
  }
  const isChanged =
    next.projects!.length > source.projects.length ||
    next.folders!.length > source.folders.length ||
    Object.entries(fields).some(([field, value]) => source[field as keyof Source] !== value)
  return isChanged ? changeSource(around, source, next).operations : []
}
