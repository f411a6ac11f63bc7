/** How sources, moments and addresses are called on the screen. */
import type { Source } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** '14 Nov 2026', by the calendar of where it was written. */
export function dayOf(moment: Moment): string {
  return `${Number(moment.slice(8, 10))} ${months[Number(moment.slice(5, 7)) - 1]} ${moment.slice(0, 4)}`
}

/** '14 Nov 2026, 18:31' */
export function dayAndTimeOf(moment: Moment): string {
  return `${dayOf(moment)}, ${moment.slice(11, 16)}`
}

/**
 * What a document states as its date (ISO 8601: a year, a month, a day or more), as people say it: 'May 2024'. As it
 * stands where it is none.
 */
export function datedWords(dated: string): string {
  const found = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?/u.exec(dated)
  if (!found) return dated
  const [, year, month, day] = found
  const name = month === undefined ? [] : [months[Number(month) - 1] ?? month]
  return [...(day === undefined ? [] : [Number(day)]), ...name, year].join(' ')
}

/** An address as it is shown where there is little room: without its scheme and a last slash. */
export function shortAddress(address: string): string {
  return address.replace(/^https?:\/\//u, '').replace(/\/$/u, '')
}

/** What a source without a title is called. */
export function titleOf(source: Pick<Source, 'title' | 'address'>): string {
  return source.title.trim() || (source.address ? shortAddress(source.address) : 'Untitled source')
}
