/** Where windows stand: kept in a small file beside the labs, and mended when the screens have changed since. */
import { readFileSync, writeFileSync } from 'node:fs'
import * as v from 'valibot'

const placeSchema = v.object({
  x: v.pipe(v.number(), v.integer()),
  y: v.pipe(v.number(), v.integer()),
  width: v.pipe(v.number(), v.integer(), v.minValue(1)),
  height: v.pipe(v.number(), v.integer(), v.minValue(1)),
  maximized: v.boolean(),
})

/** A rectangle in device-independent pixels. */
export interface Area {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}
/** A window's rectangle when it is not maximised, and whether it is. */
export interface Place extends Area {
  readonly maximized: boolean
}

/** The smallest window in which the three panes can be used, in pixels. */
export const smallest = { width: 720, height: 480 } as const

/** The place that a file holds, null when there is none or it cannot be read as one. */
export function maybeReadPlace(path: string): Place | null {
  try {
    const parsed = v.safeParse(placeSchema, JSON.parse(readFileSync(path, 'utf8')))
    return parsed.success ? parsed.output : null
  } catch {
    return null
  }
}

/** Keeps a place. A window's place is a convenience, so a failure to keep it is not an error. */
export function keepPlace(path: string, place: Place): void {
  try {
    writeFileSync(path, JSON.stringify(place))
  } catch {
    // The next window opens where the system puts it.
  }
}

/**
 * The place where a window opens: as it was, but no smaller than `smallest`, no larger than the work area that it is on,
 * and wholly on it. Without a former place, or when its screen is gone: centred on the first area.
 *
 * @param areas the work areas of the screens, the main one first; there is at least one
 */
export function ensureVisible(place: Place | null, areas: readonly Area[]): Place {
  const main = areas[0]
  if (main === undefined) throw new Error('there is no screen')
  const area = (place === null ? undefined : areas.find((one) => sharedPixels(place, one) > 0)) ?? main
  const width = Math.min(area.width, Math.max(smallest.width, place?.width ?? 1440))
  const height = Math.min(area.height, Math.max(smallest.height, place?.height ?? 900))
  const isOn = place !== null && sharedPixels(place, area) > 0
  const wanted = isOn
    ? place
    : { x: area.x + (area.width - width) / 2, y: area.y + (area.height - height) / 2 }
  const x = Math.round(Math.min(Math.max(wanted.x, area.x), area.x + area.width - width))
  const y = Math.round(Math.min(Math.max(wanted.y, area.y), area.y + area.height - height))
  return { x, y, width, height, maximized: place?.maximized ?? false }
}

function sharedPixels(one: Area, other: Area): number {
  const width = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x)
  const height = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y)
  return Math.max(0, width) * Math.max(0, height)
}
