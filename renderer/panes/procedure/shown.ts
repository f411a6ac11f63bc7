/** A procedure as its pane shows it, worked out from the project's view. Pure. */
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import {
  procedurePartKinds,
  stepPartKinds,
  type Link,
  type LinkState,
  type Part,
  type Place,
  type ProcedurePartKind,
  type Step,
  type StepPartKind,
} from '../../../shared/lab/model.ts'
import { rowNumbers } from '../../../shared/procedure/rows/numbers.ts'
import { isSamePlace, rowPlaces, type RowPlace } from '../../../shared/procedure/rows/places.ts'
import { partOfProcedure, stepsOf, type ProjectView } from '../../store/view.ts'
import { nameOfOlder } from './words.ts'

export interface ShownLink {
  readonly link: Link
  readonly state: LinkState | undefined
  /** What it leads to, in a few words. */
  readonly name: string
}

export interface ShownPart {
  readonly part: Part
  readonly text: string
  /** What it came from, oldest link first. */
  readonly links: readonly ShownLink[]
}

export interface ShownStep {
  readonly step: Step
  /** `3`, or `3.1` for a sub-step; empty for a section. */
  readonly number: string
  readonly place: RowPlace
  /** In the order of reading, as `stepPartKinds` has it; of a section its heading alone. */
  readonly parts: readonly ShownPart[]
}

export interface ShownProcedure {
  readonly id: ProcedureId
  readonly title: ShownPart | null
  readonly purpose: ShownPart | null
  /** All parts of the procedure itself, title and purpose among them, in the order in which they are shown. */
  readonly own: readonly ShownPart[]
  /** Where it begins; null where nothing is said. */
  readonly place: Place | null
  /** Sections, steps and sub-steps in one order. */
  readonly steps: readonly ShownStep[]
}

/** What the pane shows of a procedure; null where it does not stand. */
export function toShownProcedure(view: ProjectView, id: ProcedureId): ShownProcedure | null {
  const procedure = view.procedures.get(id)
  if (!procedure) return null
  const links = groupLinks(view)
  const parts = groupParts(view, id)
  const steps = stepsOf(view, id)
  const numbers = rowNumbers(steps)
  const places = rowPlaces(procedure, steps)
  const show = (part: Part): ShownPart => toShownPart(view, part, links)
  const own = inOrder(parts.get(null) ?? [], procedurePartKinds).map(show)
  const ownOf = (kind: ProcedurePartKind) => own.find(({ part }) => part.kind === kind) ?? null
  return {
    id,
    title: ownOf('title'),
    purpose: ownOf('purpose'),
    own,
    place: procedure.place,
    steps: steps.map((step) => ({
      step,
      number: numbers.get(step.id)!,
      place: places.get(step.id)!,
      parts: inOrder(parts.get(step.id) ?? [], stepPartKinds).map(show),
    })),
  }
}

function toShownPart(view: ProjectView, part: Part, links: ReadonlyMap<string, Link[]>): ShownPart {
  return {
    part,
    text: view.texts.get(part.id) ?? '',
    links: (links.get(part.id) ?? []).map((link) => ({
      link,
      state: view.states.get(link.id),
      name: nameOfOlder(view, link),
    })),
  }
}

function groupLinks(view: ProjectView): Map<string, Link[]> {
  return groupBy(view.links.values(), (link) => link.newer.node.id)
}

function groupParts(view: ProjectView, id: ProcedureId): Map<string | null, Part[]> {
  const parts = [...view.parts.values()].filter((part) => part.procedure === id)
  return groupBy(parts, (part) => part.step)
}

function groupBy<T, K>(things: Iterable<T>, keyOf: (thing: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>()
  for (const thing of things) {
    const group = groups.get(keyOf(thing))
    if (group) group.push(thing)
    else groups.set(keyOf(thing), [thing])
  }
  return groups
}

function inOrder(parts: readonly Part[], kinds: readonly Part['kind'][]): Part[] {
  const place = (part: Part): number => kinds.indexOf(part.kind)
  return [...parts].sort((a, b) => place(a) - place(b) || (a.id < b.id ? -1 : 1))
}

/** The kinds of part that a step does not have yet. */
export function missingKinds({ parts }: Pick<ShownStep, 'parts'>): Exclude<StepPartKind, 'heading'>[] {
  return stepPartKinds.filter(
    (kind): kind is Exclude<StepPartKind, 'heading'> =>
      kind !== 'heading' && parts.every(({ part }) => part.kind !== kind),
  )
}

/** The kinds of part that the procedure itself does not have yet. */
export function missingOwnKinds({ own }: Pick<ShownProcedure, 'own'>): ProcedurePartKind[] {
  return procedurePartKinds.filter((kind) => own.every(({ part }) => part.kind !== kind))
}

/** Parts of the procedure itself that stand behind the steps. */
export function standsBehind(kind: Part['kind']): boolean {
  return kind === 'closing checks' || kind === 'how to undo'
}

/** The part of a step that holds its main words: do, or else the first that it has. */
export function mainPartOf({ parts }: Pick<ShownStep, 'parts'>): ShownPart | undefined {
  return parts.find(({ part }) => part.kind === 'do') ?? parts[0]
}

/** The procedures of a project with their titles, in the order in which they were begun. */
export function titledProcedures(view: ProjectView): { readonly id: ProcedureId; readonly title: string }[] {
  return [...view.procedures.values()]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map(({ id }) => {
      const title = partOfProcedure(view, id, 'title')
      return { id, title: (title && view.texts.get(title.id)) ?? '' }
    })
}

/**
 * Whether two shown parts or steps look the same, so that they need not be drawn again. Records and texts of a view keep
 * their identity as long as nothing touches them.
 */
export function isSamePart(a: ShownPart, b: ShownPart): boolean {
  return (
    a.part === b.part &&
    a.text === b.text &&
    a.links.length === b.links.length &&
    a.links.every((one, i) => isSameLink(one, b.links[i]!))
  )
}

const isSameLink = (a: ShownLink, b: ShownLink): boolean =>
  a.link === b.link && a.state === b.state && a.name === b.name

export function isSameStep(a: ShownStep, b: ShownStep): boolean {
  return (
    a.step === b.step &&
    a.number === b.number &&
    a.place.isChanged === b.place.isChanged &&
    isSamePlace(a.place.place, b.place.place) &&
    a.parts.length === b.parts.length &&
    a.parts.every((part, i) => isSamePart(part, b.parts[i]!))
  )
}
