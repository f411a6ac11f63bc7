/** Days, weeks (ISO 8601: from Monday), months and years of local time as spans. */
import type { TimeSpan } from './query.ts'

/** The local calendar around a clock. Months from 0, as in ECMAScript. */
export class Calendar {
  readonly year: number
  readonly month: number
  readonly date: number
  /** 0 for Monday to 6 for Sunday. */
  readonly weekday: number

  /** @param offsetAt minutes east of UTC at an instant (ms since 1970-01-01T00:00:00Z) */
  constructor(
    now: number,
    private readonly offsetAt: (ms: number) => number,
  ) {
    const local = new Date(now + offsetAt(now) * 60_000)
    this.year = local.getUTCFullYear()
    this.month = local.getUTCMonth()
    this.date = local.getUTCDate()
    this.weekday = (local.getUTCDay() + 6) % 7
  }

  /** The first instant of a local day; days and months out of range count on into the next or former ones. */
  start(year: number, month: number, date: number, hour = 0): number {
    const asUtc = Date.UTC(year, month, date, hour)
    // The offset there is only known near there: a second look is right but in the hour that a change of it skips.
    const near = asUtc - this.offsetAt(asUtc) * 60_000
    return asUtc - this.offsetAt(near) * 60_000
  }

  days(date: number, count = 1, month = this.month, year = this.year): TimeSpan {
    return { from: this.start(year, month, date), to: this.start(year, month, date + count) }
  }

  /** @param weeks from this one: -1 for the one before */
  week(weeks: number, count = 1): TimeSpan {
    return this.days(this.date - this.weekday + 7 * weeks, 7 * count)
  }

  months(month: number, year = this.year, count = 1): TimeSpan {
    return { from: this.start(year, month, 1), to: this.start(year, month + count, 1) }
  }

  years(year: number, count = 1): TimeSpan {
    return { from: this.start(year, 0, 1), to: this.start(year + count, 0, 1) }
  }

  /** Says whether there is such a day. */
  hasDay(year: number, month: number, date: number): boolean {
    const day = new Date(Date.UTC(year, month, date))
    return day.getUTCMonth() === month && day.getUTCDate() === date
  }
}
