/** A draft as its panel shows it: plain values, so that it can be worked out away from the screen. */
import type { EntryId, LabId } from '../../shared/lab/ids.ts'
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
  const journal = { ...view, machines }
  const held = procedure ? heldDeeds(view, machines, procedure) : new Set<string>()
  const draft = draftFrom(journal, {
    lab,
    chosen: chosen && new Set(chosen),
    links: [...view.links.values()],
    isCarried: (deed) => held.has(nameOf(deed)),
  })
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

/** What the procedure holds already. */
function heldDeeds(
  view: ProjectView,
  machines: readonly Machine[],
  procedure: NonNullable<ProjectCalls['draft']['argument']['procedure']>,
): ReadonlySet<string> {
  const records = procedureRecords(view, procedure)
  if (!records) return new Set()
  const { covered } = omissionsOf({ ...view, machines }, records)
  return new Set(covered.flatMap(({ omission }) => omission.deeds.map(nameOf)))
}
