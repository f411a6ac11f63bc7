/** Places in words, and the machine that a place is on. */
import type { Machine, Place } from '../lab/model.ts'
import { maybeMachineOf } from '../lab/machine-acts.ts'

/** Nothing known. */
export const nowhere: Place = { machine: null, host: null, user: null, directory: null }

/** A place with blanks taken for nothing; null where nothing is left. */
export function tidyPlace(place: Place): Place | null {
  const clean = (text: string | null): string | null => text?.trim() || null
  const next = {
    machine: place.machine,
    host: clean(place.host),
    user: clean(place.user),
    directory: clean(place.directory),
  }
  return (next.machine ?? next.host ?? next.user ?? next.directory) ? next : null
}

/** The machine of a place: the one that was chosen, else the one that is known by the host's name. */
export function machineOfPlace(place: Place | null, machines: readonly Machine[]): Machine | undefined {
  if (!place) return undefined
  if (place.machine) return machines.find(({ id }) => id === place.machine)
  return place.host === null ? undefined : maybeMachineOf(place.host, machines)
}

/** What places are told apart by: the machine's id, or the host's name in small letters where no machine is known. */
export function whereOf(place: Place | null, machines: readonly Machine[]): string | null {
  return machineOfPlace(place, machines)?.id ?? place?.host?.toLowerCase() ?? null
}

/** The name of where a place is: the machine's, else the host's as it was given. */
export function nameOfWhere(place: Place | null, machines: readonly Machine[]): string | null {
  return machineOfPlace(place, machines)?.name ?? place?.host ?? null
}

/** The parts of a place that are known, in order: machine, user, directory. */
export function partsOfPlace(place: Place, machines: readonly Machine[]): string[] {
  return [nameOfWhere(place, machines), place.user, place.directory].filter((part) => part !== null)
}

/** A place in one line: `gate, root, /etc`. */
export function wordsOfPlace(place: Place, machines: readonly Machine[]): string {
  return partsOfPlace(place, machines).join(', ')
}
