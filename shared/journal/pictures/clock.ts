/** How far a camera's clock was off, and when its pictures were really taken. */
import { toMoment, type Moment } from '../../lab/moment.ts'
import type { CameraTime } from './camera.ts'

/** Minutes east of UTC that hold where the person is, when the clock on the wall shows `local` (see CameraTime). */
export type OffsetAt = (local: number) => number

/** A difference that is larger than this is a typing error: a century, in seconds. */
export const MOST_AHEAD = 100 * 366 * 86_400

/**
 * The moment at which a picture was taken.
 * @param ahead seconds by which the camera's clock was ahead; negative where it was behind
 * @param offsetAt for cameras that do not say their offset
 * @returns undefined where the corrected time lies outside the years that can be written
 */
export function momentTaken(
  { local, offset }: CameraTime,
  ahead: number,
  offsetAt: OffsetAt,
): Moment | undefined {
  const right = local - ahead * 1000
  const minutes = offset ?? offsetAt(right)
  try {
    return toMoment(right - minutes * 60_000, minutes)
  } catch {
    return undefined
  }
}

/** By how many seconds the camera's clock was ahead, when one picture's true time is known. Both by the same wall. */
export function aheadBy({ local }: CameraTime, trueLocal: number): number {
  // A person names whole seconds; the camera's fraction is none of the difference.
  return Math.floor(local / 1000) - Math.floor(trueLocal / 1000)
}

/** `right`, `1 h 12 min 5 s ahead`, `3 days 2 min behind`. */
export function wordsOfAhead(ahead: number): string {
  if (ahead === 0) return 'right'
  const all = Math.abs(ahead)
  const days = Math.floor(all / 86_400)
  const parts = [
    days === 0 ? '' : days === 1 ? '1 day' : `${days} days`,
    partOf(Math.floor(all / 3600) % 24, 'h'),
    partOf(Math.floor(all / 60) % 60, 'min'),
    partOf(all % 60, 's'),
  ].filter((part) => part !== '')
  return `${parts.join(' ')} ${ahead > 0 ? 'ahead' : 'behind'}`
}

const partOf = (count: number, unit: string): string => (count === 0 ? '' : `${count} ${unit}`)
