/**
 * Carrying: a fragment moves rightward and becomes an entry or a part of a step. The text and the link that says where it
 * came from stand in one Change, so they land together or not at all.
 */
import {
  beginPart,
  entryOperations,
  makeChange,
  newOwnPart,
  newPart,
  newStep,
  put,
  type StandingText,
  type Surroundings,
} from '../lab/acts.ts'
import type { Change, Operation } from '../lab/change.ts'
import type { ProcedureId, ProjectId, RevisionId } from '../lab/ids.ts'
import type {
  CarryWay,
  EntryKind,
  FileState,
  Link,
  LinkEnd,
  Part,
  ProcedurePartKind,
  Range,
  Step,
  StepLevel,
  StepPartKind,
  TextNode,
} from '../lab/model.ts'
import { replacing } from '../lab/text.ts'
import { makeSelector } from '../provenance/selectors.ts'
import { distilForFence, distilForJournal, distilForPart, insertInto, type Distilled } from './distil.ts'
import { fenceAround, type Fragment } from './fragment.ts'

/** Where a fragment lands, with what stands there. */
export type Landing =
  | { readonly at: 'journal'; readonly project: ProjectId; readonly kind: EntryKind }
  | {
      readonly at: 'new step'
      readonly procedure: ProcedureId
      readonly position: string
      /** A step where nothing is said. */
      readonly level?: StepLevel
      readonly kind: StepPartKind
      /** For a part of the kind `file`. */
      readonly file?: FileState | null
    }
  | {
      readonly at: 'new part'
      readonly step: Step
      readonly kind: StepPartKind
      readonly file?: FileState | null
    }
  | { readonly at: 'new own part'; readonly procedure: ProcedureId; readonly kind: ProcedurePartKind }
  | {
      readonly at: 'text'
      readonly part: Part
      readonly text: StandingText
      /** Where in the text, from 0 to its length; at its end unless the person points into it. */
      readonly offset: number
      /** The words were pasted at a cursor: a single line of them stands there, not in a block of its own. */
      readonly isPasted?: boolean
    }

/** What a carry made. */
export interface Carried {
  readonly change: Change
  readonly node: TextNode
  readonly link: Link
  /** The text's revision that holds the words. */
  readonly revision: RevisionId
}

/** Carries a fragment to a landing place. */
export function carry(around: Surroundings, fragment: Fragment, landing: Landing, way: CarryWay): Carried {
  const landed = land(around, fragment, landing)
  const link: Link = {
    id: around.ids.make(),
    made: around.clock.now(),
    way,
    newer: endAt(landed.node, landed.revision, landed.text, landed.ranges),
    older: olderEnd(fragment),
  }
  const act = way === 'copy' ? 'copy' : 'carry'
  const change = makeChange(around, act, [...landed.operations, put('links', link)])
  return { change, link, node: landed.node, revision: landed.revision }
}

interface Landed {
  readonly node: TextNode
  readonly revision: RevisionId
  /** The whole text after landing. */
  readonly text: string
  readonly ranges: readonly Range[]
  readonly operations: readonly Operation[]
}

function land(around: Surroundings, fragment: Fragment, landing: Landing): Landed {
  switch (landing.at) {
    case 'journal':
      return landInJournal(around, distilForJournal(fragment), landing)
    case 'new step': {
      const step = newStep(around, landing.procedure, landing.position, landing.level)
      const part = newPart(around, step, landing.kind, landing.file)
      const landed = landInNewPart(around, distilForPart(fragment), part)
      return { ...landed, operations: [put('steps', step), ...landed.operations] }
    }
    case 'new part':
      return landInNewPart(
        around,
        distilForPart(fragment),
        newPart(around, landing.step, landing.kind, landing.file),
      )
    case 'new own part':
      return landInNewPart(
        around,
        distilForPart(fragment),
        newOwnPart(around, landing.procedure, landing.kind),
      )
    case 'text':
      return landInText(around, fragment, landing)
  }
}

function landInJournal(
  around: Surroundings,
  { text, ranges }: Distilled,
  { project, kind }: Landing & { at: 'journal' },
): Landed {
  const { entry, revision, operations } = entryOperations(around, { project, kind, text })
  return { node: { kind: 'entry', id: entry.id }, revision, text, ranges, operations }
}

function landInNewPart(around: Surroundings, { text, ranges }: Distilled, part: Part): Landed {
  const { revision, operations } = beginPart(around, part, text)
  return { node: { kind: 'part', id: part.id }, revision, text, ranges, operations }
}

function landInText(
  around: Surroundings,
  fragment: Fragment,
  {
    part,
    text: { text: before, revision: fromRevision },
    offset,
    isPasted = false,
  }: Landing & { at: 'text' },
): Landed {
  // A fence within a fence would end it.
  const isInFence = fenceAround(before, { start: offset, end: offset }) !== null
  const distilled = isInFence ? distilForFence(fragment) : distilForPart(fragment)
  const isInline = isInFence || (isPasted && !distilled.text.includes('\n'))
  const inserted = insertInto(before, offset, distilled, isInline)
  const node: TextNode = { kind: 'part', id: part.id }
  const toRevision: RevisionId = around.ids.make()
  const place = { start: offset, end: offset }
  return {
    node,
    revision: toRevision,
    text: before.slice(0, offset) + inserted.text + before.slice(offset),
    ranges: inserted.ranges.map(({ start, end }) => ({ start: start + offset, end: end + offset })),
    operations: [
      {
        op: 'text',
        node,
        fromRevision,
        changeSet: replacing(before.length, place, inserted.text),
        toRevision,
        restores: null,
        ends: false,
      },
    ],
  }
}

function endAt(node: TextNode, revision: RevisionId, text: string, ranges: readonly Range[]): LinkEnd {
  return { node, revision, ranges: ranges.map((range) => makeSelector(text, range)) }
}

function olderEnd({ node, revision, selectors }: Fragment): LinkEnd {
  if (selectors.length > 0 && revision === null)
    throw new Error('a fragment is carried only once it is settled')
  return { node, revision, ranges: selectors }
}

/**
 * Links words that already stand in a text to where they came from: for words that were typed or pasted together with
 * their origin, and for loading what was recorded elsewhere.
 */
export function linkWords(
  around: Surroundings,
  fragment: Fragment,
  newer: {
    readonly node: TextNode
    readonly revision: RevisionId
    readonly text: string
    readonly ranges: readonly Range[]
  },
  way: CarryWay,
): Link {
  return {
    id: around.ids.make(),
    made: around.clock.now(),
    way,
    newer: endAt(newer.node, newer.revision, newer.text, newer.ranges),
    older: olderEnd(fragment),
  }
}
