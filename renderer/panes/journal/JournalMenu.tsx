/** What can be done with the journal as a whole. */
import type { ReactNode } from 'react'
import { useOffered } from '../../store/offers.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import {
  KindActionIcon,
  KindProblemIcon,
  MoreIcon,
  NoticeIcon,
  PlaceIcon,
  SealIcon,
} from '../../ui/icons.tsx'

export function JournalMenu(): ReactNode {
  const workspace = useWorkspace()
  const lines: MenuLine[] = [
    {
      id: 'logs',
      word: 'Terminal logs…',
      hint: 'follow or bring in',
      icon: KindActionIcon,
      onChoose: () => workspace.set({ panel: { kind: 'logs' } }),
    },
    {
      id: 'problems',
      word: 'Problems…',
      icon: KindProblemIcon,
      onChoose: () => workspace.set({ panel: { kind: 'problems', of: 'project' } }),
    },
    {
      id: 'machines',
      word: 'Machines…',
      icon: PlaceIcon,
      onChoose: () => workspace.set({ panel: { kind: 'machines', machine: null } }),
    },
    {
      id: 'seal',
      word: 'The seal…',
      hint: 'check, take out',
      icon: SealIcon,
      onChoose: () => workspace.set({ panel: { kind: 'seal' } }),
    },
    {
      id: 'help',
      word: 'How to log a terminal',
      icon: NoticeIcon,
      onChoose: () => workspace.set({ panel: { kind: 'help', page: 'terminal logs' } }),
    },
    {
      id: 'keys',
      word: 'Keys',
      icon: NoticeIcon,
      onChoose: () => workspace.set({ panel: { kind: 'help', page: 'keys' } }),
    },
  ]
  useOffered(() => ({ about: 'Journal', lines }))
  return (
    <Menu
      label="The journal"
      lines={lines}
      trigger={(attributes) => (
        <Button {...attributes} look="quiet" icon={MoreIcon} label="More for the journal" />
      )}
    />
  )
}
