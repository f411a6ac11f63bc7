/** Where each row of a procedure happens. */
import { partsOfPlace } from '../../journal/places.ts'
import { compareSteps } from '../../lab/acts.ts'
import type { StepId } from '../../lab/ids.ts'
import type { Machine, Place, Procedure, Step } from '../../lab/model.ts'

export interface RowPlace {
  /** Null where nothing was said so far. */
  readonly place: Place | null
  /** Whether it is another one than that of the row before. */
  readonly isChanged: boolean
}

/**
 * The place of each row: the last one that was said at or before it. A place that names no machine is on the machine of
 * the one before, as the same user unless it names another; on another machine nothing is inherited.
 */
export function rowPlaces(
  procedure: Pick<Procedure, 'place'>,
  steps: readonly Step[],
): Map<StepId, RowPlace> {
  const places = new Map<StepId, RowPlace>()
  let place: Place | null = null
  let next: Place | null = procedure.place
  for (const step of [...steps].sort(compareSteps)) {
    if (step.place) next = inherit(next, step.place)
    // A section happens nowhere itself: what it says shows at its first step, unless it says it itself.
    const shows = step.level !== 'section' || step.place !== null
    places.set(step.id, { place: next, isChanged: shows && !isSamePlace(place, next) })
    if (shows) place = next
  }
  return places
}

function inherit(before: Place | null, said: Place): Place {
  if (!before || said.machine !== null || said.host !== null) return said
  return {
    machine: before.machine,
    host: before.host,
    user: said.user ?? before.user,
    directory: said.directory ?? (said.user === null ? before.directory : null),
  }
}

export function isSamePlace(a: Place | null, b: Place | null): boolean {
  if (!a || !b) return a === b
  return a.machine === b.machine && a.host === b.host && a.user === b.user && a.directory === b.directory
}

/** A place as an instruction: "on logger, as root, in /etc". */
export function placeInWords(place: Place, machines: readonly Machine[]): string {
  const where = partsOfPlace({ ...place, user: null, directory: null }, machines)
  return [
    ...where.map((name) => `on ${name}`),
    ...(place.user === null ? [] : [`as ${place.user}`]),
    ...(place.directory === null ? [] : [`in ${place.directory}`]),
  ].join(', ')
}
