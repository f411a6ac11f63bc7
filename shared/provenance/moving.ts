/**
 * Links whose words go to another text: by cutting and pasting, by splitting a step, by joining steps. A link record never
 * changes; where its words went a new one says so that revises it, and the old one leaves the present in the same Change.
 * Taking the Change back brings the old one back, the same record, and its words with their identities.
 */
import type { Operation } from '../lab/change.ts'
import type { RevisionId } from '../lab/ids.ts'
import { put, type Surroundings } from '../lab/making.ts'
import type { Link, LinkEnd, LinkState, Range, Selector, TextNode, TextNodeId } from '../lab/model.ts'
import { CONTEXT_LENGTH, makeSelector } from './selectors.ts'

/** A link as it stands. */
export interface StandingLink {
  readonly link: Link
  readonly state: LinkState
}

/** Where a stretch of a text stands from now on. */
export interface Target {
  readonly node: TextNode
  /** The whole text in which it stands then, and the revision that says so. */
  readonly revision: RevisionId
  readonly text: string
  /** The stretch, in the text as it was. */
  readonly stretch: Range
  /** Where the stretch begins in the text as it is then. */
  readonly offset: number
}

export type Side = 'newer' | 'older'

/** A link's end within one target: the ranges that come to stand there, and what they were of the recorded ones. */
interface Landed {
  readonly target: Target
  readonly ranges: readonly Selector[]
  readonly parts: readonly { readonly of: number; readonly part: Range; readonly isOfWhole: boolean }[]
}

/**
 * The operations that have links go along with their words.
 * @param from the text that the words leave, as it stood
 * @param links those with an end at that text; others are left alone
 * @param targets where its stretches stand from now on, in the order of the text; one of them may be the text itself
 * @param whole where a link goes that speaks of the text as a whole; null where that stays
 * @param isBack whether the words come from outside the texts, so that coming to their old one is going along too
 * @param isLeft whether words of a link are left elsewhere, so that it stays beside the one for those that went
 */
export function linksGoAlong(
  around: Surroundings,
  from: { readonly node: TextNodeId; readonly text: string },
  links: readonly StandingLink[],
  targets: readonly Target[],
  whole: Target | null,
  isLeft: (link: Link) => boolean = () => false,
  isBack = false,
): Operation[] {
  const removed: Operation[] = []
  const made: Operation[] = []
  for (const { link, state } of links) {
    const next = revisionsOfLink(around, from, { link, state }, targets, whole, isBack)
    if (next.length === 0) continue
    if (!isLeft(link)) removed.push({ op: 'remove', table: 'links', before: link })
    made.push(...next.map((one) => put('links', one)))
  }
  return [...removed, ...made]
}

function revisionsOfLink(
  around: Surroundings,
  from: { readonly node: TextNodeId; readonly text: string },
  { link, state }: StandingLink,
  targets: readonly Target[],
  whole: Target | null,
  isBack: boolean,
): Link[] {
  if (link.newer.node.id === from.node && link.older.node.id !== from.node)
    return newerGoesAlong(around, from, link, state, targets, whole, isBack)
  return link.older.node.id === from.node && link.newer.node.id !== from.node
    ? olderGoesAlong(around, from, link, state, targets, whole)
    : []
}

function newerGoesAlong(
  around: Surroundings,
  from: { readonly node: TextNodeId; readonly text: string },
  link: Link,
  state: LinkState,
  targets: readonly Target[],
  whole: Target | null,
  isBack: boolean,
): Link[] {
  if (link.newer.ranges.length === 0)
    return whole && whole.node.id !== link.older.node.id
      ? [revising(around, link, { newer: wholeEnd(whole) })]
      : []
  const landed = landedIn(state.newer.places, from.text, link.newer, targets)
  if (!isBack && landed.every(({ target }) => target.node.id === from.node)) return []
  // Words that come to stand in the very text that they were copied from came from nowhere else any more.
  if (landed.some(({ target }) => target.node.id === link.older.node.id)) return []
  return landed.map(({ target, ranges, parts }) =>
    revising(around, link, {
      newer: endIn(target, ranges),
      older: isAll(state.newer.places, parts) ? link.older : divided(link.older, link.newer, parts),
    }),
  )
}

