/**
 * A fragment: a range of text picked from a source, an entry or a step part, as it travels rightward. It holds what its
 * link will record of the older end, so that the act of carrying needs nothing else from where it came.
 */
import { isId, type LabId, type RevisionId } from '../lab/ids.ts'
import {
  entryKinds,
  procedurePartKinds,
  stepPartKinds,
  type EntryKind,
  type LinkNode,
  type PartKind,
  type Range,
  type Selector,
} from '../lab/model.ts'
import { makeSelector } from '../provenance/selectors.ts'

/** What a fragment was picked from; decides what it becomes where it is dropped. */
export type Origin =
  | { readonly kind: 'source' }
  | { readonly kind: 'entry'; readonly entryKind: EntryKind }
  | { readonly kind: 'part'; readonly partKind: PartKind }

export interface Fragment {
  readonly lab: LabId
  readonly node: LinkNode
  /** null only for a source as a whole. */
  readonly revision: RevisionId | null
  /** Empty only for a source as a whole. */
  readonly selectors: readonly Selector[]
  readonly origin: Origin
  /** Info string of the code fence that the words were picked out of, or null. */
  readonly fence: string | null
  /** A source's title and address, for a citation. */
  readonly title: string
  readonly address: string | null
}

/** The media type under which a fragment travels in a drag or on the clipboard. Private tree by use (RFC 6838 §3.4). */
export const FRAGMENT_TYPE = 'application/x-stillroom-fragment+json'

/** Where a text is picked from. */
export type PickedText = Pick<Fragment, 'lab' | 'node' | 'revision' | 'origin' | 'title' | 'address'> & {
  readonly text: string
}

/**
 * Picks ranges out of a text. Line ends and blanks around a range are left behind, inside a fence only the line ends,
 * since indentation means something there.
 * @returns null where nothing but white space was picked
 */
export function pickFragment(from: PickedText, ranges: readonly Range[]): Fragment | null {
  const { text, ...rest } = from
  const first = ranges[0]
  const fence = first ? fenceAround(text, first) : null
  const trimmed = ranges.flatMap((range) => trimRange(text, range, fence === null))
  if (trimmed.length === 0) return null
  return { ...rest, fence, selectors: trimmed.map((range) => makeSelector(text, range)) }
}

/** A source as a whole, to be cited. */
export function pickSource(from: Omit<PickedText, 'text' | 'revision' | 'origin'>): Fragment {
  return { ...from, revision: null, origin: { kind: 'source' }, fence: null, selectors: [] }
}

/** The words that a fragment carries; several ranges stand on lines of their own. */
export function wordsOfFragment(fragment: Fragment): string {
  return fragment.selectors.map(({ quote }) => quote.exact).join('\n')
}

function trimRange(text: string, range: Range, blanksToo: boolean): Range[] {
  const isEdge = (at: number): boolean => (blanksToo ? /\s/u : /\n/u).test(text[at] ?? '')
  let { start, end } = range
  while (start < end && isEdge(start)) start++
  while (end > start && isEdge(end - 1)) end--
  return start < end && text.slice(start, end).trim() !== '' ? [{ start, end }] : []
}

/**
 * The info string of the fence that a range lies wholly inside of, or null.
 * Fences as in CommonMark 0.31.2 §4.5, at the top level of the document.
 */
export function fenceAround(text: string, range: Range): string | null {
  let open: { readonly mark: string; readonly info: string; readonly contentStart: number } | null = null
  for (let start = 0; start <= text.length;) {
    const lineEnd = text.indexOf('\n', start)
    const end = lineEnd < 0 ? text.length : lineEnd
    const line = text.slice(start, end)
    if (open) {
      if (isClosing(line, open.mark)) {
        if (range.start >= open.contentStart && range.end <= start) return open.info
        open = null
      }
    } else {
      const opening = /^ {0,3}(`{3,}|~{3,})\s*([^`]*?)\s*$/.exec(line)
      if (opening) open = { mark: opening[1]!, info: opening[2]!, contentStart: end + 1 }
    }
    if (start >= range.end) return null
    start = end + 1
  }
  return open && range.start >= open.contentStart ? open.info : null
}

function isClosing(line: string, mark: string): boolean {
  const closing = /^ {0,3}(`{3,}|~{3,})\s*$/.exec(line)
  return closing !== null && closing[1]![0] === mark[0] && closing[1]!.length >= mark.length
}

/** A fragment's text form for the drag or the clipboard. */
export function fragmentToJson(fragment: Fragment): string {
  return JSON.stringify(fragment)
}

/** Reads a fragment that came by drag or clipboard; null where it is none of ours. It comes from outside: trust nothing. */
export function readFragment(json: string): Fragment | null {
  let value: unknown
  try {
    value = JSON.parse(json)
  } catch {
    return null
  }
  return isFragment(value) ? value : null
}

type Fields = Readonly<Record<string, unknown>>
const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null

function isFragment(value: unknown): value is Fragment {
  return (
    isFields(value) &&
    isId(value.lab) &&
    isNode(value.node) &&
    (value.revision === null || isId(value.revision)) &&
    Array.isArray(value.selectors) &&
    value.selectors.every(isSelector) &&
    (value.selectors.length > 0 ? value.revision !== null : value.node.kind === 'source') &&
    isOrigin(value.origin) &&
    (value.fence === null || typeof value.fence === 'string') &&
    typeof value.title === 'string' &&
    (value.address === null || typeof value.address === 'string')
  )
}

function isNode(value: unknown): value is LinkNode {
  return (
    isFields(value) && isId(value.id) && ['source', 'capture', 'entry', 'part'].includes(String(value.kind))
  )
}

function isSelector(value: unknown): value is Selector {
  if (!isFields(value) || !isFields(value.quote) || !isFields(value.position)) return false
  const { quote, position } = value
  const { start, end } = position
  return (
    [quote.exact, quote.prefix, quote.suffix].every((words) => typeof words === 'string') &&
    Number.isInteger(start) &&
    Number.isInteger(end) &&
    (start as number) >= 0 &&
    (end as number) - (start as number) === (quote.exact as string).length &&
    (quote.exact as string).length > 0
  )
}

function isOrigin(value: unknown): value is Origin {
  if (!isFields(value)) return false
  if (value.kind === 'source') return true
  const isOneOf = (list: readonly string[], name: unknown): boolean => list.includes(String(name))
  if (value.kind === 'entry') return isOneOf(entryKinds, value.entryKind)
  return value.kind === 'part' && isOneOf([...procedurePartKinds, ...stepPartKinds], value.partKind)
}
