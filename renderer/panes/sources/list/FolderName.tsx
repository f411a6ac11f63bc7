import { useState, type FormEvent } from 'react'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import type { Folder } from '../../../../shared/lab/model.ts'
import type { FolderTree } from '../../../../shared/sources/folder-tree.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, TextInput } from '../../../ui/index.ts'
import { findNameTrouble, makeFolder, renameFolder } from './folderActs.ts'

/** A folder that is being named. */
export type Naming =
  | { readonly kind: 'new'; readonly parent: FolderId | null }
  | { readonly kind: 'rename'; readonly folder: Folder }

export interface FolderNameProps {
  readonly naming: Naming
  readonly tree: FolderTree
  /** 1 at the top; it stands where the folder does. */
  readonly level: number
  /** The folder that was made or named; null where it was left. */
  readonly onEnd: (folder: Folder | null) => void
}

/** One line for the name of a folder. */
export function FolderName({ naming, tree, level, onEnd }: FolderNameProps) {
  const workspace = useWorkspace()
  const [name, setName] = useState(naming.kind === 'rename' ? naming.folder.name : '')
  const [isAsked, setAsked] = useState(false)
  const parent = naming.kind === 'new' ? naming.parent : (tree.upFrom(naming.folder.id)[1] ?? null)
  const own = naming.kind === 'rename' ? naming.folder.id : null
  const trouble = findNameTrouble(tree, name, parent, own)
  const within = naming.kind === 'new' && parent ? ` in “${tree.find(parent)?.name ?? ''}”` : ''
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    setAsked(true)
    if (trouble) return
    if (naming.kind === 'new') {
      const folder = await makeFolder(workspace, name, parent)
      if (folder) onEnd(folder)
    } else if (await renameFolder(workspace, naming.folder, name)) onEnd(naming.folder)
  }
  return (
    <form
      className="st-folder-naming"
      style={{ paddingInlineStart: `${Math.min(level - 1, 12) * 0.9}rem` }}
      noValidate
      onSubmit={(event) => void submit(event)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          event.preventDefault()
          onEnd(null)
        }
        event.stopPropagation()
      }}
    >
      <TextInput
        label={naming.kind === 'new' ? `Name of the new folder${within}` : `Name of “${naming.folder.name}”`}
        autoFocus
        autoComplete="off"
        spellCheck={false}
        value={name}
        error={isAsked && trouble ? trouble : undefined}
        onChange={({ target }) => setName(target.value)}
      />
      <div className="st-button-row">
        <Button look="strong" type="submit">
          {naming.kind === 'new' ? 'Make it' : 'Rename'}
        </Button>
        <Button look="quiet" onClick={() => onEnd(null)}>
          Leave it
        </Button>
      </div>
    </form>
  )
}
