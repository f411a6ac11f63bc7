/** Mends as Changes: each is one act with one undo. What stands around the mended words keeps its identity, and so its links. */
import {
  beginPart,
  makeChange,
  newPart,
  put,
  type StandingPartText,
  type StandingText,
  type Surroundings,
} from '../../lab/acts.ts'
import type { Change, Operation } from '../../lab/change.ts'
import type { PartId, RevisionId } from '../../lab/ids.ts'
import type { ChangeSetJson, Link, LinkState, Part, Range, Step, StepPartKind } from '../../lab/model.ts'
import { replacing, toChangeSet, toChangeSetJson } from '../../lab/text.ts'
import { makeSelector } from '../../provenance/selectors.ts'
import type { Edit } from './types.ts'

/** Puts other words into texts, edit by edit. @param texts of every part that is edited */
export function mendWords(
  around: Surroundings,
  edits: readonly Edit[],
  texts: readonly StandingPartText[],
): Change {
  const operations = texts.flatMap((text): Operation[] => {
    const own = edits.filter(({ part }) => part === text.part)
    return own.length === 0 ? [] : [textOperation(around, text.part, text, changesOf(text.text.length, own))]
  })
  return makeChange(around, 'mend a finding', operations)
}

/** One after the other from the end, so that places before an edit stay true. */
function changesOf(length: number, edits: readonly Edit[]): ChangeSetJson {
  const last = [...edits].sort((a, b) => b.start - a.start)
  return last.reduce<ChangeSetJson>(
    (all, edit) => {
      const before = toChangeSet(all)
      const one = toChangeSet(replacing(before.newLength, edit, edit.insert))
      return toChangeSetJson(before.compose(one))
    },
    [length],
  )
}

/** A part that a step has, with its text. */
export interface StandingOfStep extends StandingText {
  readonly part: Part
}

/** Gives a step a part of a kind with words in it; where one stands empty, they go into it. */
export function mendByPart(
  around: Surroundings,
  step: Step,
  kind: StepPartKind,
  text: string,
  standing: StandingOfStep | null,
): Change {
  const landed = landWords(around, step, kind, text, standing)
  return makeChange(around, 'mend a finding', landed.operations)
}

/** A link that leads from the part which words leave, with where its words stand there. */
export interface LinkInPart {
  readonly link: Link
  readonly state: LinkState
}

/**
 * Moves words of a step's part to its caution, to the end of what stands there. Where they came from goes along: each link
 * whose words are among them gets a second one, from the caution to the same older end. The first stays, as a record.
 */
export function moveToCaution(
  around: Surroundings,
  step: Step,
  from: StandingPartText,
  range: Range,
  links: readonly LinkInPart[],
  caution: StandingOfStep | null,
): Change {
  const words = from.text.slice(range.start, range.end)
  const landed = landWords(around, step, 'caution', words, caution)
  const leaving = replacing(from.text.length, withGap(from.text, range), '')
  const moved = links.flatMap(({ link, state }) => {
    const places = state.newer.places.flatMap((place) => within(place, range))
    if (places.length === 0) return []
    const ranges = places.map(({ start, end }) =>
      makeSelector(landed.text, { start: start + landed.start, end: end + landed.start }),
    )
    const record: Link = {
      id: around.ids.make(),
      made: around.clock.now(),
      way: 'button',
      newer: { node: { kind: 'part', id: landed.part }, revision: landed.revision, ranges },
      older: link.older,
    }
    return [put('links', record)]
  })
  return makeChange(around, 'mend a finding', [
    ...landed.operations,
    textOperation(around, from.part, from, leaving),
    ...moved,
  ])
}

/** What of a place lies within a range, counted from the range's start. */
function within(place: Range | null, range: Range): Range[] {
  if (!place) return []
  const start = Math.max(place.start, range.start) - range.start
  const end = Math.min(place.end, range.end) - range.start
  return start < end ? [{ start, end }] : []
}

/** A paragraph leaves with the blank lines behind it, or before it where it is the last. */
function withGap(text: string, { start, end }: Range): Range {
  const behind = /^\s*\n\s*/u.exec(text.slice(end))?.[0].length ?? 0
  if (behind > 0) return { start, end: end + behind }
  const isLast = text.slice(end).trim() === ''
  const before = isLast ? /\s*$/u.exec(text.slice(0, start))![0].length : 0
  return { start: start - before, end: isLast ? text.length : end }
}

interface Landed {
  readonly part: PartId
  readonly revision: RevisionId
  /** The whole text then, and where the words begin in it. */
  readonly text: string
  readonly start: number
  readonly operations: readonly Operation[]
}

function landWords(
  around: Surroundings,
  step: Step,
  kind: StepPartKind,
  words: string,
  standing: StandingOfStep | null,
): Landed {
  if (!standing) {
    const part = newPart(around, step, kind)
    const { revision, operations } = beginPart(around, part, words)
    return { part: part.id, revision, text: words, start: 0, operations }
  }
  const { part, text } = standing
  const kept = text.trimEnd()
  const gap = kept === '' ? '' : '\n\n'
  const changes = replacing(text.length, { start: kept.length, end: text.length }, gap + words)
  const operation = textOperation(around, part.id, standing, changes)
  const start = kept.length + gap.length
  return {
    part: part.id,
    revision: operation.toRevision,
    text: kept + gap + words,
    start,
    operations: [operation],
  }
}

function textOperation(
  around: Surroundings,
  part: PartId,
  { revision }: StandingText,
  changeSet: ChangeSetJson,
): Operation & { op: 'text' } {
  const toRevision: RevisionId = around.ids.make()
  return {
    ...{ op: 'text', node: { kind: 'part', id: part }, fromRevision: revision, changeSet, toRevision },
    ...{ restores: null, ends: false },
  }
}
