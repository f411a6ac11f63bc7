/** The panels beside the panes that a person can open, one at a time. None is modal. */
import type { EntryId, MachineId, PartId, ProcedureId, StepId } from '../../shared/lab/ids.ts'

export type OpenPanel =
  /** The machines of the lab; one of them with all that happened on it. */
  | { readonly kind: 'machines'; readonly machine: MachineId | null }
  /** What went wrong, what ended it and how long it took. */
  | { readonly kind: 'problems'; readonly of: 'project' | 'lab' }
  /** Logs that are followed or brought in, with what they offer. */
  | { readonly kind: 'logs' }
  /** Checking the seal, taking it out, rewriting the store. */
  | { readonly kind: 'seal' }
  /** The states of the file that an entry speaks of. */
  | { readonly kind: 'file'; readonly entry: EntryId }
  /** The projects of the lab in their folders. */
  | { readonly kind: 'projects' }
  /** Photos that are to be placed by the times at which they were taken. */
  | { readonly kind: 'photos' }
  /** A procedure filled in for another host. */
  | { readonly kind: 'made for'; readonly procedure: ProcedureId }
  /** The versions of a procedure, and what differs between them; with one that was found, where it was. */
  | { readonly kind: 'versions'; readonly procedure: ProcedureId; readonly found: FoundVersion | null }
  /** What a procedure wants from the network, to be had beforehand. */
  | { readonly kind: 'fetches'; readonly procedure: ProcedureId }
  /** What of the journal a procedure lacks. */
  | { readonly kind: 'coverage'; readonly procedure: ProcedureId }
  /** What the shown procedure still lacks; the keyboard goes to what is found at a step or at a part of its own where one is said. */
  | { readonly kind: 'review'; readonly at: StepId | PartId | null }
  /** Steps proposed from the journal: of all from an entry on, or of the path that worked. */
  | { readonly kind: 'draft'; readonly from: EntryId | null }
  /** Provenance, to be written out for other programs. */
  | { readonly kind: 'provenance'; readonly of: 'project' | 'lab' }
  /** The project in three bands, with what joins them. */
  | { readonly kind: 'map' }
  | { readonly kind: 'help'; readonly page: HelpPage }

export const helpPages = ['terminal logs', 'keys', 'keys of the procedure'] as const
export type HelpPage = (typeof helpPages)[number]

export interface FoundVersion {
  readonly number: number
  /** To be marked in what it says, as they are written. */
  readonly words: readonly string[]
}
