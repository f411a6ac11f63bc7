import type { RevisionId } from '../lab/ids.ts'
import type { Revision } from '../lab/model.ts'
import { changeText } from '../lab/text.ts'
import { isSelectorTrue } from '../provenance/selectors.ts'
import type { Fragment } from './fragment.ts'

/**
 * Says which revision a fragment's words were copied from, where the text has changed since: the newest one in which they
 * stand at their places. The link then names that revision, and is true of it.
 * @param revisions of the text, all of them in order
 * @returns null where the words never stood there
 */
export function settleInPast(fragment: Fragment, revisions: readonly Revision[]): Fragment | null {
  let text = ''
  let found: RevisionId | null = null
  for (const { id, changeSet } of revisions) {
    text = changeText(text, changeSet)
    if (fragment.selectors.every((selector) => isSelectorTrue(text, selector))) found = id
  }
  return found && { ...fragment, revision: found }
}
