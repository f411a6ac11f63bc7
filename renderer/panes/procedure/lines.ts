/** The lines of the menus of parts. */
import type { MenuLine } from '../../ui/index.ts'
import {
  AmendIcon,
  CarryIcon,
  CopyIcon,
  CutIcon,
  RemoveIcon,
  StrikeOutIcon,
  TraceIcon,
} from '../../ui/icons.tsx'
import { lineOfMaking } from '../../parameters/index.ts'
import type { Workspace } from '../../store/workspace.ts'
import { activate, copyFragment, takePartAway } from './acts.ts'
import { cutPart } from './cutting.ts'
import { setPane } from './paneStore.ts'
import { beginSettingAgain } from '../../trace/settingAgain.ts'
import { looseSides } from '../../../shared/provenance/setAgain.ts'
import { pickFromPart } from './pick.ts'
import type { ShownPart } from './shown.ts'

const rule = (id: string): MenuLine => ({ kind: 'rule', id })

/** All that can be done with a part. `title` is the procedure's. */
export function linesOfPart(
  workspace: Workspace,
  { part, text, links }: ShownPart,
  title: string,
): MenuLine[] {
  const node = { kind: 'part', id: part.id } as const
  const fragment = pickFromPart(workspace.requireLab().id, part, text, title)
  const isEmpty = fragment ? {} : { disabledBecause: 'It is empty.' }
  return [
    {
      id: 'edit',
      word: 'Edit',
      icon: AmendIcon,
      hint: 'Enter',
      onChoose: () => void activate(workspace, part.id),
    },
    {
      id: 'trace',
      word: 'Trace',
      icon: TraceIcon,
      hint: 'Alt+T',
      onChoose: () => workspace.set({ traced: node }),
    },
    ...linesOfLoose(links),
    {
      id: 'carry',
      word: 'Carry…',
      icon: CarryIcon,
      hint: 'Alt+C',
      ...isEmpty,
      onChoose: () => workspace.set({ carrying: fragment }),
    },
    {
      id: 'copy',
      word: 'Copy',
      icon: CopyIcon,
      ...isEmpty,
      onChoose: () => fragment && copyFragment(workspace, fragment),
    },
    ...(part.step === null || part.kind === 'heading'
      ? []
      : [
          {
            id: 'cut',
            word: 'Cut',
            icon: CutIcon,
            hint: 'Ctrl+X',
            onChoose: () => cutPart(workspace, part),
          },
        ]),
    lineOfMaking(workspace, part.id, part.procedure),
    rule('r'),
    {
      id: 'strike',
      word: 'Strike out…',
      icon: StrikeOutIcon,
      isDanger: true,
      ...isEmpty,
      onChoose: () => setPane({ striking: { node, text } }),
    },
    ...(part.kind === 'title' || part.kind === 'purpose' || part.kind === 'heading'
      ? []
      : [
          {
            id: 'remove',
            word: 'Remove part',
            icon: RemoveIcon,
            onChoose: () => void takePartAway(workspace, part),
          },
        ]),
  ]
}

/** Links whose words can no longer be found. */
function linesOfLoose(links: ShownPart['links']): MenuLine[] {
  return links.flatMap(({ link, state, name }) =>
    (state ? looseSides(state) : []).map((side) => ({
      id: `set ${side} ${link.id}`,
      word: 'Set its loose link again…',
      icon: TraceIcon,
      hint: name,
      onChoose: () => beginSettingAgain({ link, side }),
    })),
  )
}
