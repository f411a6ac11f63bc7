/** Things that a window has one of for each lab that is open, made when they are first asked for and ended with the lab. */
import type { OpenLab } from '../db/lab.ts'
import type { Workspace } from './workspace.ts'

/**
 * @returns gives the one of the open lab. The second argument makes it where there is none yet, for tests.
 *   @throws Error before a lab is open
 */
export function oneOfLab<T extends { close(): void }>(
  make: (lab: OpenLab) => T,
): (workspace: Workspace, makeOther?: (lab: OpenLab) => T) => T {
  const known = new WeakMap<OpenLab, T>()
  return (workspace, makeOther = make) => {
    const lab = workspace.requireLab()
    const own = known.get(lab)
    if (own) return own
    const made = makeOther(lab)
    known.set(lab, made)
    const stop = workspace.store.subscribe((state) => {
      if (state.lab === lab) return
      stop()
      made.close()
      known.delete(lab)
    })
    return made
  }
}
