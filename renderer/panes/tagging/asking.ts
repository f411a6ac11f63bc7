/** The worker that suggests tags for the open lab of a window: begun with the first question, ended with the lab. */
import type { OpenLab } from '../../db/lab.ts'
import type { Workspace } from '../../store/workspace.ts'
import { TagAsker } from '../../workers/tags.ts'

const askers = new WeakMap<OpenLab, TagAsker>()

/** The asker of the open lab. @throws Error before one is open */
export function askerOf(workspace: Workspace, make = (lab: OpenLab) => new TagAsker(lab.id)): TagAsker {
  const lab = workspace.requireLab()
  const known = askers.get(lab)
  if (known) return known
  const asker = make(lab)
  askers.set(lab, asker)
  const stop = workspace.store.subscribe((state) => {
    if (state.lab === lab) return
    stop()
    asker.close()
    askers.delete(lab)
  })
  return asker
}
