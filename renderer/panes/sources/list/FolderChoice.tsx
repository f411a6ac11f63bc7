import { useMemo } from 'react'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { putIntoFolder, takeOutOfFolder } from './acts.ts'
import { heldBy } from './FilterPanel.tsx'
import { FolderTree } from './FolderTree.tsx'
import { idsOf, type Listed } from './useListed.ts'

export interface FolderChoiceProps {
  readonly rows: readonly SourceFacts[]
  readonly listed: Listed
  readonly onClose: () => void
}

/** The folders that one source or several lie in, each to be put into or taken out of by one press. */
export function FolderChoice({ rows, listed, onClose }: FolderChoiceProps) {
  const workspace = useWorkspace()
  const counts = useMemo(() => countIn(rows), [rows])
  const stateOf = (id: FolderId): boolean | 'mixed' => {
    const count = counts.get(id) ?? 0
    return count === 0 ? false : count === rows.length ? true : 'mixed'
  }
  return (
    <div
      className="st-folder-choice"
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || event.defaultPrevented) return
        event.preventDefault()
        event.stopPropagation()
        onClose()
      }}
    >
      <FolderTree
        label={rows.length === 1 ? 'Folders that it lies in' : 'Folders that they lie in'}
        tree={listed.tree}
        counts={counts}
        heldBy={(id) => heldBy(listed, id)}
        choosesMany
        stateOf={stateOf}
        onChoose={(folder) =>
          void (stateOf(folder.id) === true ? takeOutOfFolder : putIntoFolder)(workspace, idsOf(rows), folder)
        }
        onMade={(folder) => void putIntoFolder(workspace, idsOf(rows), folder)}
      />
    </div>
  )
}

/** How many of the sources lie in a folder itself. */
function countIn(rows: readonly SourceFacts[]): ReadonlyMap<FolderId, number> {
  const counts = new Map<FolderId, number>()
  for (const { source } of rows) for (const id of source.folders) counts.set(id, (counts.get(id) ?? 0) + 1)
  return counts
}
