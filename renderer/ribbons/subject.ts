/** What an element of the panes stands for, as far as links are concerned. */
import type { ProjectView } from '../store/view.ts'
import { sourceOf, type KnownSources } from './links.ts'
import { editorIn } from './surfaces/words.ts'

export interface Subject {
  /** Ids of parts, entries, captures and sources. */
  readonly nodes: readonly string[]
  /** In a capture, a place in its text: only links of words around it count. Null for the things as wholes. */
  readonly at: number | null
  /** The same for the same things. */
  readonly key: string
}

/** What subjects are made of. */
export interface Known {
  readonly view: Pick<ProjectView, 'parts'>
  readonly sources: KnownSources
}

/** A step: all of its parts. */
const ROW = '[data-step]'
const PART = '.st-part-read[data-node], .st-editor[data-node]'

const toSubject = (nodes: readonly string[], at: number | null = null): Subject | null =>
  nodes.length === 0 ? null : { nodes, at, key: `${nodes.join()} ${at ?? ''}` }

/** What an element that has the keyboard belongs to; null of what belongs to no thing. */
export function subjectOfFocus(element: Element, known: Known): Subject | null {
  const part = element.closest<HTMLElement>(`[data-band="procedure"] :is(${PART})`)
  if (part) return toSubject([part.dataset.node!])
  const text = element.closest<HTMLElement>('.st-reading-text[data-node]')
  if (text) return toSubject([text.dataset.node!], editorIn(text)?.state.selection.main.head ?? null)
  return subjectOfThing(element, known)
}

/** What the pointer is on: of the procedure always the whole step. @param x of the pointer in the window, in CSS pixels */
export function subjectOfPointer(element: Element, x: number, y: number, known: Known): Subject | null {
  const text = element.closest<HTMLElement>('.st-reading-text[data-node]')
  if (text) {
    const at = editorIn(text)?.posAtCoords({ x, y }) ?? null
    return at === null ? null : toSubject([text.dataset.node!], at)
  }
  return subjectOfThing(element, known)
}

function subjectOfThing(element: Element, { view, sources }: Known): Subject | null {
  const row = element.closest<HTMLElement>(ROW)
  if (row) return toSubject(partsOf(rowsWith(row), view))
  const entry = element.closest<HTMLElement>('[data-entry]')
  if (entry) return toSubject([entry.dataset.entry!])
  const source = element.closest<HTMLElement>('.st-source-list [data-node], .st-reading-inside[data-node]')
  if (source) return toSubject(nodesOfSource(source.dataset.node!, sources))
  const own = element.closest<HTMLElement>('.st-own-part')?.querySelector<HTMLElement>(PART)
  return own ? toSubject([own.dataset.node!]) : null
}

/** A row that is one of several that are chosen stands for all of them. */
function rowsWith(row: HTMLElement): HTMLElement[] {
  if (!row.classList.contains('st-step--picked')) return [row]
  const list = row.closest('.st-steps') ?? row
  return [...list.querySelectorAll<HTMLElement>(`.st-step--picked${ROW}`)]
}

function partsOf(rows: readonly HTMLElement[], { parts }: Known['view']): string[] {
  const steps = new Set<string | null>(rows.map((row) => row.dataset.step!))
  return [...parts.values()].filter(({ step }) => steps.has(step)).map(({ id }) => id)
}

/** A source with all that was merged into it, and their captures. */
function nodesOfSource(source: string, known: KnownSources): string[] {
  const sources = [...known.sources.values()].filter(
    ({ id }) => sourceOf({ kind: 'source', id }, known) === source,
  )
  const captures = [...known.heads.values()].filter(
    ({ id }) => sourceOf({ kind: 'capture', id }, known) === source,
  )
  return [...sources, ...captures].map(({ id }) => id)
}
