/** A lab in memory for tests, with a clock that ticks and ids that can be told beforehand. */
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb'
import { OpenLab } from '../../../renderer/db/lab.ts'
import type { Surroundings } from '../../../shared/lab/acts.ts'
import { createIdMaker, type LabId } from '../../../shared/lab/ids.ts'
import { toMoment } from '../../../shared/lab/moment.ts'

/** 2026-03-02T20:00:00Z: an evening in the story's first week. */
const START = Date.UTC(2026, 2, 2, 20)

/** Surroundings that repeat themselves: every reading of the clock is a second later, random bytes come from a counter. */
export function repeatableSurroundings(seed = 1): Surroundings {
  let seconds = 0
  let state = seed
  const randomByte = (): number => {
    state = (state * 1664525 + 1013904223) >>> 0
    return state >>> 24
  }
  return {
    clock: { now: () => toMoment(START + 1000 * seconds++, 60) },
    ids: createIdMaker(
      () => START + 1000 * seconds,
      (count) => Uint8Array.from({ length: count }, randomByte),
    ),
    randomBytes: (count) => Uint8Array.from({ length: count }, randomByte),
    who: () => null,
  }
}

/** Storage that nobody else sees. */
export function memoryStorage() {
  return { indexedDB: new IDBFactory(), IDBKeyRange }
}

/** Opens an empty lab in memory. */
export async function openTestLab(
  around: Surroundings = repeatableSurroundings(),
  storage = memoryStorage(),
) {
  const id = around.ids.make<LabId>()
  return OpenLab.open(id, storage, around)
}
