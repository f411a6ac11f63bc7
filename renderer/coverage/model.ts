/** Coverage as its panel shows it: plain values, so that it can be worked out away from the screen. */
import { momentOf } from '../../shared/journal/entry-facts.ts'
import type { EntryId, ProcedureId, StepId } from '../../shared/lab/ids.ts'
import type { Moment } from '../../shared/lab/moment.ts'
import type { LeftOut, Machine, Part, Piece, Place, Range } from '../../shared/lab/model.ts'
import type { Deed } from '../../shared/procedure/coverage/deeds.ts'
import { rowBefore } from '../../shared/procedure/coverage/landing.ts'
import { omissionsOf, type Omission, type Unproven } from '../../shared/procedure/coverage/omissions.ts'
import type { RankReason } from '../../shared/procedure/coverage/rank.ts'
import type { ProcedureRecords } from '../../shared/procedure/coverage/records.ts'
import { countsOf, type CoverageCounts } from '../../shared/procedure/coverage/summary.ts'
import { parametersOf, stepsOf, type ProjectView } from '../store/view.ts'

/** Something of the journal that has no counterpart. */
export interface MissingItem {
  readonly id: string
  readonly entry: EntryId
  readonly kind: 'command' | 'file'
  /** The command as it was typed; the path of a file. */
  readonly text: string
  /** In the entry's text. */
  readonly range: Range
  /** The identities of the command's characters; null for an entry as a whole. */
  readonly command: readonly Piece[] | null
  /** How often it was done. */
  readonly times: number
  readonly moment: Moment
  readonly place: Place | null
  readonly outcome: Omission['outcome']
  readonly effect: Omission['effect']
  readonly reasons: readonly RankReason[]
  /** The row behind which it belongs; null for the head. */
  readonly after: StepId | null
}

export interface LeftOutItem extends MissingItem {
  readonly says: LeftOut
}

export interface UnprovenItem {
  readonly id: string
  readonly step: StepId | null
  readonly part: Part
  readonly range: Range
  readonly text: string
  readonly why: Unproven['why']
}

export interface CoverageModel {
  readonly counts: CoverageCounts
  readonly missing: readonly MissingItem[]
  readonly unsure: readonly MissingItem[]
  readonly leftOut: readonly LeftOutItem[]
  readonly unproven: readonly UnprovenItem[]
  /** Undone, replaced or only undoing: needs no counterpart. */
  readonly passed: number
  readonly failed: number
}

/** A procedure of a project with what coverage asks of it; null where it is gone. */
export function procedureRecords(view: ProjectView, id: ProcedureId): ProcedureRecords | null {
  const procedure = view.procedures.get(id)
  if (!procedure) return null
  return {
    procedure,
    steps: stepsOf(view, id),
    parts: [...view.parts.values()].filter((part) => part.procedure === id),
    parameters: parametersOf(view, id),
    leftOut: [...view.leftOut.values()].filter((one) => one.procedure === id),
    links: [...view.links.values()],
    states: view.states,
  }
}

/** @returns null where the procedure is gone */
export function coverageModel(
  view: ProjectView,
  machines: readonly Machine[],
  id: ProcedureId,
): CoverageModel | null {
  const procedure = procedureRecords(view, id)
  if (!procedure) return null
  const coverage = omissionsOf({ ...view, machines }, procedure)
  const toItem = (omission: Omission): MissingItem => ({
    ...itemOf(omission, view),
    after: rowBefore(omission.near, procedure.steps),
  })
  return {
    counts: countsOf(coverage),
    missing: coverage.omissions.map(toItem),
    unsure: coverage.uncertain.map(toItem),
    leftOut: coverage.leftOut.map(({ omission, says }) => ({ ...toItem(omission), says })),
    unproven: coverage.unproven.map(toUnproven),
    passed: coverage.passed.length,
    failed: coverage.failed.length,
  }
}

function itemOf(
  { id, deed, deeds, outcome, effect, reasons, near }: Omission,
  { marks }: Pick<ProjectView, 'marks'>,
): Omit<MissingItem, 'after'> {
  const { entry, kind, text, range, place } = deed
  return {
    ...{ id, entry: entry.id, kind, text, range, command: commandOf(deed), times: deeds.length },
    ...{ moment: momentOf(entry, marks.get(entry.id)), place, outcome, effect },
    reasons: reasons.filter((reason) => isWorthSaying(reason, near)),
  }
}

const commandOf = ({ kind, pieces }: Deed): readonly Piece[] | null => (kind === 'file' ? null : pieces)

/** That root did it says little, and between two steps nothing is that has a step on one side alone. */
function isWorthSaying(reason: RankReason, { before, behind }: Omission['near']): boolean {
  if (reason === 'between') return before.length > 0 && behind.length > 0
  return reason !== 'root'
}

function toUnproven({ step, part, range, text, why }: Unproven): UnprovenItem {
  return { id: `${part.id} ${range.start}`, step: step?.id ?? null, part, range, text, why }
}
