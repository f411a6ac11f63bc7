/**
 * Times in words: a small grammar of spans. General readers of dates give an instant where a span is meant ("last March"),
 * and see one in `sat on disk`; here a word alone is never a time but for `today` and `yesterday`.
 *
 *     last night · last week · this month · last March · last Monday · last 3 days · 2 weeks ago · in 2024 · in March
 *     March 2024 · 5 March 2024 · on 2024-03-05 · since May · before 3 May 2024 · from 1 May 2024 to 5 May 2024
 */
import type { Calendar } from './calendar.ts'
import type { TimeSpan } from './query.ts'

export interface ReadTime {
  readonly span: TimeSpan
  /** How many of the words it is made of. */
  readonly words: number
}

const months = 'january february march april may june july august september october november december'.split(
  ' ',
)
const weekdays = 'monday tuesday wednesday thursday friday saturday sunday'.split(' ')
const numbers = 'zero one two three four five six seven eight nine ten eleven twelve'.split(' ')
const units = ['day', 'week', 'month', 'year'] as const
type Unit = (typeof units)[number]

/**
 * The time that words begin with.
 *
 * @param words as typed, one by one
 * @param isAsked the words were said to be a time: then a year, a month, a weekday or a date alone is one as well
 * @returns the longest reading; null where they begin with no time
 */
export function findTime(words: readonly string[], calendar: Calendar, isAsked: boolean): ReadTime | null {
  const lower = words.map((word) => word.toLowerCase().replace(/[,.]$/, ''))
  return (
    findBetween(lower, calendar) ??
    findSince(lower, calendar) ??
    findOn(lower, calendar) ??
    findLast(lower, calendar) ??
    findAgo(lower, calendar) ??
    findDated(lower, calendar) ??
    (isAsked ? findPoint(lower, calendar) : null)
  )
}

/** What may follow `since`, `in` or `when:`: anything that names a span. */
function findPoint(words: readonly string[], calendar: Calendar): ReadTime | null {
  return (
    findLast(words, calendar) ??
    findAgo(words, calendar) ??
    findDated(words, calendar) ??
    findAlone(words[0] ?? '', calendar)
  )
}

/** `from A to B`, `between A and B`: to the end of B. */
function findBetween([first, ...rest]: readonly string[], calendar: Calendar): ReadTime | null {
  const joint = first === 'from' ? ['to', 'until'] : first === 'between' ? ['and'] : []
  const start = joint.length > 0 ? findPoint(rest, calendar) : null
  if (!start || !joint.includes(rest[start.words] ?? '')) return null
  const end = findPoint(rest.slice(start.words + 1), calendar)
  return end && { span: { from: start.span.from, to: end.span.to }, words: start.words + end.words + 2 }
}

function findSince([first, ...rest]: readonly string[], calendar: Calendar): ReadTime | null {
  if (!['since', 'after', 'before', 'until'].includes(first ?? '')) return null
  const point = findPoint(rest, calendar)
  if (!point) return null
  const { from, to } = point.span
  const words = point.words + 1
  switch (first) {
    case 'since':
      return { words, span: { from, to: null } }
    case 'after':
      return { words, span: { from: to, to: null } }
    case 'before':
      return { words, span: { from: null, to: from } }
    default:
      return { words, span: { from: null, to } }
  }
}

/** `in March`, `in 2024`, `on 2024-03-05`, `on Monday`, `during last week`. */
function findOn([first, ...rest]: readonly string[], calendar: Calendar): ReadTime | null {
  if (!['in', 'on', 'during'].includes(first ?? '')) return null
  const point = findPoint(rest, calendar)
  return point && { ...point, words: point.words + 1 }
}

function findLast(words: readonly string[], calendar: Calendar): ReadTime | null {
  const [first = '', second = '', third = ''] = words[0] === 'the' ? words.slice(1) : words
  const skipped = words[0] === 'the' ? 1 : 0
  if (first === 'today') return { words: 1 + skipped, span: calendar.days(calendar.date) }
  if (first === 'yesterday') return { words: 1 + skipped, span: calendar.days(calendar.date - 1) }
  const isLast = ['last', 'past', 'previous'].includes(first)
  if (!isLast && first !== 'this') return null
  const count = isLast ? numberOf(second) : null
  const counted = count === null ? null : unitOf(third)
  if (count !== null && counted)
    return { words: 3 + skipped, span: { from: backBy(count, counted, calendar).from, to: null } }
  const span = isLast ? lastOf(second, calendar) : thisOf(second, calendar)
  return span && { words: 2 + skipped, span }
}

