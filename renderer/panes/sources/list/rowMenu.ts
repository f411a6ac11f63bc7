/** What can be done with one source of the list. */
import type { Source } from '../../../../shared/lab/model.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import type { Workspace } from '../../../store/workspace.ts'
import type { MenuLine } from '../../../ui/index.ts'
import {
  AddIcon,
  AmendIcon,
  CarryIcon,
  FolderIcon,
  PinIcon,
  RemoveIcon,
  SetAsideIcon,
  TagIcon,
  TraceIcon,
  UndoIcon,
} from '../../../ui/icons.tsx'
import { carrySource, traceSource } from '../carryingSource.ts'
import { titleOf } from '../rows.ts'
import { joinSource, leaveSource } from '../useOfSource.ts'
import { separate, setAside, setPinned } from './acts.ts'
import type { RowPart } from './listState.ts'

export interface RowActs {
  readonly title: string
  readonly isUsedHere: boolean
  /** Those that were merged into it. */
  readonly merged: readonly Source[]
  readonly open: (part: RowPart) => void
}

export function rowLines(
  workspace: Workspace,
  { source }: SourceFacts,
  { title, isUsedHere, merged, open }: RowActs,
): MenuLine[] {
  const ids = [source.id]
  return [
    { kind: 'heading', id: 'title', word: title },
    {
      id: 'carry',
      word: 'Carry…',
      icon: CarryIcon,
      hint: 'Alt+C',
      onChoose: () => carrySource(workspace, source),
    },
    {
      id: 'trace',
      word: 'Trace',
      hint: 'Alt+T',
      icon: TraceIcon,
      onChoose: () => traceSource(workspace, source),
    },
    {
      id: 'edit',
      word: 'Rename or change its address',
      icon: AmendIcon,
      onChoose: () => open('fields'),
    },
    { id: 'tags', word: 'Tags…', icon: TagIcon, onChoose: () => open('tags') },
    { id: 'folders', word: 'Folders…', icon: FolderIcon, onChoose: () => open('folders') },
    { kind: 'rule', id: 'order' },
    {
      id: 'pin',
      word: source.pinned ? 'Take the pin off' : 'Pin it to the head of the list',
      icon: PinIcon,
      onChoose: () => void setPinned(workspace, ids, !source.pinned),
    },
    {
      id: 'aside',
      word: source.setAside ? 'Bring it back into the list' : 'Set it aside',
      icon: SetAsideIcon,
      onChoose: () => void setAside(workspace, ids, !source.setAside),
    },
    isUsedHere
      ? {
          id: 'leave',
          word: 'Take out of this project',
          icon: RemoveIcon,
          onChoose: () => void leaveSource(workspace, source),
        }
      : {
          id: 'join',
          word: 'Take into this project',
          icon: AddIcon,
          onChoose: () => void joinSource(workspace, source),
        },
    ...merged.map((one) => ({
      id: one.id,
      word: `Separate “${titleOf(one)}” again`,
      icon: UndoIcon,
      onChoose: () => void separate(workspace, one.id),
    })),
  ]
}
