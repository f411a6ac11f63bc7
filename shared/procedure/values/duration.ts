/**
 * Durations: ISO 8601-1:2019 §5.5.2 (PT5M, P2W; the grammar of RFC 3339 appendix A), and time spans as systemd.time(7) reads
 * them (5 min, 1h 30min, 2d). A bare number is a number of seconds there and for sleep(1).
 */
import { right, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

const units: readonly (readonly [names: string, seconds: number])[] = [
  ['usec us µs μs', 1e-6],
  ['msec ms', 1e-3],
  ['seconds second sec s', 1],
  ['minutes minute min m', 60],
  ['hours hour hr h', 3600],
  ['days day d', 86_400],
  ['weeks week w', 604_800],
  // systemd.time(7): a year is 365.25 days, a month 30.44; to systemd itself it is the twelfth part of a year.
  ['months month M', 2_629_800],
  ['years year y', 31_557_600],
]
const secondsOf = new Map(
  units.flatMap(([names, seconds]) => names.split(' ').map((name) => [name, seconds] as const)),
)
const iso =
  /^P(?:(\d+)W|(?=[\dT])(?:(\d+)Y)?(?:(\d+)M)?(?:(\d+)D)?(?:T(?=\d)(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?)$/
const span = /(\d{1,15}(?:\.\d{1,9})?)[ \t]*([a-zA-Zµμ]*)/y

/** What a duration comes to; `seconds` is undefined for ISO's months and years, whose lengths vary. */
export interface Duration {
  readonly seconds: number | undefined
}

/** Reads a duration of either form, undefined where the text is none. */
export function maybeDuration(text: string): Duration | undefined {
  if (text === 'infinity') return { seconds: Number.POSITIVE_INFINITY }
  const seconds = text.startsWith('P') ? undefined : maybeSpan(text)
  return seconds === undefined ? maybeIso(text) : { seconds }
}

function maybeIso(text: string): Duration | undefined {
  const match = iso.exec(text)
  if (!match) return undefined
  const [weeks, years, months, days, hours, minutes, seconds] = match
    .slice(1)
    .map((part) => (part === undefined ? undefined : Number(part.replace(',', '.'))))
  // Only the smallest part may have decimals.
  if (/[.,]\d+[A-Z]./.test(text)) return undefined
  if (years !== undefined || months !== undefined) return { seconds: undefined }
  return {
    seconds:
      (weeks ?? 0) * 604_800 +
      (days ?? 0) * 86_400 +
      (hours ?? 0) * 3600 +
      (minutes ?? 0) * 60 +
      (seconds ?? 0),
  }
}

function maybeSpan(text: string): number | undefined {
  let sum = 0
  span.lastIndex = 0
  for (let at = 0; at < text.length; at = span.lastIndex) {
    span.lastIndex = at
    const match = span.exec(text)
    if (!match) return undefined
    const unit = match[2] === '' ? 1 : secondsOf.get(match[2]!)
    if (unit === undefined) return undefined
    sum += Number(match[1]) * unit
    while (/[ \t]/.test(text[span.lastIndex] ?? '')) span.lastIndex++
  }
  return text === '' ? undefined : sum
}

function checkDuration(text: string): ValueCheck {
  const found = maybeDuration(text)
  if (found) {
    if (/^[\d.]+$/.test(text)) return right('A number without a unit is read as seconds.')
    if (/^P/.test(text)) return right('Written after ISO 8601; most commands want a form such as 5min.')
    return right(/\d *M(?![a-zA-Z])/.test(text) ? 'A capital M means months; minutes have a small m.' : null)
  }
  if (/^-/.test(text)) return wrong('range', 'A duration is not negative.')
  if (/^\d+(?::\d+){1,2}$/.test(text))
    return wrong(
      'form',
      'With colons it could be hours or minutes. Write the units, as in 1 h 30 min.',
      fromClock(text),
    )
  if (/^\d+,\d+/.test(text))
    return wrong(
      'form',
      'Write a point before decimals, as in 1.5 h.',
      offer(text.replace(',', '.'), 'With a point.'),
    )
  if (maybeDuration(text.toLowerCase()))
    return wrong(
      'form',
      'Units have small letters, as in 5 min.',
      offer(text.toLowerCase(), 'With small letters.'),
    )
  return wrong('form', 'A duration is a number and a unit, as in 5 min, 1h 30min or PT5M.')
}

function fromClock(text: string): Mend | null {
  const parts = text.split(':')
  return parts.length === 3
    ? offer(`${parts[0]}h ${parts[1]}min ${parts[2]}s`, 'Read as hours, minutes and seconds.')
    : null
}

function offer(text: string, sentence: string): Mend | null {
  return maybeDuration(text) ? { text, sentence } : null
}

export const duration: TypeOfValue = { check: checkDuration, canonical: () => null, example: '5 min' }
