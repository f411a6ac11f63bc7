/** The seal's place in the store: sealing what a Change wrote, in its own transaction, and striking out. */
import type { Operation } from '../../shared/lab/change.ts'
import type { ProjectId, RevisionId } from '../../shared/lab/ids.ts'
import type { Strike } from '../../shared/lab/model.ts'
import { thingsToSeal } from '../../shared/journal/seal/applied.ts'
import type {
  JournalRecords,
  Seal,
  SealedText,
  SealedThing,
  SealSalts,
} from '../../shared/journal/seal/model.ts'
import { sealJournal, sealRecords, type Sealed, type Sealing } from '../../shared/journal/seal/seal.ts'
import { unsealed } from '../../shared/lab/upgrade.ts'
import { strikeSeals } from '../../shared/journal/seal/strike.ts'
import type { LabDatabase } from './schema.ts'

/** A project's chain and all that it seals. */
export interface SealedJournal {
  readonly project: ProjectId
  /** In order. */
  readonly seals: Seal[]
  readonly salts: SealSalts[]
  readonly records: JournalRecords
}

/** Seals what a Change wrote, each project's things behind its last seal. Called inside the Change's transaction. */
export async function sealApplied(
  db: LabDatabase,
  operations: readonly Operation[],
  written: ReadonlyMap<RevisionId, SealedText>,
  sealing: Sealing,
): Promise<void> {
  const byProject = new Map<ProjectId, SealedThing[]>()
  for (const { entry, thing } of thingsToSeal(operations, written)) {
    const { project } = (await db.entries.get(entry))!
    byProject.set(project, [...(byProject.get(project) ?? []), thing])
  }
  for (const [project, things] of byProject)
    await add(db, sealRecords(project, (await lastSealOf(db, project)) ?? null, things, sealing))
}

async function add(db: LabDatabase, sealed: readonly Sealed[]): Promise<void> {
  await db.seals.bulkAdd(sealed.map(({ seal }) => seal))
  await db.salts.bulkAdd(sealed.map(({ salts }) => salts))
}

function sealsOf(db: LabDatabase, project: ProjectId) {
  return db.seals.where('[project+number]').between([project, 0], [project, Infinity])
}

async function lastSealOf(db: LabDatabase, project: ProjectId): Promise<Seal | undefined> {
  return sealsOf(db, project).last()
}

/** A project's journal as it stands, with its seals. Called inside a transaction, so that it fits together. */
export async function sealedJournalOf(db: LabDatabase, project: ProjectId): Promise<SealedJournal> {
  const entries = await db.entries.where('project').equals(project).sortBy('id')
  const ids = entries.map(({ id }) => id)
  const seals = await sealsOf(db, project).toArray()
  return {
    project,
    seals,
    // All of the project, so that salts of no seal are seen too.
    salts: await db.salts.where('seal').between(`${project}:`, `${project}:\uffff`).toArray(),
    records: {
      entries,
      revisions: await revisionsAmong(db, new Set<string>(ids)),
      withdrawals: await db.withdrawals.where('entry').anyOf(ids).sortBy('id'),
      marks: await db.marks.where('entry').anyOf(ids).sortBy('id'),
      strikes: await db.strikes.orderBy('id').toArray(),
      texts: (await db.texts.bulkGet(ids)).filter((text) => text !== undefined),
    },
  }
}

/** One walk over all of the lab's revisions is quicker than a search for each entry. */
async function revisionsAmong(db: LabDatabase, nodes: ReadonlySet<string>) {
  return (await db.revisions.orderBy('[node+number]').toArray()).filter(({ node }) => nodes.has(node))
}

/** Seals the journals of a lab that was written before there were seals. Called inside a transaction over all tables. */
export async function sealLate(db: LabDatabase, sealing: Omit<Sealing, 'late'>): Promise<void> {
  if (!(await db.settings.get(unsealed.key))) return
  for (const { id } of await db.projects.toArray()) {
    const { seals, records } = await sealedJournalOf(db, id)
    if (seals.length === 0) await add(db, sealJournal(id, records, sealing))
  }
  await db.settings.delete(unsealed.key)
}

/** Every project's journal as it stands before a strike. */
export async function journalsBefore(db: LabDatabase): Promise<SealedJournal[]> {
  const all: SealedJournal[] = []
  for (const id of await db.projects.toCollection().primaryKeys())
    all.push(await sealedJournalOf(db, id as ProjectId))
  return all
}

/** Takes the salts of struck texts away and seals the strike in every journal that it changed. */
export async function sealStrike(
  db: LabDatabase,
  before: readonly SealedJournal[],
  strike: Strike,
  emptied: readonly string[],
  sealing: Sealing,
): Promise<void> {
  for (const { project, seals, salts, records } of before) {
    const after = (await sealedJournalOf(db, project)).records
    const struck = strikeSeals(project, seals, salts, records, after, strike, emptied, sealing)
    await db.salts.bulkPut([...struck.salts])
    if (struck.sealed) await add(db, [struck.sealed])
  }
}
