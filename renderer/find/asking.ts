/** The worker that finds in the open lab of a window: begun when a lab is open and nothing else is to be done, ended with it. */
import type { OpenLab } from '../db/lab.ts'
import { oneOfLab } from '../store/ofLab.ts'
import type { Workspace } from '../store/workspace.ts'
import { FindAsker } from '../workers/find.ts'

/** The asker of the open lab. @throws Error before one is open */
export const findAskerOf = oneOfLab((lab) => new FindAsker(lab.id))

/**
 * Makes the index of every lab that is opened ready, so that the first question does not wait for it.
 * @param whenIdle calls back when nothing else is to be done
 */
export function beginFinding(
  workspace: Workspace,
  whenIdle: (act: () => void) => void,
  askerOf: (workspace: Workspace) => Pick<FindAsker, 'begin'> = findAskerOf,
): void {
  let begun: OpenLab | null = null
  workspace.store.subscribe(({ lab, phase }) => {
    if (lab === null || lab === begun || phase.kind !== 'ready') return
    begun = lab
    whenIdle(() => {
      if (workspace.state.lab === lab) askerOf(workspace).begin()
    })
  })
}
