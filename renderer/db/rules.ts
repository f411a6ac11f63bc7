/** What a Change may do to a record, given what stands there and what else names it. */
import type { Table } from 'dexie'
import type { TableName, Tables } from '../../shared/lab/change.ts'
import type { FileState, LinkNode, Mark, Parameter, Part, Place, Version } from '../../shared/lab/model.ts'
import type { LabDatabase } from './schema.ts'

/** Tables whose records stand for good: nothing overwrites and nothing removes them. */
const permanent: readonly TableName[] = ['entries', 'withdrawals', 'marks', 'strikes']
/** Tables whose records never change while they stand. */
const unchanging: readonly TableName[] = [...permanent, 'captures', 'blobs', 'links', 'versions']

export function isPermanent(table: TableName): boolean {
  return permanent.includes(table)
}

export function isUnchanging(table: TableName): boolean {
  return unchanging.includes(table)
}

type AnyTable = Table<unknown, string>

/** A link's node as a record of its table. */
export function referenceOf(node: LinkNode): readonly [TableName, string] {
  switch (node.kind) {
    case 'entry':
      return ['entries', node.id]
    case 'part':
      return ['parts', node.id]
    case 'capture':
      return ['captures', node.id]
    case 'source':
      return ['sources', node.id]
  }
}

const tableOfTagged = { source: 'sources', entry: 'entries', project: 'projects' } as const

/** The records that a record names. */
function referencesOf<T extends TableName>(table: T, record: Tables[T]): (readonly [TableName, string])[] {
  const own: TableName = table
  const of = <U extends TableName>(wanted: U): Tables[U] | null =>
    own === wanted ? (record as unknown as Tables[U]) : null
  const source = of('sources')
  if (source)
    return [
      ...source.projects.map((id) => ['projects', id] as const),
      ...source.folders.map((id) => ['folders', id] as const),
      ...(source.mergedInto ? [['sources', source.mergedInto] as const] : []),
    ]
  const folder = of('folders')
  if (folder) return folder.parent ? [['folders', folder.parent]] : []
  const capture = of('captures')
  if (capture)
    return [
      ['sources', capture.source],
      ['blobs', capture.sha256],
    ]
  const project = of('projects')
  if (project) return project.folder ? [['folders', project.folder]] : []
  const entry = of('entries')
  if (entry)
    return [
      ['projects', entry.project],
      ...(entry.under ? [['entries', entry.under] as const] : []),
      ...namedByPlace(entry.place),
      ...namedByFile(entry.file),
    ]
  const mark = of('marks')
  if (mark) return [['entries', mark.entry], ...namedByMark(mark)]
  const procedure = of('procedures')
  if (procedure) return [['projects', procedure.project], ...namedByPlace(procedure.place)]
  const withdrawal = of('withdrawals')
  if (withdrawal) return [['entries', withdrawal.entry]]
  const entryTags = of('entryTags')
  if (entryTags) return [['entries', entryTags.entry]]
  const verdict = of('verdicts')
  if (verdict) return [[tableOfTagged[verdict.node.kind], verdict.node.id]]
  const step = of('steps')
  if (step) return [['procedures', step.procedure], ...namedByPlace(step.place)]
  const part = of('parts')
  if (part)
    return [
      ['procedures', part.procedure],
      ...(part.step ? [['steps', part.step] as const] : []),
      ...namedByFile(part.file),
    ]
  const leftOut = of('leftOut')
  if (leftOut)
    return [
      ['procedures', leftOut.procedure],
      ['entries', leftOut.entry],
    ]
  // Remarks and silences outlive the step that they speak of: it may come back.
  const ofProcedure = of('parameters') ?? of('versions') ?? of('remarks') ?? of('silences') ?? of('fetches')
  if (ofProcedure) return [['procedures', ofProcedure.procedure]]
  const link = of('links')
  if (link) return [referenceOf(link.newer.node), referenceOf(link.older.node)]
  return []
}

type Reference = readonly [TableName, string]

const namedByPlace = (place: Place | null): Reference[] =>
  place?.machine ? [['machines', place.machine]] : []

const namedByFile = (file: FileState | null): Reference[] => (file?.blob ? [['blobs', file.blob]] : [])

function namedByMark({ says }: Mark): Reference[] {
  if (says.kind === 'place') return namedByPlace(says.set)
  return says.kind === 'file' ? namedByFile(says.set) : []
}

