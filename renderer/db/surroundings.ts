/** The machine's own clock and chance. */
import type { Surroundings } from '../../shared/lab/making.ts'
import { createIdMaker } from '../../shared/lab/ids.ts'
import { systemClock } from '../../shared/lab/moment.ts'

/** Surroundings with the machine's clock, ids that grow, and random bytes fit for salts (W3C Web Cryptography). */
export function systemSurroundings(): Surroundings {
  const randomBytes = (count: number): Uint8Array => crypto.getRandomValues(new Uint8Array(count))
  return { clock: systemClock, ids: createIdMaker(Date.now, randomBytes), randomBytes, who: () => null }
}
