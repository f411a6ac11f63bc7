/**
 * Moments: an instant together with the UTC offset of the place it was written at, as RFC 3339 text.
 * The offset is kept because "half past two at night" is part of what happened.
 */

declare const momentBrand: unique symbol
/** RFC 3339 date-time with milliseconds and a numeric offset: `2026-11-25T02:30:00.000+01:00`. */
export type Moment = string & { readonly [momentBrand]: true }

/** Tells the time. An argument of the domain functions, so that a test can fix it. */
export interface Clock {
  now(): Moment
}

const rfc3339 = /^(\d{4})-(\d{2})-(\d{2})[Tt](\d{2}):(\d{2}):(\d{2})(\.\d+)?([Zz]|[+-]\d{2}:\d{2})$/

const two = (n: number): string => String(n).padStart(2, '0')

/**
 * Writes an instant with an offset as a moment.
 * @param ms milliseconds since 1970-01-01T00:00:00Z
 * @param offsetMinutes minutes east of UTC, from -1439 to 1439
 * @throws RangeError when either lies outside what RFC 3339 can write (years 0000 to 9999)
 */
export function toMoment(ms: number, offsetMinutes: number): Moment {
  if (!Number.isInteger(offsetMinutes) || Math.abs(offsetMinutes) > 1439)
    throw new RangeError(`offset of ${offsetMinutes} minutes`)
  const local = new Date(ms + offsetMinutes * 60_000)
  const year = local.getUTCFullYear()
  if (!(year >= 0 && year <= 9999)) throw new RangeError(`${ms} ms has no four-digit year`)
  const sign = offsetMinutes < 0 ? '-' : '+'
  const abs = Math.abs(offsetMinutes)
  return `${local.toISOString().slice(0, 23)}${sign}${two(Math.floor(abs / 60))}:${two(abs % 60)}` as Moment
}

/** A clock that reads the machine's time and offset. */
export const systemClock: Clock = {
  now: () => toMoment(Date.now(), -new Date().getTimezoneOffset()),
}

/**
 * Reads any RFC 3339 date-time.
 * @returns the moment in the form that is stored here, or undefined where the text is no valid date-time
 *   (a leap second is read as the last millisecond before it, since ECMAScript has none)
 */
export function readMoment(text: string): Moment | undefined {
  const m = rfc3339.exec(text)
  if (!m) return undefined
  const [, y, mo, d, h, mi, s, fraction, zone] = m
  const [year, month, day, hour, minute, second] = [y, mo, d, h, mi, s].map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  if (month < 1 || month > 12 || hour > 23 || minute > 59 || second > 60) return undefined
  const offset = readOffset(zone!)
  if (offset === undefined) return undefined
  const date = new Date(0)
  date.setUTCFullYear(year, month - 1, day)
  if (day < 1 || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined
  // Digits behind the third are cut off, never rounded: rounding up could move the moment into another day.
  const millis = Number((fraction ?? '.').slice(1, 4).padEnd(3, '0'))
  const leap = second === 60
  date.setUTCHours(hour, minute, leap ? 59 : second, leap ? 999 : millis)
  const ms = date.getTime() - offset * 60_000
  if (leap && !isLastSecondOfUtcDay(ms)) return undefined
  try {
    return toMoment(ms, offset)
  } catch {
    return undefined
  }
}

function readOffset(zone: string): number | undefined {
  if (zone === 'Z' || zone === 'z') return 0
  const hours = Number(zone.slice(1, 3))
  const minutes = Number(zone.slice(4, 6))
  if (hours > 23 || minutes > 59) return undefined
  const total = hours * 60 + minutes
  return zone.startsWith('-') ? 0 - total : total
}

function isLastSecondOfUtcDay(ms: number): boolean {
  const at = new Date(ms)
  return at.getUTCHours() === 23 && at.getUTCMinutes() === 59 && at.getUTCSeconds() === 59
}

/** Milliseconds since 1970-01-01T00:00:00Z of a moment. */
export function instantOf(moment: Moment): number {
  return Date.parse(moment)
}

/** Minutes east of UTC that a moment was written with. */
export function offsetOf(moment: Moment): number {
  return readOffset(moment.slice(23)) ?? 0
}

/** Orders two moments by instant. Negative when `a` is earlier. */
export function compareMoments(a: Moment, b: Moment): number {
  return instantOf(a) - instantOf(b)
}
