import { defaultEntryKind } from '../../../shared/distil/distil.ts'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { EntryKind } from '../../../shared/lab/model.ts'

/** The kinds of entry that a fragment is offered to become, the usual one first. Code may be something to do. */
export function landingKinds(fragment: Fragment): readonly [EntryKind, EntryKind] {
  const usual = defaultEntryKind(fragment)
  if (usual === 'action') return [usual, 'observation']
  return [usual, fragment.fence === null ? 'decision' : 'action']
}
