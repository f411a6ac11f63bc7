/** The act of carrying, from a place that a person pointed at to a committed Change. */
import { carry, type Carried, type Landing } from '../../shared/distil/carry.ts'
import { settleFragment, type Fragment } from '../../shared/distil/fragment.ts'
import { settleInPast } from '../../shared/distil/settlePast.ts'
import { canLand, entryKindAt, partKindAt, type LandingPlace } from '../../shared/distil/landing.ts'
import { fileOf } from '../../shared/journal/entry-facts.ts'
import { positionAfter } from '../../shared/lab/acts.ts'
import type { ProjectId } from '../../shared/lab/ids.ts'
import type { CarryWay, FileState, Part, StepPartKind } from '../../shared/lab/model.ts'
import { fail, succeed, type Result } from '../../shared/lab/result.ts'
import { landingBehind, levelBehind } from '../../shared/procedure/rows/order.ts'
import type { OpenLab } from '../db/lab.ts'
import { partOfProcedure, partsOfStep, stepsOf, type ProjectView } from './view.ts'

/** Carries a fragment and commits it. Open texts have been cut before, so that what is on the screen is what stands. */
export async function carryTo(
  lab: OpenLab,
  view: ProjectView,
  fragment: Fragment,
  place: LandingPlace,
  way: CarryWay,
): Promise<Result<Carried>> {
  if (fragment.lab !== lab.id)
    return fail(
      'other-lab',
      'These words come from another lab, and nothing crosses between labs. Export them there and bring them in here.',
    )
  if (!canLand(fragment, place))
    return fail(
      'not-rightward',
      'The journal takes words from sources. Carry these into a procedure instead.',
    )
  if (hasFileAlready(view, fragment, place))
    return fail(
      'one-file',
      'This step sets down a file already, and has one at most. Nothing was carried; make a new step of it.',
    )
  const settled = await settle(lab, fragment, way)
  const found = await landingAt(lab, view, view.project, fragment, place)
  const landing: Landing | null = found?.at === 'text' ? { ...found, isPasted: way === 'copy' } : found
  if (!settled || !landing)
    return fail(
      'moved',
      'The words or the place changed meanwhile in another window. Nothing was carried; select them again.',
    )
  const carried = carry(lab.surroundings, settled, landing, way)
  const result = await lab.committer.commit(carried.change)
  return result.ok ? succeed(carried) : result
}

/** What is pasted may have been copied long before the text that it came from was changed; what is pointed at was not. */
async function settle(lab: OpenLab, fragment: Fragment, way: CarryWay): Promise<Fragment | null> {
  const { node } = fragment
  if (node.kind === 'source') return fragment
  const now =
    node.kind === 'capture' ? await lab.queries.findCapture(node.id) : await lab.queries.standing(node.id)
  const settled = now ? settleFragment(fragment, now) : null
  if (settled || !now || node.kind === 'capture' || way !== 'copy') return settled
  return settleInPast(fragment, await lab.queries.revisions(node.id))
}

async function landingAt(
  lab: OpenLab,
  view: ProjectView,
  project: ProjectId,
  fragment: Fragment,
  place: LandingPlace,
): Promise<Landing | null> {
  switch (place.at) {
    case 'journal':
      return { at: 'journal', project, kind: entryKindAt(fragment, place.kind) }
    case 'new step': {
      const { procedure } = place
      const steps = stepsOf(view, procedure)
      const after = place.after ? (view.steps.get(place.after) ?? null) : null
      const level = levelBehind(steps, place.after)
      const position = positionAfter(steps, landingBehind(steps, after, level))
      return { at: 'new step', procedure, position, level, ...kindAt(view, fragment, place.kind) }
    }
    case 'step': {
      const { kind, file } = kindAt(view, fragment, place.kind)
      return landingOnStep(lab, view, place.step, kind, file)
    }
    case 'own': {
      const { procedure, kind } = place
      const part = partOfProcedure(view, procedure, kind)
      if (part) return behindText(lab, part)
      return view.procedures.has(procedure) ? { at: 'new own part', procedure, kind } : null
    }
    case 'text': {
      const part = view.parts.get(place.part)
      const text = await lab.queries.standing(place.part)
      return part && text
        ? { at: 'text', part, text, offset: Math.min(place.offset, text.text.length) }
        : null
    }
  }
}

/** A part that sets down a file needs the file's state; words of an entry that has none are words. */
function kindAt(
  view: ProjectView,
  fragment: Fragment,
  wanted: StepPartKind | undefined,
): { readonly kind: StepPartKind; readonly file: FileState | null } {
  const kind = partKindAt(fragment, wanted)
  if (kind !== 'file') return { kind, file: null }
  const entry = fragment.node.kind === 'entry' ? view.entries.get(fragment.node.id) : undefined
  const file = entry ? fileOf(entry, view.marks.get(entry.id)) : null
  return file ? { kind, file } : { kind: 'do', file: null }
}

function hasFileAlready(view: ProjectView, fragment: Fragment, place: LandingPlace): boolean {
  if (place.at !== 'step' || kindAt(view, fragment, place.kind).kind !== 'file') return false
  return partsOfStep(view, place.step).has('file')
}

/** Behind what the step's part of that kind says already, or as a new part. */
async function landingOnStep(
  lab: OpenLab,
  view: ProjectView,
  id: string,
  kind: StepPartKind,
  file: FileState | null,
): Promise<Landing | null> {
  const step = view.steps.get(id)
  if (!step) return null
  const part = partsOfStep(view, step.id).get(kind)
  return part ? behindText(lab, part) : { at: 'new part', step, kind, file }
}

async function behindText(lab: OpenLab, part: Part): Promise<Landing | null> {
  const text = await lab.queries.standing(part.id)
  return text ? { at: 'text', part, text, offset: text.text.length } : null
}
