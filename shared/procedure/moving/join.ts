/** Joining a step with the one behind it. One Change. */
import { endText, makeChange, put, type StandingText, type Surroundings } from '../../lab/acts.ts'
import type { Change, Operation } from '../../lab/change.ts'
import { stepLevels, type Part, type Place, type Remark, type Step } from '../../lab/model.ts'
import { fail, succeed, type Result } from '../../lab/result.ts'
import { replacing } from '../../lab/text.ts'
import { linksGoAlong, type StandingLink } from '../../provenance/moving.ts'
import { isSamePlace } from '../rows/places.ts'

/** A part with its text and all links that have an end at it. */
export interface JoiningPart {
  readonly part: Part
  readonly text: StandingText
  readonly links: readonly StandingLink[]
}

export interface Joining {
  readonly step: Step
  readonly parts: readonly JoiningPart[]
  /** Where the step happens, said there or before; null where nothing is said. */
  readonly place: Place | null
}

const between = '\n\n'

/**
 * Joins the row behind into a step. A text goes behind the one of its kind, a part of which the step has none goes over as it
 * is. What stood under the row stands under the step. Words keep their links, and remarks go along.
 * @param second the row right behind, which goes
 */
export function joinSteps(
  around: Surroundings,
  first: Joining,
  second: Joining,
  remarks: readonly Remark[],
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
  const isNoReturn = second.step.pointOfNoReturn && !step.pointOfNoReturn
  return succeed(
    makeChange(around, 'join steps', [
      ...unmet.map(({ part }) => put('parts', { ...part, step: step.id } as Part, part)),
      ...joined.map(({ write }) => write),
      // A link joins things that stand: the old ones go before their parts, and so come back behind them.
      ...joined.flatMap(({ links }) => links),
      ...met.flatMap(({ part, text }): Operation[] => [
        endText(around, { kind: 'part', id: part.id }, text),
        { op: 'remove', table: 'parts', before: part },
      ]),
      ...remarks.map((remark) => put('remarks', { ...remark, step: step.id }, remark)),
      ...(isNoReturn ? [put('steps', { ...step, pointOfNoReturn: true }, step)] : []),
      { op: 'remove', table: 'steps', before: second.step },
    ]),
  )
}

/** Why two rows cannot be one, or null where they can. */
export function whyNotJoin(first: Joining, second: Joining): string | null {
  if (first.step.level === 'section' || second.step.level === 'section')
    return 'A section is a heading over steps and joins with none. Nothing was changed.'
  if (stepLevels.indexOf(second.step.level) < stepLevels.indexOf(first.step.level))
    return 'A step does not join a sub-step. Make them rows of one level first; nothing was changed.'
  const hasFile = ({ parts }: Joining): boolean => parts.some(({ part }) => part.kind === 'file')
  if (hasFile(first) && hasFile(second))
    return 'Both set down a file, and a step has one at most. Nothing was changed.'
  if (second.step.place && !isSamePlace(first.place, second.place))
    return 'They happen at different places. Say one place for both first; nothing was changed.'
  return null
}

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
  return { write, links: [...moved, ...removed] }
}
