/**
 * What the stored Changes say of each thing: when it came, its revisions, whether it went. One walk over all Changes; what
 * each revision is a revision of, and which came first, is known from their order alone and from no clock.
 */
import type { Operation, StoredChange, TableName, Tables, TextOperation } from '../../lab/change.ts'
import type { Id, LinkId } from '../../lab/ids.ts'
import type { Link, Mark, Strike } from '../../lab/model.ts'
import { nameOfId, nameOfState, type Name } from './names.ts'

/** Tables whose records are things of their own in the document. What only sorts (folders, tags) or is ticked off is not. */
const thingTables = {
  projects: 'project',
  machines: 'machine',
  sources: 'source',
  captures: 'capture',
  entries: 'entry',
  procedures: 'procedure',
  steps: 'step',
  parts: 'part',
  parameters: 'parameter',
  versions: 'version',
  remarks: 'remark',
} as const satisfies Partial<Record<TableName, string>>
type ThingTable = keyof typeof thingTables
export type ThingKind = (typeof thingTables)[ThingTable]

/** Things whose every record is a state of its own. Texts have revisions; captures and versions never change. */
const stateful: ReadonlySet<ThingKind> = new Set([
  'project',
  'machine',
  'source',
  'procedure',
  'step',
  'parameter',
  'remark',
])

/** One state of a thing: the entity of PROV. */
export interface ThingRevision {
  readonly name: Name
  readonly change: StoredChange
  /** Greater than that of every revision that was there before. */
  readonly rank: number
}

export interface Thing {
  readonly kind: ThingKind
  readonly id: Id<string>
  /** The record as it was last put. */
  record: Tables[ThingTable]
  readonly added: StoredChange
  readonly rank: number
  readonly revisions: ThingRevision[]
  /** The Change that took it away, where it is away. */
  gone: StoredChange | null
  /** Changes that set something of it that has no revision. */
  readonly touched: StoredChange[]
}

export interface PastLink {
  readonly link: Link
  readonly made: StoredChange
  /** Greater than that of every link that was made before. */
  readonly rank: number
  /** The Change that took it away, where it is away. */
  gone: StoredChange | null
}

export interface PastMark {
  readonly mark: Mark
  readonly change: StoredChange
}

export interface PastStrike {
  readonly strike: Strike
  readonly change: StoredChange
}

export class History {
  /** By their ids, in the order in which they came. */
  readonly things = new Map<string, Thing>()
  /** By their ids, in the order in which they were made. */
  readonly links = new Map<LinkId, PastLink>()
  readonly marks: PastMark[] = []
  readonly strikes: PastStrike[] = []
  readonly changes = new Map<string, StoredChange>()
  /** Of each revision of a text, what it is a revision of. */
  readonly revisions = new Map<string, { readonly thing: Thing; readonly revision: ThingRevision }>()
  /** Of each text, all that was done to it, in order. */
  readonly texts = new Map<string, TextOperation[]>()
  private rank = 0

  /** @param changes all of the lab, in the order of their numbers */
  constructor(changes: readonly StoredChange[]) {
    for (const change of changes) {
      this.changes.set(change.id, change)
      for (const operation of change.operations) this.apply(operation, change)
    }
  }

  private apply(operation: Operation, change: StoredChange): void {
    if (operation.op === 'text') return this.changeText(operation, change)
    if (operation.op === 'remove') {
      if (operation.table === 'links') {
        const link = this.links.get(operation.before.id)
        if (link) link.gone = change
      } else if (isThingTable(operation.table)) {
        const thing = this.things.get((operation.before as { id: string }).id)
        if (thing) thing.gone = change
      }
      return
    }
    switch (operation.table) {
      case 'links':
        return this.putLink(operation.record, change)
      case 'withdrawals': {
        const thing = this.things.get(operation.record.entry)
        if (!thing) return
        thing.gone = operation.record.withdrawn ? change : null
        if (!operation.record.withdrawn) this.revise(thing, nameOfId(operation.record.id), change)
        return
      }
      case 'marks':
        this.marks.push({ mark: operation.record, change })
        return
      case 'strikes':
        this.strikes.push({ strike: operation.record, change })
        return
      default:
        if (isThingTable(operation.table))
          this.putThing(operation.table, operation.record as Tables[ThingTable], change)
    }
  }

  private putLink(link: Link, change: StoredChange): void {
    const known = this.links.get(link.id)
    if (known) known.gone = null
    else this.links.set(link.id, { link, made: change, rank: this.rank++, gone: null })
  }

  private putThing(table: ThingTable, record: Tables[ThingTable], change: StoredChange): void {
    const known = this.things.get(record.id)
    const thing = known ?? this.addThing(table, record, change)
    if (known) {
      // Records of parts have no state; their coming back shows in their texts.
      if (known.kind === 'part' && known.gone === null) known.touched.push(change)
      known.record = record
      known.gone = null
    }
    if (stateful.has(thing.kind)) this.revise(thing, nameOfState(thing.id, change.sequence), change)
    if ('revision' in record) {
      const revision = this.revise(thing, nameOfId(record.revision), change)
      this.revisions.set(record.revision, { thing, revision })
    }
  }

  private addThing(table: ThingTable, record: Tables[ThingTable], change: StoredChange): Thing {
    const thing: Thing = {
      kind: thingTables[table],
      id: record.id,
      record,
      added: change,
      rank: this.rank++,
      revisions: [],
      gone: null,
      touched: [],
    }
    this.things.set(record.id, thing)
    return thing
  }

  private changeText(operation: TextOperation, change: StoredChange): void {
    const { node, toRevision, ends } = operation
    const operations = this.texts.get(node.id)
    if (operations) operations.push(operation)
    else this.texts.set(node.id, [operation])
    const thing = this.things.get(node.id)
    if (!thing || ends) return
    this.revisions.set(toRevision, { thing, revision: this.revise(thing, nameOfId(toRevision), change) })
  }

  /** A further state; the last one itself where it has that name already, since one Change leaves one state of a record. */
  private revise(thing: Thing, name: Name, change: StoredChange): ThingRevision {
    const last = thing.revisions.at(-1)
    if (last?.name === name) return last
    const revision = { name, change, rank: this.rank++ }
    thing.revisions.push(revision)
    return revision
  }
}

function isThingTable(table: TableName): table is ThingTable {
  return table in thingTables
}