function lastOf(word: string, calendar: Calendar): TimeSpan | null {
  const { year, month, date, weekday } = calendar
  if (word === 'night')
    return { from: calendar.start(year, month, date - 1, 18), to: calendar.start(year, month, date, 6) }
  const unit = units.find((name) => name === word)
  if (unit) return backBy(1, unit, calendar)
  const ofMonth = months.indexOf(word)
  // In March, last March is that of the year before.
  if (ofMonth >= 0) return calendar.months(ofMonth, ofMonth < month ? year : year - 1)
  const ofWeekday = weekdays.indexOf(word)
  if (ofWeekday < 0) return null
  const back = (weekday - ofWeekday + 7) % 7
  return calendar.days(date - (back === 0 ? 7 : back))
}

function thisOf(word: string, calendar: Calendar): TimeSpan | null {
  const { year, date, weekday } = calendar
  const unit = units.find((name) => name === word)
  if (unit) return backBy(0, unit, calendar)
  const month = months.indexOf(word)
  if (month >= 0) return calendar.months(month, year)
  const day = weekdays.indexOf(word)
  return day < 0 ? null : calendar.days(date - weekday + day)
}

/** `2 weeks ago` is that week, `3 days ago` that day. */
function findAgo([first = '', second = '', third]: readonly string[], calendar: Calendar): ReadTime | null {
  const count = first === 'a' || first === 'an' ? 1 : numberOf(first)
  const unit = unitOf(second)
  if (third !== 'ago' || count === null || !unit) return null
  return { words: 3, span: backBy(count, unit, calendar) }
}

/** The day, week, month or year so many before this one. */
function backBy(count: number, unit: Unit, calendar: Calendar): TimeSpan {
  switch (unit) {
    case 'day':
      return calendar.days(calendar.date - count)
    case 'week':
      return calendar.week(-count)
    case 'month':
      return calendar.months(calendar.month - count)
    case 'year':
      return calendar.years(calendar.year - count)
  }
}

/** `5 March 2024`, `March 5 2024`, `March 2024`. */
function findDated(
  [first = '', second = '', third = '']: readonly string[],
  calendar: Calendar,
): ReadTime | null {
  const dayFirst =
    dayOf(first, monthOf(second), third, calendar) ?? dayOf(second, monthOf(first), third, calendar)
  if (dayFirst) return { words: 3, span: dayFirst }
  const year = yearOf(second)
  const month = monthOf(first)
  return month >= 0 && year !== null ? { words: 2, span: calendar.months(month, year) } : null
}

function dayOf(day: string, month: number, year: string, calendar: Calendar): TimeSpan | null {
  const date = /^\d{1,2}(?:st|nd|rd|th)?$/.test(day) ? parseInt(day, 10) : 0
  const inYear = yearOf(year)
  if (month < 0 || inYear === null || !calendar.hasDay(inYear, month, date)) return null
  return calendar.days(date, 1, month, inYear)
}

/** A year, a month, a weekday or a date (ISO 8601) by itself; of a month or weekday the last one that has begun. */
function findAlone(word: string, calendar: Calendar): ReadTime | null {
  const span = spanAlone(word, calendar)
  return span && { words: 1, span }
}

function spanAlone(word: string, calendar: Calendar): TimeSpan | null {
  const [, isoYear, isoMonth, isoDay] = /^(\d{4})-(\d{2})(?:-(\d{2}))?$/.exec(word) ?? []
  if (isoYear !== undefined) {
    const [year, month, day] = [Number(isoYear), Number(isoMonth) - 1, Number(isoDay ?? 1)]
    if (!calendar.hasDay(year, month, day)) return null
    return isoDay === undefined ? calendar.months(month, year) : calendar.days(day, 1, month, year)
  }
  const year = yearOf(word)
  if (year !== null) return calendar.years(year)
  const month = monthOf(word)
  if (month >= 0) return calendar.months(month, month <= calendar.month ? calendar.year : calendar.year - 1)
  const day = weekdays.indexOf(word)
  return day < 0 ? null : calendar.days(calendar.date - ((calendar.weekday - day + 7) % 7))
}

function numberOf(word: string): number | null {
  if (/^\d{1,3}$/.test(word)) return Number(word)
  const named = numbers.indexOf(word)
  return named < 0 ? null : named
}

function unitOf(word: string): Unit | undefined {
  return units.find((unit) => word === unit || word === `${unit}s`)
}

/** By its name or the first three letters of it. */
function monthOf(word: string): number {
  return months.findIndex((month) => month === word || month.slice(0, 3) === word)
}

function yearOf(word: string): number | null {
  return /^(?:19|20)\d\d$/.test(word) ? Number(word) : null
}
