/** Where a value stands in a text, for making a parameter of it. */
import { visit } from 'unist-util-visit'
import type { Range } from '../../lab/model.ts'
import { maybeTree } from '../../markdown/parse.ts'
import { around, isInside, isKnownNumber, isNetworkName } from './bounds.ts'
import { canonical } from './check.ts'
import { escapePlaceholders, placeholdersIn, signsIn } from './placeholders.ts'
import type { ValueType } from './types.ts'

/**
 * How a value stands: alone, as a word of its own; inside a longer word; in another writing of the same value; or so that it may
 * be something else. Only those that stand alone may be replaced unasked; the others are offered.
 */
export type Standing = 'alone' | 'inside' | 'other writing' | 'unsure'

export interface Occurrence extends Range {
  readonly standing: Standing
  /** What speaks against it, as a sentence; null where it stands alone. Holds nothing of a secret. */
  readonly reason: string | null
}

/**
 * Every place of a value in a Markdown text or a command, in text order, not overlapping, never within a placeholder. Where a
 * text holds the placeholders' sign itself, it must stand doubled.
 */
export function findOccurrences(text: string, value: string, type: ValueType): Occurrence[] {
  if (value === '') return []
  const taken = marked(text, placeholdersIn(text))
  const isCode = codeOf(text, value, type)
  const middles = new Set(signsIn(text).map((sign) => sign.start + 1))
  const splits = (place: Range): boolean => middles.has(place.start) || middles.has(place.end)
  const places = [...exactPlaces(text, escapePlaceholders(value)), ...otherWritings(text, value, type)]
  const found = places
    .filter((place) => !isMarked(taken, place) && !splits(place))
    .flatMap((place) => judge(text, place, value, type, isCode))
  return withoutOverlaps(found, taken)
}

/** One byte for each code unit of a text, 1 where a range lies: asking it takes no longer when there are many ranges. */
function marked(text: string, ranges: readonly Range[]): Uint8Array {
  const marks = new Uint8Array(text.length)
  for (const { start, end } of ranges) marks.fill(1, start, end)
  return marks
}

function isMarked(marks: Uint8Array, { start, end }: Range): boolean {
  return marks.subarray(start, end).includes(1)
}

/** Overlapping ones too, so that one that stands alone is not hidden by one that does not. */
function exactPlaces(text: string, value: string): Range[] {
  const found: Range[] = []
  for (let at = text.indexOf(value); at >= 0; at = text.indexOf(value, at + 1))
    found.push({ start: at, end: at + value.length })
  return found
}

const writings: Partial<Record<ValueType, RegExp>> = {
  'IPv6 address': /(?<![\p{L}\p{N}_:])[\da-f]{0,4}:[\da-f:]*[\da-f:](?:\.\d{1,3}){0,3}/giu,
  'MAC address':
    /(?<![\p{L}\p{N}_:-])(?:[\da-f]{2}[:-]){5}[\da-f]{2}|(?<![\p{L}\p{N}_.])(?:[\da-f]{4}\.){2}[\da-f]{4}/giu,
}

/** Places where the same value is written otherwise. */
function otherWritings(text: string, value: string, type: ValueType): Range[] {
  const standard = canonical(type, value)
  if (standard === null) return []
  if (type === 'host name')
    return exactPlaces(small(text), small(value)).filter(
      (place) => text.slice(place.start, place.end) !== value,
    )
  const pattern = writings[type]
  if (!pattern) return []
  return Array.from(text.matchAll(pattern)).flatMap((match) => {
    // A colon that ends a clause is not part of the address.
    const written = /[^:]:$/.test(match[0]) ? match[0].slice(0, -1) : match[0]
    const isOther = written !== value && canonical(type, written) === standard
    return isOther ? [{ start: match.index, end: match.index + written.length }] : []
  })
}

/** ASCII letters only, so that no length changes. */
function small(text: string): string {
  return text.replace(/[A-Z]/g, (letter) => letter.toLowerCase())
}

/** Code of the text, for values that are ordinary words: those count in code only. */
function codeOf(text: string, value: string, type: ValueType): (place: Range) => boolean {
  const isWord = ['user', 'host name', 'package', 'free text'].includes(type) && /^\p{L}+$/u.test(value)
  const tree = isWord ? maybeTree(text) : undefined
  if (!isWord) return () => true
  const ranges: Range[] = []
  if (tree)
    visit(tree, ['code', 'inlineCode'], (node) => {
      ranges.push({ start: node.position!.start.offset!, end: node.position!.end.offset! })
    })
  const marks = marked(text, ranges)
  return (place) => isMarked(marks, place)
}

function judge(
  text: string,
  place: Range,
  value: string,
  type: ValueType,
  isCode: (place: Range) => boolean,
): Occurrence[] {
  const { before, after } = around(text, place.start, place.end)
  const written = text.slice(place.start, place.end)
  if (isNetworkName(type, written, after)) return []
  const say = (standing: Standing, reason: string | null): Occurrence[] => [{ ...place, standing, reason }]
  if (isInside(type, before, after)) return say('inside', insideReason(type, before, written, after))
  if (written !== escapePlaceholders(value))
    return say('other writing', 'Here the same value is written in another way.')
  if (/^\d+$/.test(value) && type !== 'free text' && type !== 'secret' && !isKnownNumber(type, before, after))
    return say('unsure', 'A number alone can mean something else here.')
  if (!isCode(place) && !isNamed(type, before, after))
    return say('unsure', 'Outside of code this can be an ordinary word.')
  return say('alone', null)
}

function insideReason(type: ValueType, before: string, written: string, after: string): string {
  if (type === 'secret') return 'Here it is part of a longer word.'
  const whole = (/\S{0,30}$/.exec(before)?.[0] ?? '') + written + (/^\S{0,30}/.exec(after)?.[0] ?? '')
  return `Here it is part of “${whole}”.`
}

/** Words whose neighbours in prose leave no doubt: anna@host, user anna, host gate. */
function isNamed(type: ValueType, before: string, after: string): boolean {
  if (type === 'user') return /^@\S/.test(after) || /\b(?:user|account)[ :=]+$/i.test(before)
  if (type === 'host name')
    return /@$|:\/\/$/.test(before) || /\b(?:host|machine|server)[ :=]+$/i.test(before)
  return type === 'package' && /\bpackage[ :=]+$/i.test(before)
}

/**
 * Of overlapping ones, one that stands alone is kept before others, then the earlier.
 * @param taken marks of what is taken already; changed
 */
function withoutOverlaps(found: readonly Occurrence[], taken: Uint8Array): Occurrence[] {
  const rank: Record<Standing, number> = { alone: 0, unsure: 1, 'other writing': 2, inside: 3 }
  const sorted = [...found].sort((a, b) => rank[a.standing] - rank[b.standing] || a.start - b.start)
  const kept = sorted.filter((one) => {
    if (isMarked(taken, one)) return false
    taken.fill(1, one.start, one.end)
    return true
  })
  return kept.sort((a, b) => a.start - b.start)
}
