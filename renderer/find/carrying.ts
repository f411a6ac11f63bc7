/** Carrying what was found to where the person was writing when the box was opened. */
import { canLand, type LandingPlace } from '../../shared/distil/landing.ts'
import type { Fragment } from '../../shared/distil/fragment.ts'
import { carryFragment } from '../store/gestures.ts'
import type { Workspace } from '../store/workspace.ts'
import { fragmentOf } from './fragments.ts'
import type { FoundRow } from './groups.ts'
import type { WritingPlace } from './writing.ts'

/**
 * Carries the words of a row, as one Change with its link; else says in one sentence why not.
 * @returns whether it was carried, or a place is being chosen instead
 */
export async function carryRow(workspace: Workspace, row: FoundRow, from: WritingPlace): Promise<boolean> {
  const fragment = await fragmentOf(workspace, row)
  if (!fragment.ok) {
    workspace.say('notice', fragment.sentence)
    return false
  }
  const place = from.find(workspace.requireView())
  const why = whyNotTo(fragment.value, place, (part) => workspace.state.view?.parts.get(part)?.step ?? null)
  if (why !== null) {
    const choose = { word: 'Choose a place', onAct: () => workspace.set({ carrying: fragment.value }) }
    workspace.say('notice', why, choose)
    return false
  }
  const result = await carryFragment(workspace, fragment.value, place!, 'keyboard')
  if (!result.ok) return false
  if (place!.at === 'text') placeCursorBehind(from, result.value.link.newer.ranges)
  return true
}

/** Why words cannot be carried to a place, as a sentence; null where they can. @param stepOf the step of a part */
export function whyNotTo(
  fragment: Pick<Fragment, 'origin' | 'node'>,
  place: LandingPlace | null,
  stepOf: (part: string) => string | null,
): string | null {
  if (place === null) return 'You were not writing anywhere. Choose a place for it.'
  if (!canLand(fragment, place))
    return 'You were writing in the journal, which takes words from sources. This goes into a procedure.'
  if (fragment.node.kind !== 'part') return null
  const isOwnText = place.at === 'text' && place.part === fragment.node.id
  const isOwnStep = place.at === 'step' && stepOf(fragment.node.id) === place.step
  return isOwnText || isOwnStep ? 'These words stand where you were writing already.' : null
}

/** The cursor goes on behind the words that came. */
function placeCursorBehind(
  { editor }: WritingPlace,
  ranges: readonly { readonly position: { readonly end: number } }[],
): void {
  const end = ranges.at(-1)?.position.end
  if (!editor?.dom.isConnected || end === undefined || end > editor.state.doc.length) return
  editor.dispatch({ selection: { anchor: end }, scrollIntoView: true })
  editor.focus()
}
