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
import { isInsidePair, toStorableText } from '../lab/text.ts'
import { findQuote, isSelectorTrue, makeSelector } from '../provenance/selectors.ts'

/** What a fragment was picked from; decides what it becomes where it is dropped. */
export type Origin =
  | { readonly kind: 'source' }
  | { readonly kind: 'entry'; readonly entryKind: EntryKind }
  | { readonly kind: 'part'; readonly partKind: PartKind }

export interface Fragment {
  readonly lab: LabId
  readonly node: LinkNode
  /** null for a source as a whole, and while it is not yet settled which revision the words were picked from. */
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
 * since indentation means something there. Half a surrogate pair is picked whole.
 * @param ranges in text order; those that touch are joined. They are taken for code when all of them lie in a fence
 * @returns null where nothing but white space was picked
 */
export function pickFragment(from: PickedText, ranges: readonly Range[]): Fragment | null {
  const { text, ...rest } = from
  const whole = joinTouching(ranges.map((range) => toWholePairs(text, range)))
  const picked = whole.flatMap((range) => trimRange(text, range, false))
  const fences = picked.map((range) => fenceAround(text, range))
  const fence = fences.includes(null) ? null : (fences[0] ?? null)
  const trimmed = picked.flatMap((range) => trimRange(text, range, fence === null))
  if (trimmed.length === 0) return null
  return { ...rest, fence, selectors: trimmed.map((range) => makeSelector(text, range)) }
}

/** A source as a whole, to be cited. */
export function pickSource(from: Omit<PickedText, 'text' | 'revision' | 'origin'>): Fragment {
  return { ...from, revision: null, origin: { kind: 'source' }, fence: null, selectors: [] }
}

/**
 * Says which revision a fragment's words stand in, by the text as it is now: at their place, or found again by quote.
 * @returns null where the words are no longer there without doubt
 */
export function settleFragment(
  fragment: Fragment,
  now: { text: string; revision: RevisionId },
): Fragment | null {
  if (fragment.selectors.every((selector) => isSelectorTrue(now.text, selector)))
    return { ...fragment, revision: now.revision }
  const ranges = fragment.selectors.map((selector) => findQuote(now.text, selector))
  if (ranges.some((range) => range === null)) return null
  const selectors = ranges.map((range) => makeSelector(now.text, range!))
  if (!isInOrder(selectors)) return null
  return { ...fragment, revision: now.revision, selectors }
}

/** The words that a fragment carries; several ranges stand on lines of their own. */
export function wordsOfFragment(fragment: Fragment): string {
  return fragment.selectors.map(({ quote }) => quote.exact).join('\n')
}

function toWholePairs(text: string, { start, end }: Range): Range {
  return {
    start: isInsidePair(text, start) ? start - 1 : start,
    end: isInsidePair(text, end) ? end + 1 : end,
  }
}

function joinTouching(ranges: readonly Range[]): Range[] {
  const joined: Range[] = []
  for (const { start, end } of ranges) {
    const last = joined.at(-1)
    if (last && start <= last.end)
      joined[joined.length - 1] = { start: last.start, end: Math.max(end, last.end) }
    else joined.push({ start, end })
  }
  return joined
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
  for (let start = 0; start < range.end;) {
    const lineEnd = text.indexOf('\n', start)
    const end = lineEnd < 0 ? text.length : lineEnd
    const line = text.slice(start, end)
    if (open) {
      if (isClosing(line, open.mark)) open = null
    } else {
      // Only the info string of a tilde fence may hold backticks.
      const opening =
        /^ {0,3}(`{3,})[ \t]*([^`]*?)[ \t]*$/.exec(line) ?? /^ {0,3}(~{3,})[ \t]*(.*?)[ \t]*$/.exec(line)
      if (opening) open = { mark: opening[1]!, info: opening[2]!, contentStart: end + 1 }
    }
    start = end + 1
  }
  return open && range.start >= open.contentStart ? open.info : null
}

