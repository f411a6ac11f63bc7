/** A procedure as its pane shows it, worked out from the project's view. Pure. */
import { stepPartKinds, wordPartKinds } from '../../../shared/lab/model.ts'
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import type { Link, LinkState, Part, Step, StepPartKind } from '../../../shared/lab/model.ts'
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
  /** From 1. */
  readonly number: number
  /** In the order of reading: caution, do, expect, if it fails, why. */
  readonly parts: readonly ShownPart[]
}

export interface ShownProcedure {
  readonly id: ProcedureId
  readonly title: ShownPart | null
  readonly purpose: ShownPart | null
  readonly steps: readonly ShownStep[]
}

/** What the pane shows of a procedure; null where it does not stand. */
export function toShownProcedure(view: ProjectView, id: ProcedureId): ShownProcedure | null {
  if (!view.procedures.has(id)) return null
  const links = groupLinks(view)
  const parts = groupParts(view, id)
  const show = (part: Part | undefined): ShownPart | null => (part ? toShownPart(view, part, links) : null)
  return {
    id,
    title: show(partOfProcedure(view, id, 'title')),
    purpose: show(partOfProcedure(view, id, 'purpose')),
    steps: stepsOf(view, id).map((step, i) => ({
      step,
      number: i + 1,
      parts: inReadingOrder(parts.get(step.id) ?? []).map((part) => toShownPart(view, part, links)),
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

function inReadingOrder(parts: readonly Part[]): Part[] {
  const place = (part: Part): number => stepPartKinds.indexOf(part.kind as StepPartKind)
  return [...parts].sort((a, b) => place(a) - place(b) || (a.id < b.id ? -1 : 1))
}

/** The kinds of part that a step does not have yet. */
export function missingKinds({ parts }: Pick<ShownStep, 'parts'>): StepPartKind[] {
  return wordPartKinds.filter((kind) => parts.every(({ part }) => part.kind !== kind))
}

/** The part of a step that holds its main words: do, or else the first that it has. */
export function mainPartOf({ parts }: Pick<ShownStep, 'parts'>): ShownPart | undefined {
  return parts.find(({ part }) => part.kind === 'do') ?? parts[0]
}

/** The part by which a step is traced: the first that came from somewhere, or else its main part. */
export function tracedPartOf(step: Pick<ShownStep, 'parts'>): ShownPart | undefined {
  return step.parts.find(({ links }) => links.length > 0) ?? mainPartOf(step)
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
    a.parts.length === b.parts.length &&
    a.parts.every((part, i) => isSamePart(part, b.parts[i]!))
  )
}
