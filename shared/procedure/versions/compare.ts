/** Two versions of a procedure, row by row. Rows, parts and parameters are known by their ids. */
import { diffArrays } from 'diff'
import { compareSteps } from '../../lab/acts.ts'
import { isSame } from '../../lab/fields.ts'
import type { RevisionId } from '../../lab/ids.ts'
import type { Parameter, Part, Place, Step, Version } from '../../lab/model.ts'
import { compareTexts, type Difference } from '../../sources/difference.ts'

/** A procedure as it stood or stands, with its texts. */
export interface Stated {
  readonly place: Place | null
  readonly steps: readonly Step[]
  readonly parts: readonly StatedPart[]
  readonly parameters: readonly Parameter[]
}

export interface StatedPart {
  readonly part: Part
  readonly text: string
}

/** A version with the texts of the revisions that it names. @param textOf of a revision, which stands in the lab */
export function toStated(
  { place, steps, parts, parameters }: Version,
  textOf: (revision: RevisionId) => string,
): Stated {
  return {
    ...{ place, steps, parameters },
    parts: parts.map(({ part, revision }) => ({ part, text: textOf(revision) })),
  }
}

export interface PartDifference {
  readonly fate: 'added' | 'removed' | 'changed'
  /** As it is in the newer one, else in the older one. */
  readonly part: Part
  /** Word by word. */
  readonly words: Difference
  /** Whether its path, owner or mode is another. */
  readonly isFileChanged: boolean
}

export interface RowDifference {
  /** `kept`: nothing is other, but that it may have moved. */
  readonly fate: 'added' | 'removed' | 'changed' | 'kept'
  readonly step: Step
  /** It stands in another order than the rows that stayed. */
  readonly isMoved: boolean
  readonly parts: readonly PartDifference[]
  /** What was said of its place, level and point of no return, where one of them is other; null where not. */
  readonly said: { readonly before: Step; readonly after: Step } | null
}

export interface ParameterDifference {
  readonly fate: 'added' | 'removed' | 'changed'
  readonly before: Parameter | null
  readonly after: Parameter | null
  /** Names of the fields that are other. */
  readonly fields: readonly (keyof Parameter)[]
}

export interface VersionDifference {
  /** In the newer order; removed rows stand behind the row that they stood behind. */
  readonly rows: readonly RowDifference[]
  /** Of the procedure's own parts. */
  readonly parts: readonly PartDifference[]
  readonly parameters: readonly ParameterDifference[]
  /** Where the first step happens, where that is other; null where not. */
  readonly place: { readonly before: Place | null; readonly after: Place | null } | null
  readonly isSame: boolean
}

/** @param a the older one @param b the newer one */
export function compareVersions(a: Stated, b: Stated): VersionDifference {
  const rows = rowsOf(a, b)
  const parts = partsOf(a.parts.filter(isOwn), b.parts.filter(isOwn))
  const parameters = parametersOf(a.parameters, b.parameters)
  const place = isSame(a.place, b.place) ? null : { before: a.place, after: b.place }
  const areRowsSame = rows.every(({ fate, isMoved }) => fate === 'kept' && !isMoved)
  return {
    ...{ rows, parts, parameters, place },
    isSame: areRowsSame && parts.length === 0 && parameters.length === 0 && place === null,
  }
}

/** How the working copy differs from a version. */
export function differenceFromLast(
  standing: Stated,
  version: Version,
  textOf: (revision: RevisionId) => string,
): VersionDifference {
  return compareVersions(toStated(version, textOf), standing)
}

const isOwn = ({ part }: StatedPart): boolean => part.step === null

function rowsOf(a: Stated, b: Stated): RowDifference[] {
  const [older, newer] = [a, b].map(({ steps }) => [...steps].sort(compareSteps)) as [Step[], Step[]]
  const stays = stayingIds(older, newer)
  const before = new Map(older.map((step) => [step.id, step]))
  const after = new Set(newer.map(({ id }) => id))
  const rows = newer.map((step) => rowOf(before.get(step.id) ?? null, step, a, b, stays))
  for (const [n, step] of older.entries()) {
    if (after.has(step.id)) continue
    const behind = older[n - 1]
    const at = behind ? rows.findIndex((row) => row.step.id === behind.id) + 1 : 0
    rows.splice(at, 0, {
      ...{ fate: 'removed', step, isMoved: false, said: null },
      parts: partsOf(partsAt(a, step), []),
    })
  }
  return rows
}

/** The rows of both that did not move: as many as can keep their order. */
function stayingIds(older: readonly Step[], newer: readonly Step[]): ReadonlySet<string> {
  const ids = (steps: readonly Step[], others: readonly Step[]): string[] =>
    steps.filter(({ id }) => others.some((other) => other.id === id)).map(({ id }) => id)
  const parts = diffArrays(ids(older, newer), ids(newer, older))
  return new Set(parts.flatMap(({ added, removed, value }) => (added || removed ? [] : value)))
}

function rowOf(
  before: Step | null,
  after: Step,
  a: Stated,
  b: Stated,
  stays: ReadonlySet<string>,
): RowDifference {
  const parts = partsOf(before ? partsAt(a, before) : [], partsAt(b, after))
  if (!before) return { fate: 'added', step: after, isMoved: false, parts, said: null }
  const said = isSame(saysOf(before), saysOf(after)) ? null : { before, after }
  const fate = parts.length > 0 || said ? 'changed' : 'kept'
  return { fate, step: after, isMoved: !stays.has(after.id), parts, said }
}

const saysOf = ({ place, level, pointOfNoReturn }: Step) => ({ place, level, pointOfNoReturn })

const partsAt = ({ parts }: Stated, { id }: Step): StatedPart[] =>
  parts.filter(({ part }) => part.step === id)

function partsOf(older: readonly StatedPart[], newer: readonly StatedPart[]): PartDifference[] {
  const before = new Map(older.map((one) => [one.part.id, one]))
  const after = new Set(newer.map(({ part }) => part.id))
  const gone = older.filter(({ part }) => !after.has(part.id))
  return [
    ...gone.map((one) => partDifference('removed', one, { ...one, text: '' })),
    ...newer.flatMap((one) => {
      const was = before.get(one.part.id)
      if (!was) return [partDifference('added', { ...one, text: '' }, one)]
      return was.text === one.text && isSame(was.part.file, one.part.file)
        ? []
        : [partDifference('changed', was, one)]
    }),
  ]
}

function partDifference(fate: PartDifference['fate'], was: StatedPart, is: StatedPart): PartDifference {
  return {
    fate,
    part: is.part,
    words: compareTexts(was.text, is.text),
    isFileChanged: !isSame(was.part.file, is.part.file),
  }
}

function parametersOf(older: readonly Parameter[], newer: readonly Parameter[]): ParameterDifference[] {
  const before = new Map(older.map((one) => [one.id, one]))
  const after = new Set(newer.map(({ id }) => id))
  return [
    ...newer.flatMap((one): ParameterDifference[] => {
      const was = before.get(one.id)
      if (!was) return [{ fate: 'added', before: null, after: one, fields: [] }]
      const fields = (Object.keys(one) as (keyof Parameter)[]).filter(
        (field) => !isSame(was[field], one[field]),
      )
      return fields.length > 0 ? [{ fate: 'changed', before: was, after: one, fields }] : []
    }),
    ...older
      .filter(({ id }) => !after.has(id))
      .map((one): ParameterDifference => ({ fate: 'removed', before: one, after: null, fields: [] })),
  ]
}