/** Whether all that still stands of an end is in these parts. */
const isAll = (places: readonly (Range | null)[], parts: Landed['parts']): boolean =>
  places.every(
    (place, of) =>
      place === null ||
      parts.some((one) => one.of === of && one.part.end - one.part.start === place.end - place.start),
  )

/** One text cannot be the older end in two places, so the end goes along once none of its words stays. */
function olderGoesAlong(
  around: Surroundings,
  from: { readonly node: TextNodeId; readonly text: string },
  link: Link,
  state: LinkState,
  targets: readonly Target[],
  whole: Target | null,
): Link[] {
  if (link.older.ranges.length === 0)
    return whole && whole.node.id !== link.newer.node.id
      ? [revising(around, link, { older: wholeEnd(whole) })]
      : []
  const landed = landedIn(state.older.places, from.text, link.older, targets)
  const [only] = landed
  if (!only || landed.length > 1) return []
  const { node } = only.target
  if (node.id === from.node || node.id === link.newer.node.id) return []
  return [revising(around, link, { older: endIn(only.target, only.ranges) })]
}

/** What of an end comes to stand in each target; targets without any of it are left out. */
function landedIn(
  places: readonly (Range | null)[],
  text: string,
  end: LinkEnd,
  targets: readonly Target[],
): Landed[] {
  return targets.flatMap((target): Landed[] => {
    const parts = places.flatMap((place, of) => {
      const part = place && overlapOf(place, target.stretch)
      if (!part) return []
      const isOfWhole = text.slice(place.start, place.end) === end.ranges[of]!.quote.exact
      const within = { start: part.start - place.start, end: part.end - place.start }
      return [{ of, part: within, isOfWhole, stands: part }]
    })
    if (parts.length === 0) return []
    const by = target.offset - target.stretch.start
    const ranges = parts.map(({ stands }) =>
      makeSelector(target.text, { start: stands.start + by, end: stands.end + by }),
    )
    return [{ target, ranges, parts }]
  })
}

/**
 * The part of the older end that some of the newer one's words quote. Where the older words stand word for word at the newer
 * end, range by range, each part quotes its own; else what it came from is the older end as a whole.
 */
function divided(older: LinkEnd, newer: LinkEnd, parts: Landed['parts']): LinkEnd {
  const isQuoted = ({ of, isOfWhole }: Landed['parts'][number]): boolean =>
    isOfWhole && older.ranges[of]?.quote.exact === newer.ranges[of]!.quote.exact
  if (older.ranges.length !== newer.ranges.length || !parts.every(isQuoted)) return older
  return { ...older, ranges: parts.map(({ of, part }) => partOfSelector(older.ranges[of]!, part)) }
}

/** A part of a selector's words as a selector of its own, told from the selector alone. */
export function partOfSelector(selector: Selector, { start, end }: Range): Selector {
  const { quote, position } = selector
  if (start === 0 && end === quote.exact.length) return selector
  const before = quote.prefix + quote.exact.slice(0, start)
  const behind = quote.exact.slice(end) + quote.suffix
  return {
    quote: {
      type: 'TextQuoteSelector',
      exact: quote.exact.slice(start, end),
      // Half a surrogate pair has no UTF-8 form.
      prefix: before.slice(-CONTEXT_LENGTH).replace(/^[\udc00-\udfff]/, ''),
      suffix: behind.slice(0, CONTEXT_LENGTH).replace(/[\ud800-\udbff]$/, ''),
    },
    position: { type: 'TextPositionSelector', start: position.start + start, end: position.start + end },
  }
}

/** A link of now in the place of another. The person's way of making it stays what it was. */
export function revising(
  around: Surroundings,
  link: Link,
  ends: Partial<Pick<Link, 'newer' | 'older' | 'way'>>,
): Link {
  return { ...link, ...ends, id: around.ids.make(), made: around.clock.now(), revises: link.id }
}

const endIn = ({ node, revision }: Target, ranges: readonly Selector[]): LinkEnd => ({
  node,
  revision,
  ranges,
})

const wholeEnd = ({ node }: Target): LinkEnd => ({ node, revision: null, ranges: [] })

function overlapOf(a: Range, b: Range): Range | null {
  const [start, end] = [Math.max(a.start, b.start), Math.min(a.end, b.end)]
  return start < end ? { start, end } : null
}