/** The first record that a record names and that is not there, or null. */
export async function findMissing<T extends TableName>(
  db: LabDatabase,
  table: T,
  record: Tables[T],
): Promise<readonly [TableName, string] | null> {
  for (const [name, key] of referencesOf(table, record))
    if (!(await (db.tableOf(name) as AnyTable).get(key))) return [name, key]
  return null
}

/** Whether anything that stands names this record, so that it cannot go. */
export async function isNamed(db: LabDatabase, table: TableName, key: string): Promise<boolean> {
  const counts = await Promise.all(namings(db, table, key).map((collection) => collection.limit(1).count()))
  return counts.some((count) => count > 0)
}

function namings(db: LabDatabase, table: TableName, key: string) {
  const linksTo = [
    db.links.where('newer.node.id').equals(key),
    db.links.where('older.node.id').equals(key),
  ] as const
  switch (table) {
    case 'projects':
      return [
        db.entries.where('project').equals(key),
        db.procedures.where('project').equals(key),
        db.sources.where('projects').equals(key),
        db.verdicts.where('node.id').equals(key),
      ]
    case 'blobs':
      return [
        db.captureHeads.where('sha256').equals(key),
        db.revisions.where('blobs').equals(key),
        db.entries.where('file.blob').equals(key),
        db.parts.where('file.blob').equals(key),
        db.marks.where('says.set.blob').equals(key),
        // What is being typed may name a picture that no entry names yet.
        db.drafts.filter(({ text }) => text.includes(key)),
      ]
    case 'machines':
      return [
        db.entries.where('place.machine').equals(key),
        db.marks.where('says.set.machine').equals(key),
        db.procedures.where('place.machine').equals(key),
        db.steps.where('place.machine').equals(key),
      ]
    case 'sources':
      return [
        db.captureHeads.where('source').equals(key),
        db.sources.where('mergedInto').equals(key),
        db.verdicts.where('node.id').equals(key),
        ...linksTo,
      ]
    case 'folders':
      return [
        db.folders.where('parent').equals(key),
        db.sources.where('folders').equals(key),
        db.projects.where('folder').equals(key),
      ]
    case 'captures':
      return linksTo
    case 'procedures':
      return [
        ...[db.steps, db.parts, db.parameters, db.remarks, db.silences, db.leftOut, db.fetches].map((table) =>
          (table as AnyTable).where('procedure').equals(key),
        ),
        db.versions.where('[procedure+number]').between([key, 0], [key, Infinity]),
      ]
    case 'steps':
      return [db.parts.where('step').equals(key)]
    case 'parts':
      // A part that others were copied from may go; their links then say that they are loose at that end.
      return [db.texts.where('node').equals(key), linksTo[0]]
    case 'entries':
    case 'withdrawals':
    case 'marks':
    case 'entryTags':
    case 'verdicts':
    case 'parameters':
    case 'versions':
    case 'remarks':
    case 'silences':
    case 'leftOut':
    case 'fetches':
    case 'links':
    case 'strikes':
      return []
  }
}

/** Whether another part of the same kind stands at the same place: two windows may both begin one. */
export async function hasSuchPart(db: LabDatabase, part: Part): Promise<boolean> {
  const siblings = part.step
    ? db.parts.where('step').equals(part.step)
    : db.parts.where('procedure').equals(part.procedure)
  const isSuch = (other: Part): boolean =>
    other.id !== part.id && other.kind === part.kind && other.step === part.step
  return (await siblings.filter(isSuch).limit(1).count()) > 0
}

/** Whether another parameter of the procedure has this name: two windows may both make one. */
export async function hasSuchParameter(
  db: LabDatabase,
  { id, name, procedure }: Parameter,
): Promise<boolean> {
  const others = db.parameters.where('procedure').equals(procedure)
  return (await others.filter((other) => other.id !== id && other.name === name).count()) > 0
}

/** Whether a version's number is the next one. */
export async function isNextVersion(db: LabDatabase, { procedure, number }: Version): Promise<boolean> {
  const last = await db.versions
    .where('[procedure+number]')
    .between([procedure, 0], [procedure, Infinity])
    .last()
  return number === (last?.number ?? 0) + 1
}

/** Whether a parameter keeps what must be kept nowhere. */
export function keepsSecret({ type, example, preset, carried, rule }: Parameter): boolean {
  return (
    type === 'secret' && (example !== '' || preset !== '' || carried !== null || rule?.allowed !== undefined)
  )
}
