/** A draft as its panel shows it: plain values, so that it can be worked out away from the screen. */
import type { EntryId, LabId, ProcedureId } from '../../shared/lab/ids.ts'
import type { Machine } from '../../shared/lab/model.ts'
import { omissionsOf } from '../../shared/procedure/coverage/omissions.ts'
import type { Deed } from '../../shared/procedure/coverage/deeds.ts'
import { draftFrom, type DraftRow } from '../../shared/procedure/draft/draft.ts'
import type { DropReason } from '../../shared/procedure/draft/dropped.ts'
import { procedureRecords } from '../coverage/model.ts'
import type { ProjectView } from '../store/view.ts'
import type { ProjectCalls } from '../workers/project.ts'

/** Something of the journal that no step is made of. */
export interface DroppedItem {
  readonly id: string
  readonly entry: EntryId
  /** The command; empty for the entry as a whole. */
  readonly text: string
  readonly reason: DropReason
  /** The entry that says so, where one does. */
  readonly by: EntryId | null
}

/** A proposed step. What it was worked out of stays behind. */
export type DraftItem = DraftRow & { readonly deeds: readonly [] }

export interface DraftModel {
  readonly rows: readonly DraftItem[]
  readonly dropped: readonly DroppedItem[]
}

export function draftModel(
  view: ProjectView,
  machines: readonly Machine[],
  lab: LabId,
  { procedure, chosen }: ProjectCalls['draft']['argument'],
): DraftModel {
  const held = procedure ? heldBy(view, machines, procedure) : nothingHeld
  const draft = draftFrom(
    { ...view, machines },
    {
      lab,
      chosen: chosen && new Set(chosen),
      links: [...view.links.values()],
      isCarried: (deed) => held.deeds.has(nameOf(deed)),
      isTold: ({ id }) => held.told.has(id),
    },
  )
  return {
    rows: draft.rows.map((row) => ({ ...row, deeds: [] })),
    dropped: draft.dropped.map(({ entry, deed, reason, by }, n) => ({
      ...{ id: `${entry.id} ${n}`, entry: entry.id, text: deed?.text ?? '', reason },
      by: by?.entry.id ?? null,
    })),
  }
}

/** What a deed is known by from one reading of the journal to the next. */
const nameOf = ({ entry, range }: Deed): string => `${entry.id} ${range.start}`

interface HeldOfJournal {
  /** Deeds, by `nameOf`. */
  readonly deeds: ReadonlySet<string>
  /** Entries whose words were carried and of whose commands none is missing. */
  readonly told: ReadonlySet<string>
}

const nothingHeld: HeldOfJournal = { deeds: new Set(), told: new Set() }

/** What the procedure holds already. */
function heldBy(view: ProjectView, machines: readonly Machine[], procedure: ProcedureId): HeldOfJournal {
  const records = procedureRecords(view, procedure)
  if (!records) return nothingHeld
  const { covered, omissions, uncertain } = omissionsOf({ ...view, machines }, records)
  const parts = new Set<string>(records.parts.map(({ id }) => id))
  const told = new Set<string>()
  for (const { newer, older } of records.links) if (parts.has(newer.node.id)) told.add(older.node.id)
  for (const { deeds } of [...omissions, ...uncertain]) for (const { entry } of deeds) told.delete(entry.id)
  return { deeds: new Set(covered.flatMap(({ omission }) => omission.deeds.map(nameOf))), told }
}
