/** Joining a step with the one behind it. One Change. */
import { endText, makeChange, put, writeText, type StandingText, type Surroundings } from '../../lab/acts.ts'
import type { Change, Operation } from '../../lab/change.ts'
import type { PartId, StepId } from '../../lab/ids.ts'
import { stepLevels, type Part, type Place, type Remark, type Step } from '../../lab/model.ts'
import { fail, succeed, type Result } from '../../lab/result.ts'
import { replacing, replacingEach } from '../../lab/text.ts'
import { linksGoAlong, type StandingLink } from '../../provenance/moving.ts'
import { isSamePlace } from '../rows/places.ts'
import { stepLinksIn } from '../rows/step-links.ts'

/** A row as far as it says whether it can be joined. */
export interface Joinable {
  readonly step: Step
  readonly parts: readonly { readonly part: Part }[]
  /** Where the step happens, said there or before; null where nothing is said. */
  readonly place: Place | null
}

/** A part with its text and all links that have an end at it. */
export interface JoiningPart {
  readonly part: Part
  readonly text: StandingText
  readonly links: readonly StandingLink[]
}

export interface Joining extends Joinable {
  readonly parts: readonly JoiningPart[]
}

/** A part of any row that speaks of a step. */
export interface Referring {
  readonly part: PartId
  readonly text: StandingText
}

const between = '\n\n'

/**
 * Joins the row behind into a step. A text goes behind the one of its kind, a part of which the step has none goes over as it
 * is. What stood under the row stands under the step. Words keep their links, remarks go along, and
 * references to the row behind lead to the step.
 * @param second the row right behind, which goes
 * @param referring the parts of other rows whose texts may refer to it
 */
export function joinSteps(
  around: Surroundings,
  first: Joining,
  second: Joining,
  remarks: readonly Remark[],
  referring: readonly Referring[] = [],
): Result<Change> {
  const why = whyNotJoin(first, second)
  if (why !== null) return fail('not-joined', why)
  const own = new Map(first.parts.map((one) => [one.part.kind, one]))
  const [met, unmet] = [
    second.parts.filter(({ part }) => own.has(part.kind)),
    second.parts.filter(({ part }) => !own.has(part.kind)),
  ]
  // A link between two texts that both go over goes along once.
  const gone = new Set<string>()
  const joined = met.map((one) => joinTexts(around, own.get(one.part.kind)!, one, gone))
  const { step } = first
  const kept = first.parts.filter(({ part }) => joined.every(({ target }) => target.node.id !== part.id))
  // As they stand once the texts are joined.
  const standing: Referring[] = [
    ...referring,
    ...[...kept, ...unmet].map(({ part, text }) => ({ part: part.id, text })),
    ...joined.map(({ target: { node, revision, text } }) => ({ part: node.id, text: { revision, text } })),
  ]
  const isNoReturn = second.step.pointOfNoReturn && !step.pointOfNoReturn
  return succeed(
    makeChange(around, 'join steps', [
      ...unmet.map(({ part }) => put('parts', { ...part, step: step.id } as Part, part)),
      ...joined.map(({ write }) => write),
      // A link joins things that stand: the old ones go before their parts, and so come back behind them.
      ...joined.flatMap(({ links }) => links),
      ...met.flatMap((one) => endingOf(around, one)),
      ...remarks.map((remark) => put('remarks', { ...remark, step: step.id }, remark)),
      ...(isNoReturn ? [put('steps', { ...step, pointOfNoReturn: true }, step)] : []),
      ...standing.flatMap((one) => referenceFollows(around, one, second.step.id, step.id)),
      { op: 'remove', table: 'steps', before: second.step },
    ]),
  )
}

