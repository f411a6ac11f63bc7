import { useState } from 'react'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button, Menu, MenuAt, sourceKindFaces, type Box, type MenuLine } from '../../ui/index.ts'
import { MoreIcon, ProjectIcon, SourceTextIcon } from '../../ui/icons.tsx'
import { sourcesElsewhere } from './elsewhere.ts'
import { titleOf } from './rows.ts'
import { chooseFiles } from './taking.ts'
import { joinSource } from './useOfSource.ts'

/** The rarer ways in: files by a dialog, and what other projects of the lab use. */
export function ElsewhereMenu() {
  const workspace = useWorkspace()
  const [elsewhere, setElsewhere] = useState<{
    readonly lines: readonly MenuLine[]
    readonly at: Box
  } | null>(null)
  const showElsewhere = async (opener: HTMLElement | null) => {
    if (opener) setElsewhere({ lines: await linesOf(workspace), at: opener.getBoundingClientRect() })
  }
  return (
    <>
      <Menu
        label="More for sources"
        lines={[
          {
            id: 'files',
            word: 'Choose files…',
            icon: SourceTextIcon,
            onChoose: () => void chooseFiles(workspace),
          },
          {
            id: 'elsewhere',
            word: 'Use a source of another project…',
            icon: ProjectIcon,
            // The focus is back on the opener when a line of the menu is chosen.
            onChoose: () => void showElsewhere(document.activeElement as HTMLElement | null),
          },
        ]}
        trigger={(attributes) => (
          <Button {...attributes} look="quiet" icon={MoreIcon} label="More for sources" />
        )}
      />
      {elsewhere ? (
        <MenuAt
          label="Sources of other projects"
          lines={elsewhere.lines}
          at={elsewhere.at}
          onClose={() => setElsewhere(null)}
        />
      ) : null}
    </>
  )
}

async function linesOf(workspace: Workspace): Promise<MenuLine[]> {
  const { project } = workspace.requireView()
  const groups = sourcesElsewhere(
    await workspace.requireLab().queries.sources(),
    workspace.state.projects,
    project,
  )
  if (groups.length === 0)
    return [
      {
        id: 'none',
        word: 'No source of another project',
        disabledBecause: 'This project uses every source of the lab already.',
        onChoose: () => undefined,
      },
    ]
  return groups.flatMap((group): MenuLine[] => [
    {
      kind: 'heading',
      id: group.project?.id ?? 'unused',
      word: group.project?.title ?? 'Used by no project',
    },
    ...group.sources.map((source) => ({
      id: source.id,
      word: titleOf(source),
      icon: sourceKindFaces[source.kind].icon,
      onChoose: () => void joinSource(workspace, source),
    })),
  ])
}