function isClosing(line: string, mark: string): boolean {
  const closing = /^ {0,3}(`{3,}|~{3,})[ \t]*$/.exec(line)
  return closing !== null && closing[1]![0] === mark[0] && closing[1]!.length >= mark.length
}

/** A fragment's text form for the drag or the clipboard. */
export function fragmentToJson(fragment: Fragment): string {
  return JSON.stringify(fragment)
}

/**
 * Reads a fragment that came by drag or clipboard; null where it is none of ours. It comes from outside: trust nothing.
 * Only the known fields are taken over, since a link will hold them for good.
 */
export function readFragment(json: string): Fragment | null {
  let value: unknown
  try {
    value = JSON.parse(json)
  } catch {
    return null
  }
  return isFragment(value) ? copyFragment(value) : null
}

function copyFragment({ lab, node, revision, selectors, origin, fence, title, address }: Fragment): Fragment {
  const copy = {
    lab,
    node: { kind: node.kind, id: node.id } as LinkNode,
    revision,
    selectors: selectors.map(copySelector),
    origin: copyOrigin(origin),
    fence,
  }
  return { ...copy, title, address }
}

function copySelector({ quote, position }: Selector): Selector {
  const { type, exact, prefix, suffix } = quote
  return {
    quote: { type, exact, prefix, suffix },
    position: { type: position.type, start: position.start, end: position.end },
  }
}

function copyOrigin(origin: Origin): Origin {
  switch (origin.kind) {
    case 'source':
      return { kind: 'source' }
    case 'entry':
      return { kind: 'entry', entryKind: origin.entryKind }
    case 'part':
      return { kind: 'part', partKind: origin.partKind }
  }
}

type Fields = Readonly<Record<string, unknown>>
const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null
const isOneOf = (list: readonly unknown[], value: unknown): boolean => list.includes(value)

function isFragment(value: unknown): value is Fragment {
  return (
    isFields(value) &&
    isId(value.lab) &&
    isNode(value.node) &&
    Array.isArray(value.selectors) &&
    value.selectors.every(isSelector) &&
    isInOrder(value.selectors) &&
    value.selectors.length > 0 === (value.node.kind !== 'source') &&
    (value.revision === null || (value.node.kind !== 'source' && isId(value.revision))) &&
    isOrigin(value.origin) &&
    value.origin.kind === originKindOf(value.node) &&
    (value.fence === null || (typeof value.fence === 'string' && !/[\r\n]/.test(value.fence))) &&
    typeof value.title === 'string' &&
    (value.address === null || typeof value.address === 'string')
  )
}

function isNode(value: unknown): value is LinkNode {
  return isFields(value) && isId(value.id) && isOneOf(['source', 'capture', 'entry', 'part'], value.kind)
}

function originKindOf({ kind }: LinkNode): Origin['kind'] {
  return kind === 'capture' ? 'source' : kind
}

/** Words that could not be stored as they are would stand at other places than their positions say. */
function isSelector(value: unknown): value is Selector {
  if (!isFields(value) || !isFields(value.quote) || !isFields(value.position)) return false
  const { type, exact, prefix, suffix } = value.quote
  const { type: positionType, start, end } = value.position
  return (
    type === 'TextQuoteSelector' &&
    positionType === 'TextPositionSelector' &&
    [exact, prefix, suffix].every(isStorable) &&
    Number.isSafeInteger(start) &&
    Number.isSafeInteger(end) &&
    (start as number) >= 0 &&
    (end as number) - (start as number) === (exact as string).length &&
    exact !== ''
  )
}

const isStorable = (value: unknown): boolean => typeof value === 'string' && toStorableText(value) === value

function isInOrder(selectors: readonly Selector[]): boolean {
  return selectors.every(({ position }, i) => i === 0 || selectors[i - 1]!.position.end < position.start)
}

function isOrigin(value: unknown): value is Origin {
  if (!isFields(value)) return false
  if (value.kind === 'source') return true
  if (value.kind === 'entry') return isOneOf(entryKinds, value.entryKind)
  return value.kind === 'part' && isOneOf([...procedurePartKinds, ...stepPartKinds], value.partKind)
}