/** Why two rows cannot be one, or null where they can. */
export function whyNotJoin(first: Joinable, second: Joinable): string | null {
  if (first.step.level === 'section' || second.step.level === 'section')
    return 'A section is a heading over steps and joins with none. Nothing was changed.'
  if (stepLevels.indexOf(second.step.level) < stepLevels.indexOf(first.step.level))
    return 'A step does not join a sub-step. Make them rows of one level first; nothing was changed.'
  const hasFile = ({ parts }: Joinable): boolean => parts.some(({ part }) => part.kind === 'file')
  if (hasFile(first) && hasFile(second))
    return 'Both set down a file, and a step has one at most. Nothing was changed.'
  if (second.step.place && !isSamePlace(first.place, second.place))
    return 'They happen at different places. Say one place for both first; nothing was changed.'
  return null
}

/** The operations by which a text goes behind another one. @param gone links that went along already; those that go are added */
function joinTexts(around: Surroundings, first: JoiningPart, second: JoiningPart, gone: Set<string>) {
  const before = first.text.text
  const separator = before === '' || second.text.text === '' ? '' : between
  const inserted = separator + second.text.text
  const node = { kind: 'part', id: first.part.id } as const
  const revision = around.ids.make<never>()
  const target = {
    node,
    revision,
    text: before + inserted,
    stretch: { start: 0, end: second.text.text.length },
    offset: before.length + separator.length,
  }
  const write: Operation = {
    op: 'text',
    node,
    fromRevision: first.text.revision,
    changeSet: replacing(before.length, { start: before.length, end: before.length }, inserted),
    toRevision: revision,
    restores: null,
    ends: false,
  }
  const from = { node: second.part.id, text: second.text.text }
  const links = second.links.filter(({ link }) => !gone.has(link.id))
  const moved = linksGoAlong(around, from, links, [target], target)
  for (const one of moved) if (one.op === 'remove' && one.table === 'links') gone.add(one.before.id)
  // Links from the part that goes of which no word is left there go with it; the past keeps them.
  const lost = links.filter(({ link }) => link.newer.node.id === second.part.id && !gone.has(link.id))
  for (const { link } of lost) gone.add(link.id)
  const removed = lost.map(({ link }): Operation => ({ op: 'remove', table: 'links', before: link }))
  return { write, target, links: [...moved, ...removed] }
}

const endingOf = (around: Surroundings, { part, text }: JoiningPart): Operation[] => [
  endText(around, { kind: 'part', id: part.id }, text),
  { op: 'remove', table: 'parts', before: part },
]

/**
 * Has a part go to another step of its procedure: behind the text of its kind where there is one, else as it is.
 * @param own the part of its kind that the step has
 */
export function movePart(
  around: Surroundings,
  moving: JoiningPart,
  to: Step,
  own: JoiningPart | null,
): Result<Change> {
  const { part } = moving
  const why = whyNotMovePart(part, to, own !== null)
  if (why !== null) return fail('not-moved', `${why} Nothing was changed.`)
  if (!own)
    return succeed(makeChange(around, 'move words', [put('parts', { ...part, step: to.id } as Part, part)]))
  const { write, links } = joinTexts(around, own, moving, new Set())
  return succeed(makeChange(around, 'move words', [write, ...links, ...endingOf(around, moving)]))
}

/** Why a part cannot go to a step, or null where it can. @param hasOwn whether the step has one of its kind */
export function whyNotMovePart(part: Part, to: Step, hasOwn: boolean): string | null {
  if (part.step === null || part.kind === 'heading') return 'It belongs to where it stands.'
  if (to.level === 'section') return 'A section is a heading over steps and has no other parts.'
  if (part.step === to.id) return 'It stands there already.'
  return part.kind === 'file' && hasOwn ? 'The step sets down a file, and has one at most.' : null
}

/** Has the references in a text lead to another step; none where it has none. */
function referenceFollows(around: Surroundings, { part, text }: Referring, from: StepId, to: StepId) {
  const places = stepLinksIn(text.text)
    .filter(({ step }) => step === from)
    .map(({ end }) => text.text.lastIndexOf(from, end))
  if (places.length === 0) return []
  const ranges = places.map((start) => ({ start, end: start + from.length }))
  const changeSet = replacingEach(text.text.length, ranges, to)
  return writeText(around, { kind: 'part', id: part }, text.revision, changeSet).change.operations
}
