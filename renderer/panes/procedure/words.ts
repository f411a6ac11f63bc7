/** What things are called in the procedure pane. Pure. */
import { nameOfPart, numberOf } from '../../../shared/procedure/rows/numbers.ts'
import {
  type Link,
  type LinkNode,
  type PartKind,
  type ProcedurePartKind,
  type StepPartKind,
} from '../../../shared/lab/model.ts'
import { ownPartLabels } from '../../../shared/export/labels.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import type { SignalWord } from '../../../shared/safety/signal-words/caution.ts'
import { partOfProcedure, stepsOf, type ProjectView } from '../../store/view.ts'

/** Stands where a title is still empty. */
export const untitled = 'Untitled procedure'

/** Stands in a part that is still empty: what belongs there. */
export const hintOfPart: Readonly<Record<PartKind, string>> = {
  title: untitled,
  purpose: 'What it is for, and when to use it.',
  scope: 'What it is made for: which machines, which versions, and what not.',
  access: 'Which accounts, keys and doors are needed.',
  supplies: 'Which parts and tools must be at hand.',
  time: 'How long it takes, and how long what depends on it is down.',
  'back-up': 'What must be backed up before, and how to see that it is.',
  'closing checks': 'What shows that all of it worked.',
  'how to undo': 'How to go back to how it was before.',
  heading: 'Name of the section',
  condition: 'IF or WHEN this step is to be done at all.',
  'done already': 'How to tell that this was done before.',
  file: 'What the file holds.',
  hold: 'Whom or what to wait for before the next step.',
  undo: 'How to take this step back alone.',
  caution: 'What can hurt someone or lose something here, and how to keep from it.',
  do: 'What to do.',
  expect: 'What shows that it worked.',
  'if it fails': 'What to do when it does not.',
  why: 'Why it is done, or done this way.',
}

/** What the parts of a procedure itself are called on the page. */
export const wordOfOwnPart: Readonly<Record<ProcedurePartKind, string>> = {
  title: 'Title',
  purpose: 'Purpose',
  ...ownPartLabels,
}

export const capitalised = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

export { nameOfPart }

/** The class of a part of a step. @param signal the signal word of a caution that has one */
export function classOfPart(kind: StepPartKind, signal: SignalWord | null = null): string {
  const own = `st-part st-part--${kind.replaceAll(' ', '-')}`
  return signal === null ? own : `${own} st-part--signalled st-part--${signal}`
}

/** The time of day that a moment was written at, where it was written: "19:18". */
export function timeOf(moment: string): string {
  return moment.slice(11, 16)
}

/** What the older end of a link is called in a few words, as far as this project knows it. */
export function nameOfOlder(view: ProjectView, { newer, older }: Link): string {
  const name = nameOfNode(view, older.node)
  const elsewhere = name === null ? null : procedureElsewhere(view, newer.node, older.node)
  if (elsewhere !== null) return `${name}, ${elsewhere}`
  return name ?? (plainWords(older.ranges[0]?.quote.exact ?? '', 40) || 'elsewhere')
}

/** The procedure of an older part where that is not the newer one's own. */
function procedureElsewhere(view: ProjectView, newer: LinkNode, older: LinkNode): string | null {
  const procedureOf = ({ kind, id }: LinkNode) =>
    kind === 'part' ? view.parts.get(id)?.procedure : undefined
  const procedure = procedureOf(older)
  if (procedure === undefined || procedure === procedureOf(newer)) return null
  const title = partOfProcedure(view, procedure, 'title')
  return plainWords((title && view.texts.get(title.id)) ?? '', 40) || 'another procedure'
}

/** What a thing is called in a few words; null where this project does not know it. */
export function nameOfNode(view: ProjectView, node: LinkNode): string | null {
  switch (node.kind) {
    case 'entry': {
      const entry = view.entries.get(node.id)
      return entry ? `${timeOf(entry.moment)}, ${entry.kind}` : null
    }
    case 'part': {
      const part = view.parts.get(node.id)
      return part ? nameOfPart(part.kind, numberOf(stepsOf(view, part.procedure), part.step)) : null
    }
    case 'source':
      return view.sources.get(node.id)?.title ?? null
    case 'capture':
      return view.sources.get(view.captures.get(node.id)?.source ?? '')?.title ?? null
  }
}

/** What a step rests on, for its menu: "Rests on 2 entries and 1 source". */
export function restsOn(links: readonly Pick<Link, 'older'>[]): string {
  const count = (...kinds: LinkNode['kind'][]): number =>
    new Set(links.filter(({ older }) => kinds.includes(older.node.kind)).map(({ older }) => older.node.id))
      .size
  const counted = [
    countOf(count('entry'), 'entry', 'entries'),
    countOf(count('source', 'capture'), 'source', 'sources'),
    countOf(count('part'), 'other part', 'other parts'),
  ].filter((words) => words !== null)
  if (counted.length === 0) return 'Rests on nothing'
  const last = counted.pop()!
  return `Rests on ${counted.length > 0 ? `${counted.join(', ')} and ${last}` : last}`
}

function countOf(count: number, one: string, many: string): string | null {
  return count === 0 ? null : `${count} ${count === 1 ? one : many}`
}
