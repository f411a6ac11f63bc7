/** Dates: full-date of RFC 3339 §5.6 (ISO 8601, extended form), days that the Gregorian calendar has. */
import { right, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

export function isDate(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)?.map(Number) ?? []
  return day !== undefined && month! >= 1 && month! <= 12 && day >= 1 && day <= daysIn(year!, month!)
}

function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28
  return [4, 6, 9, 11].includes(month) ? 30 : 31
}

function checkDate(text: string): ValueCheck {
  if (isDate(text)) return right()
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return wrong('range', 'There is no such day in the calendar.')
  if (/^\d{4}-\d{2}-\d{2}[T ]\d{2}:/i.test(text))
    return wrong(
      'other type',
      'This is a moment. A date ends after the day.',
      offer(text.slice(0, 10), 'The date alone.'),
    )
  const mended = rewritten(text)
  if (mended) return wrong('form', 'A date is written year, month, day, as in 2026-11-26.', mended)
  if (/^\d{1,2}[/-]\d{1,2}[/-]\d{2,4}$/.test(text))
    return wrong(
      'form',
      'Which number is the day and which the month differs between countries. Write year, month, day, as in 2026-11-26.',
    )
  return wrong('form', 'A date is written year, month, day, as in 2026-11-26.')
}

/** Other writings that can be read in one way only. */
function rewritten(text: string): Mend | null {
  const yearFirst = /^(\d{4})[/.-]?(\d{1,2})[/.-]?(\d{1,2})$/.exec(text)
  const dotted = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$/.exec(text)
  const [year, month, day] = yearFirst ? yearFirst.slice(1) : dotted ? dotted.slice(1).reverse() : []
  return day === undefined
    ? null
    : offer(`${year}-${month!.padStart(2, '0')}-${day.padStart(2, '0')}`, 'The same day.')
}

function offer(text: string, sentence: string): Mend | null {
  return isDate(text) ? { text, sentence } : null
}

export const date: TypeOfValue = {
  check: checkDate,
  canonical: (text) => (isDate(text) ? text : null),
  example: '2026-11-26',
}
