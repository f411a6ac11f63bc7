/** What can be traced, and how it is looked at. */
import type { ProcedureId, StepId, VersionId } from '../../shared/lab/ids.ts'
import type { LinkNode, Range } from '../../shared/lab/model.ts'

/** A thing; where ranges are given, those words of its present text alone. */
type TracedThing = LinkNode & { readonly ranges?: readonly Range[] }
/** With all its parts. */
type TracedWhole =
  | { readonly kind: 'step'; readonly id: StepId }
  | { readonly kind: 'procedure'; readonly id: ProcedureId }
  | { readonly kind: 'version'; readonly id: VersionId }

export type Traced = (TracedThing | TracedWhole) & {
  /** Shown first: where it came from, what came of it, a step's life, what rests on it. The usual one where left out. */
  readonly view?: 'back' | 'forward' | 'life' | 'impact'
}
