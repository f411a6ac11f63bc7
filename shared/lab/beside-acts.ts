/** What a person says beside a procedure's text: versions, remarks, silences, what is left out, what was fetched. */
import type { Change } from './change.ts'
import type { EntryId, ProcedureId, RevisionId, StepId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type {
  Fetch,
  LeftOut,
  Parameter,
  Part,
  Piece,
  Procedure,
  Remark,
  Silence,
  Step,
  Version,
} from './model.ts'

/** A procedure as it stands, for marking a version of it. */
export interface StandingProcedure {
  readonly procedure: Procedure
  readonly steps: readonly Step[]
  /** Each with its text's last revision. */
  readonly parts: readonly { readonly part: Part; readonly revision: RevisionId }[]
  readonly parameters: readonly Parameter[]
}

/**
 * Marks a procedure as it stands as a version.
 * @param last the number of the version before; 0 for none. Commit refuses a number that another window took
 */
export function markVersion(
  around: Surroundings,
  { procedure, steps, parts, parameters }: StandingProcedure,
  last: number,
  line: string,
): { readonly version: Version; readonly change: Change } {
  const version: Version = {
    id: around.ids.make(),
    procedure: procedure.id,
    number: last + 1,
    marked: around.clock.now(),
    line,
    place: procedure.place,
    steps,
    parts,
    parameters,
  }
  return { version, change: makeChange(around, 'mark a version', [put('versions', version)]) }
}

export function addRemark(around: Surroundings, step: Step, text: string) {
  const remark: Remark = {
    id: around.ids.make(),
    procedure: step.procedure,
    step: step.id,
    made: around.clock.now(),
    text,
    settled: null,
  }
  return { remark, change: makeChange(around, 'add a remark', [put('remarks', remark)]) }
}

/** Settles a remark, or opens it again. */
export function settleRemark(around: Surroundings, remark: Remark, isSettled = true): Change {
  const settled = isSettled ? around.clock.now() : null
  return makeChange(around, 'settle a remark', [put('remarks', { ...remark, settled }, remark)])
}

export function changeRemark(around: Surroundings, remark: Remark, text: string): Change {
  return makeChange(around, 'change a remark', [put('remarks', { ...remark, text }, remark)])
}

/** What a finding is known by, so that it can be passed over. */
export interface SilencedFinding {
  readonly procedure: ProcedureId
  readonly rule: string
  readonly step: StepId | null
  readonly words: string
}

export function silence(around: Surroundings, finding: SilencedFinding, reason: string) {
  const { procedure, rule, step, words } = finding
  const record: Silence = {
    ...{ id: around.ids.make(), procedure, rule, step, words, reason },
    made: around.clock.now(),
  }
  return { silence: record, change: makeChange(around, 'silence a finding', [put('silences', record)]) }
}

export function hearAgain(around: Surroundings, before: Silence): Change {
  return makeChange(around, 'hear a finding again', [{ op: 'remove', table: 'silences', before }])
}

/** Says why something of the journal has no counterpart in a procedure. */
export function leaveOut(
  around: Surroundings,
  procedure: ProcedureId,
  what: { readonly entry: EntryId; readonly command: readonly Piece[] | null },
  reason: string,
) {
  const record: LeftOut = { id: around.ids.make(), procedure, ...what, reason, made: around.clock.now() }
  return { leftOut: record, change: makeChange(around, 'leave out', [put('leftOut', record)]) }
}

export function takeInAgain(around: Surroundings, before: LeftOut): Change {
  return makeChange(around, 'take in again', [{ op: 'remove', table: 'leftOut', before }])
}

/** Ticks a download off, takes the tick back, or notes its SHA-256. @param known what was said of it before */
export function tickDownload(
  around: Surroundings,
  procedure: ProcedureId,
  item: string,
  known: Fetch | null,
  says: { readonly isFetched: boolean; readonly sha256: string | null },
): Change {
  const fetched = says.isFetched ? (known?.fetched ?? around.clock.now()) : null
  const record: Fetch = { id: known?.id ?? around.ids.make(), procedure, item, fetched, sha256: says.sha256 }
  return makeChange(around, 'tick a download', [put('fetches', record, known)])
}
