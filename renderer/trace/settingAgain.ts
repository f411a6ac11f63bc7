/** Which link is being set again, and the act. Created without React. */
import { create } from 'zustand'
import type { Link } from '../../shared/lab/model.ts'
import type { Range } from '../../shared/lab/model.ts'
import type { Side } from '../../shared/provenance/moving.ts'
import { looseSides, setLinkAgain } from '../../shared/provenance/setAgain.ts'
import { offerUndo } from '../store/gestures.ts'
import type { Workspace } from '../store/workspace.ts'

export interface SettingAgain {
  readonly link: Link
  readonly side: Side
}

export const useSettingAgain = create<{ readonly setting: SettingAgain | null }>(() => ({ setting: null }))

export function beginSettingAgain(setting: SettingAgain): void {
  useSettingAgain.setState({ setting })
}

export function endSettingAgain(): void {
  useSettingAgain.setState({ setting: null })
}

/** Links one end with the words of a range of its text. @returns whether it was done; else the reason was said */
export async function setAgain(
  workspace: Workspace,
  { link, side }: SettingAgain,
  shown: string,
  range: Range,
): Promise<boolean> {
  await workspace.flushTexts()
  const { queries, surroundings } = workspace.requireLab()
  const { node } = link[side]
  const text = await queries.standing(node.id as never)
  const isStanding = (await queries.standingLinks(node.id)).some((one) => one.link.id === link.id)
  if (!text || !isStanding) {
    workspace.say('problem', 'The text or its link is gone meanwhile. Nothing was changed.')
    return false
  }
  if (text.text !== shown) {
    workspace.say('notice', 'The text was changed meanwhile and is shown anew. Select the words again.')
    return false
  }
  const change = setLinkAgain(surroundings, link, side, text, range)
  if (!change.ok) {
    workspace.say('notice', change.sentence)
    return false
  }
  if (!(await workspace.commit(change.value))) return false
  offerUndo(workspace, 'The link is set again.', change.value.id)
  const made = (await queries.standingLinks(node.id)).find((one) => one.link.revises === link.id)
  const [other] = made ? looseSides(made.state) : []
  // Where both ends were lost, the other one is next.
  if (made && other) beginSettingAgain({ link: made.link, side: other })
  else endSettingAgain()
  return true
}
