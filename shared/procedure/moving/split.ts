/** Splitting a step in two at a place in one of its texts. One Change. */
import {
  beginText,
  makeChange,
  newPart,
  newStep,
  positionAfter,
  put,
  type StandingText,
  type Surroundings,
} from '../../lab/acts.ts'
import type { Change } from '../../lab/change.ts'
import { stepPartKinds, type Part, type Step } from '../../lab/model.ts'
import { fail, succeed, type Result } from '../../lab/result.ts'
import { replacing } from '../../lab/text.ts'
import { linksGoAlong, type StandingLink } from '../../provenance/moving.ts'
import { fenceOpenAt } from './fence.ts'

export interface Splitting {
  readonly step: Step
  /** All rows of the procedure, in any order. */
  readonly steps: readonly Step[]
  /** All parts of the step. */
  readonly parts: readonly Part[]
  /** The one of them that is split, with its text as it stands. */
  readonly part: Part
  readonly text: StandingText
  /** A place in the text, from 0 to its length. */
  readonly at: number
  /** All with an end at the part. */
  readonly links: readonly StandingLink[]
}

export interface Split {
  readonly change: Change
  readonly step: Step
  /** The part of the new step that holds what stood behind the place. */
  readonly part: Part
}

/**
 * Makes a step of what stands behind a place: the rest of the text, and the parts that are read behind it. Sub-steps stand
 * behind the step and so come under the new one. Blanks at the place go, and a code fence that is split is closed and opened
 * again. Words keep their links; those of a link that is split are linked from both steps, each to what it quotes.
 */
export function splitStep(around: Surroundings, splitting: Splitting): Result<Split> {
  const { step, steps, parts, part, text, at, links } = splitting
  const why = whyNotSplit(part, parts, text.text, at)
  if (why !== null || part.step !== step.id)
    return fail('nothing-to-split', `${why ?? 'The text belongs to another step.'} Nothing was changed.`)
  const place = placeOfSplit(text.text, at)
  const behind = partsBehind(part, parts)
  const made = newStep(around, step.procedure, positionAfter(steps, step), step.level)
  const next = newPart(around, made, part.kind, part.kind === 'file' ? part.file : null)
  const rest = place.opening + text.text.slice(place.restStart)
  const kept = text.text.slice(0, place.keptEnd) + place.closing
  const node = { kind: 'part', id: part.id } as const
  const [begin, revision] = [beginText(around, { kind: 'part', id: next.id }, rest), around.ids.make<never>()]
  const goAlong = linksGoAlong(
    around,
    { node: part.id, text: text.text },
    links,
    [
      { node, revision, text: kept, stretch: { start: 0, end: place.keptEnd }, offset: 0 },
      {
        node: begin.node,
        revision: begin.toRevision,
        text: rest,
        stretch: { start: place.restStart, end: text.text.length },
        offset: place.opening.length,
      },
    ],
    null,
  )
  const change = makeChange(around, 'split a step', [
    put('steps', made),
    put('parts', next),
    begin,
    {
      op: 'text',
      node,
      fromRevision: text.revision,
      changeSet: replacing(text.text.length, { start: place.keptEnd, end: text.text.length }, place.closing),
      toRevision: revision,
      restores: null,
      ends: false,
    },
    ...behind.map((one) => put('parts', { ...one, step: made.id } as Part, one)),
    ...goAlong,
  ])
  return succeed({ change, step: made, part: next })
}

/** Why a part cannot be split at a place of its text, or null where it can. @param parts all of its step */
export function whyNotSplit(part: Part, parts: readonly Part[], text: string, at: number): string | null {
  if (part.step === null || part.kind === 'heading') return 'Only the text of a step can be split.'
  const { keptEnd, restStart } = placeOfSplit(text, at)
  if (keptEnd === 0) return 'Nothing stands before the cursor that could be a step of its own.'
  if (restStart < text.length || partsBehind(part, parts).length > 0) return null
  return 'Nothing stands behind the cursor that could be a step of its own.'
}

const partsBehind = (part: Part, parts: readonly Part[]): Part[] =>
  parts.filter(({ kind }) => orderOf(kind) > orderOf(part.kind))

const orderOf = (kind: Part['kind']): number => (stepPartKinds as readonly string[]).indexOf(kind)

/** Where the two texts end and begin, and what closes and opens a fence that the place is in. */
function placeOfSplit(text: string, at: number) {
  const fence = fenceOpenAt(text, at)
  // In code, indentation means something: whole lines go, and a line that is split is split where the cursor is.
  const [before, after] = fence ? [/\n*$/u, /^\n*/u] : [/\s*$/u, /^\s*/u]
  const keptEnd = at - (before.exec(text.slice(0, at))?.[0].length ?? 0)
  const restStart = at + (after.exec(text.slice(at))?.[0].length ?? 0)
  return {
    keptEnd,
    restStart,
    closing: fence ? `\n${fence.mark}` : '',
    opening: fence ? `${fence.mark}${fence.info}\n` : '',
  }
}
