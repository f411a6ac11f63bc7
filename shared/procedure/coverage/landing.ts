/** Where in a procedure an omission belongs, and what carrying it there does. */
import { carry, type Carried } from '../../distil/carry.ts'
import { pickFragment, settleFragment, type Fragment } from '../../distil/fragment.ts'
import { compareSteps, positionAfter, put, type StandingText, type Surroundings } from '../../lab/acts.ts'
import type { Operation } from '../../lab/change.ts'
import type { LabId, StepId } from '../../lab/ids.ts'
import type { CarryWay, Entry, FileState, Place, Procedure, Range, Step } from '../../lab/model.ts'
import { fail, succeed, type Failure, type Result } from '../../lab/result.ts'
import { placeKept, placeToSay } from '../draft/accept.ts'
import { landingBehind, levelBehind } from '../rows/order.ts'
import { rowPlaces } from '../rows/places.ts'
import type { Near } from './rank.ts'

/**
 * The row behind which an omission belongs: the step of the covered deed before it; else before that of the one behind it;
 * else at the end. Of several steps that hold the same the last that comes before those of the one behind.
 * @returns null for the head
 */
export function rowBefore({ before, behind }: Near, steps: readonly Step[]): StepId | null {
  const order = [...steps].sort(compareSteps)
  const placesOf = (ids: readonly string[]): number[] =>
    ids.map((id) => order.findIndex((step) => step.id === id)).filter((at) => at >= 0)
  const [low, high] = [placesOf(before), placesOf(behind)]
  if (low.length > 0) {
    const fitting = low.filter((at) => at < Math.max(...high, -1))
    return order[Math.max(...(fitting.length > 0 ? fitting : low))]!.id
  }
  if (high.length > 0) return order[Math.min(...high) - 1]?.id ?? null
  return order.at(-1)?.id ?? null
}

/** What is carried over. */
export interface CarriedOmission {
  readonly lab: LabId
  readonly entry: Entry
  /** The entry's text as it stands. */
  readonly standing: StandingText
  /** The command in it, or all of a file's. */
  readonly range: Range
  /** Where it was done; null where that is not known. */
  readonly place: Place | null
  /** Of a file entry. */
  readonly file: FileState | null
}

/** Where it goes. */
export interface OmissionTarget {
  readonly procedure: Procedure
  /** All of the procedure, in any order. */
  readonly steps: readonly Step[]
  /** The row behind which it comes; null for the head. */
  readonly after: Step | null
}

/**
 * A new step of an omission, with its link, as if it was carried by hand. Its place is said where it differs from that of
 * the row before, and the row behind keeps the place that it had.
 */
export function carryOmission(
  around: Surroundings,
  omission: CarriedOmission,
  { procedure, steps, after }: OmissionTarget,
  way: CarryWay,
): Result<Carried, Failure<'changed'>> {
  const fragment = fragmentOf(omission)
  if (!fragment) return fail('changed', 'The entry was amended meanwhile. Nothing was carried.')
  const level = levelBehind(steps, after?.id ?? null)
  const low = landingBehind(steps, after, level)
  const position = positionAfter(steps, low)
  const kind = omission.file ? 'file' : 'do'
  const landing = {
    at: 'new step',
    procedure: procedure.id,
    position,
    level,
    kind,
    file: omission.file,
  } as const
  const carried = carry(around, fragment, landing, way)
  const places = rowPlaces(procedure, steps)
  const here = low ? (places.get(low.id)?.place ?? null) : procedure.place
  const place = placeToSay(here, omission.place)
  const order = [...steps].sort(compareSteps)
  const next = order[low ? order.findIndex(({ id }) => id === low.id) + 1 : 0] ?? null
  const was = next ? (places.get(next.id)?.place ?? null) : null
  const operations = carried.change.operations.map((one): Operation =>
    one.op === 'put' && one.table === 'steps' ? put('steps', { ...one.record, place }) : one,
  )
  const kept = placeKept(next, was, omission.place ?? here)
  return succeed({ ...carried, change: { ...carried.change, operations: [...operations, ...kept] } })
}

const ofShell = /^(?:sh|bash|zsh|ksh|dash|fish|shell|shellscript)\b/u

/** A command stands in a fence of its own, however it was written down: so that it is one in the procedure too. */
function fragmentOf({ lab, entry, standing, range, file }: CarriedOmission): Fragment | null {
  const picked = pickFragment(
    {
      ...{ lab, node: { kind: 'entry', id: entry.id }, revision: null, title: '', address: null },
      ...{ origin: { kind: 'entry', entryKind: entry.kind }, text: standing.text },
    },
    [range],
  )
  const settled = picked && settleFragment(picked, standing)
  if (!settled || file) return settled
  return { ...settled, fence: ofShell.test(settled.fence ?? '') ? settled.fence : 'sh' }
}
