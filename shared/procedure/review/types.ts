/** What the review reads and what it says. Plain values only. */
import type { ParameterId, PartId, SilenceId, StepId } from '../../lab/ids.ts'
import type { FileState, Place, ProcedurePartKind, Range, StepLevel, StepPartKind } from '../../lab/model.ts'

export interface ReviewedPart {
  readonly id: PartId
  readonly kind: StepPartKind | ProcedurePartKind
  /** Markdown; empty parts are passed over. */
  readonly text: string
  readonly file: FileState | null
  /** How many links lead from it to something older. */
  readonly olderEnds: number
}

export interface ReviewedRow {
  readonly id: StepId
  /** As it is shown: `3`, `3.1`; empty for a section. */
  readonly number: string
  readonly level: StepLevel
  /** Where it happens, inherited from the rows before; null where nothing was said. */
  readonly place: Place | null
  /** Whether the row says its place itself. */
  readonly isPlaceSaid: boolean
  readonly pointOfNoReturn: boolean
  readonly parts: readonly ReviewedPart[]
}

export interface ReviewedParameter {
  readonly id: ParameterId
  readonly name: string
}

export interface ReviewedSilence {
  readonly id: SilenceId
  readonly rule: string
  readonly step: StepId | null
  readonly words: string
  readonly reason: string
}

/** A procedure as the review reads it. */
export interface ReviewedDocument {
  /** The procedure's own parts. */
  readonly parts: readonly ReviewedPart[]
  /** In order. */
  readonly rows: readonly ReviewedRow[]
  readonly parameters: readonly ReviewedParameter[]
  readonly silences: readonly ReviewedSilence[]
}

/** One piece of a part's text and what comes in its place. */
export interface Edit extends Range {
  readonly part: PartId
  readonly insert: string
}

/** What one key does about a finding. `label` begins with a verb. */
export type Mend =
  | { readonly does: 'edit'; readonly label: string; readonly edits: readonly Edit[] }
  | { readonly does: 'remove a parameter'; readonly label: string; readonly parameter: ParameterId }
  | { readonly does: 'declare a parameter'; readonly label: string; readonly name: string }
  | {
      readonly does: 'add a part'
      readonly label: string
      readonly step: StepId
      readonly kind: StepPartKind
      readonly text: string
    }
  | { readonly does: 'make a parameter'; readonly label: string; readonly value: string }
  | {
      readonly does: 'move to the caution'
      readonly label: string
      readonly part: PartId
      readonly range: Range
    }

/** Where a rule sees a fault. */
export interface FaultPlace {
  /** Null for the procedure as a whole. */
  readonly step: StepId | null
  /** Null where there is no part to point at. */
  readonly part: PartId | null
  /** In the part's text, in UTF-16 code units; null for the part as a whole. */
  readonly range: Range | null
  /** The words that it points at; a silence holds as long as they stay. */
  readonly words: string
  /** What is wrong here, for the person. */
  readonly sentence: string
  readonly mend: Mend | null
}

export interface Finding extends FaultPlace {
  readonly rule: string
  /** The silence that covers it; null while it is open. */
  readonly silence: ReviewedSilence | null
}

/** Where a rule comes from. */
export interface RuleSource {
  /** A public handbook, standard or manual page with its section, or “common practice, no source”. */
  readonly says: string
  /** The section was not at hand when this was written and is named from memory. */
  readonly isFromMemory: boolean
}
