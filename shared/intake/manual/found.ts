import type { RootContent } from 'mdast'

/** What was read of a manual page or an info text, before it is written as Markdown. */
export interface Found {
  readonly title: string
  readonly content: readonly RootContent[]
  readonly author: string | null
  /** ISO 8601: a date, a month or a year; null where the page states none that can be read. */
  readonly dated: string | null
  readonly notes: readonly string[]
}

/** The page's name and section, and what its section NAME says: `mdadm(8) – manage MD devices`. */
export function titleOfPage(page: string, about: string): string {
  return about === '' ? page : `${page} – ${about}`
}

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

/**
 * The date that a page states of itself (`.TH`, `.Dd`, the foot) in ISO 8601: a day, a month or a year as it was stated.
 * Dates whose order of day and month can't be told (`02/10/2021`) are none.
 */
export function maybeStatedDate(words: string): string | null {
  const text = words
    .slice(0, 100)
    .replace(/\$Mdocdate:?|\$/gu, ' ')
    .trim()
  return maybeNumericDate(text) ?? maybeNamedDate(text)
}

function maybeNumericDate(text: string): string | null {
  const found = /^(\d{4})(?:([-/.])(\d{1,2})(?:\2(\d{1,2}))?)?(?:[T ]\d{1,2}:\d{2}.*)?$/u.exec(text)
  if (!found) return null
  const [, year, , month, day] = found
  return toDate(Number(year), month, day)
}

function maybeNamedDate(text: string): string | null {
  const words = text.split(/[\s,.-]+/u).filter((word) => word !== '')
  const year = words.find((word) => /^\d{4}$/u.test(word))
  const names = words.filter((word) => /^[A-Za-z]+$/u.test(word) && monthOf(word) > 0)
  const days = words.filter((word) => /^\d{1,2}(?:st|nd|rd|th)?$/u.test(word))
  const others = words.length - days.length - names.length - 1
  if (year === undefined || names.length !== 1 || days.length > 1 || others > 0) return null
  return toDate(Number(year), String(monthOf(names[0]!)), days[0] && String(Number.parseInt(days[0], 10)))
}

/** A month's number by its English name, whole or cut to three letters or more; 0 for other words. */
function monthOf(word: string): number {
  const index = months.indexOf(word.slice(0, 3).toLowerCase())
  const names = 'january february march april may june july august september october november december'
  return index >= 0 && (names.split(' ')[index]!.startsWith(word.toLowerCase()) || /^sept$/iu.test(word))
    ? index + 1
    : 0
}

function toDate(year: number, month: string | undefined, day: string | undefined): string | null {
  if (year < 1960 || year > 2100) return null
  const two = (text: string): string => text.padStart(2, '0')
  if (month === undefined) return String(year)
  const at = new Date(Date.UTC(year, Number(month) - 1, Number(day ?? 1)))
  const isDate = at.getUTCMonth() === Number(month) - 1 && at.getUTCDate() === Number(day ?? 1)
  if (!isDate) return null
  return `${year}-${two(month)}${day === undefined ? '' : `-${two(day)}`}`
}

export interface About {
  /** The first of the names, as it is typed. */
  readonly name: string | undefined
  readonly about: string
}

/** What a page's first section says: `name, other - what it does`, with any dash. */
export function aboutOf(words: string): About {
  const found = /^(\S.*?)\s+(?:-|--|–|—|\u2010|\u2212)\s+(\S.*)$/u.exec(
    words.slice(0, 2000).replace(/\s+/gu, ' ').trim(),
  )
  return found ? { name: found[1]!.split(/,\s*/u)[0]!, about: found[2]! } : { name: undefined, about: '' }
}
