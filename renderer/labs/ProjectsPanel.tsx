/** The projects of the lab in their folders: to be opened, moved and sorted, and the folders to be named, moved and removed. */
import { useState, type FormEvent, type ReactNode } from 'react'
import type { FolderId } from '../../shared/lab/ids.ts'
import type { Folder, Project } from '../../shared/lab/model.ts'
import { toFolderTree, type FolderTree } from '../../shared/sources/folder-tree.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, Menu, TextInput, type MenuLine } from '../ui/index.ts'
import { AddIcon, AmendIcon, FolderIcon, MoreIcon, RemoveIcon } from '../ui/icons.tsx'
import {
  findFolderNameTrouble,
  folderTargets,
  makeFolder,
  moveFolder,
  moveProject,
  removeFolder,
  renameFolder,
} from './folderActs.ts'
import './labs.css'

/** What is being named: a new folder in another or at the top, or one that stands. */
type Naming =
  | { readonly kind: 'new'; readonly parent: FolderId | null }
  | { readonly kind: 'rename'; readonly folder: Folder }

export function ProjectsPanel(): ReactNode {
  const workspace = useWorkspace()
  const folders = useWorkspaceState((state) => state.projectFolders)
  const projects = useWorkspaceState((state) => state.projects)
  const [naming, setNaming] = useState<Naming | null>(null)
  const shown: Shown = { tree: toFolderTree(folders), folders, projects, naming, onName: setNaming }
  const isNamingAtTop = naming?.kind === 'new' && naming.parent === null
  return (
    <Panel
      title="Projects and folders"
      band="sources"
      className="st-projects-panel"
      onClose={() => workspace.set({ panel: null })}
    >
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="Projects in their folders"
      >
        <Level within={null} shown={shown} />
        {isNamingAtTop ? (
          <FolderName key="new" naming={naming} shown={shown} />
        ) : (
          <Button icon={AddIcon} data-first onClick={() => setNaming({ kind: 'new', parent: null })}>
            New folder
          </Button>
        )}
      </div>
    </Panel>
  )
}

interface Shown {
  readonly tree: FolderTree
  readonly folders: readonly Folder[]
  readonly projects: readonly Project[]
  readonly naming: Naming | null
  readonly onName: (naming: Naming | null) => void
}

/** What lies in one folder, or at the top: projects first, then folders. */
function Level({ within, shown }: { readonly within: FolderId | null; readonly shown: Shown }) {
  const { tree, projects } = shown
  const isHere = ({ folder }: Project): boolean =>
    folder !== null && tree.find(folder) ? folder === within : within === null
  const here = projects.filter(isHere)
  const inner = tree.childrenOf(within)
  if (here.length + inner.length === 0) return null
  return (
    <ul className="st-project-folders">
      {here.map((project) => (
        <ProjectRow key={project.id} project={project} shown={shown} />
      ))}
      {inner.map((folder) => (
        <FolderRow key={folder.id} folder={folder} shown={shown} />
      ))}
    </ul>
  )
}

function ProjectRow({ project, shown }: { readonly project: Project; readonly shown: Shown }) {
  const workspace = useWorkspace()
  const open = useWorkspaceState((state) => state.view?.project)
  const lines: MenuLine[] = [
    { kind: 'heading', id: 'name', word: `Move “${project.title}”` },
    ...placesFor(shown, null, project.folder, (into) => void moveProject(workspace, project, into)),
  ]
  return (
    <li className="st-project-row">
      <Button
        look="quiet"
        className="st-project-name"
        aria-current={project.id === open ? 'page' : undefined}
        onClick={() => void workspace.openProject(project.id)}
      >
        {project.title}
      </Button>
      <span className="st-project-status">{project.status}</span>
      <MoreOf name={project.title} lines={lines} />
    </li>
  )
}

function FolderRow({ folder, shown }: { readonly folder: Folder; readonly shown: Shown }) {
  const workspace = useWorkspace()
  const { naming, onName } = shown
  const isRenamed = naming?.kind === 'rename' && naming.folder.id === folder.id
  const isMadeIn = naming?.kind === 'new' && naming.parent === folder.id
  const lines: MenuLine[] = [
    {
      id: 'new',
      word: 'New folder in it…',
      icon: AddIcon,
      onChoose: () => onName({ kind: 'new', parent: folder.id }),
    },
    { id: 'rename', word: 'Rename…', icon: AmendIcon, onChoose: () => onName({ kind: 'rename', folder }) },
    {
      id: 'remove',
      word: 'Remove the folder',
      hint: 'what lies in it goes up',
      icon: RemoveIcon,
      onChoose: () => void removeFolder(workspace, folder),
    },
    { kind: 'heading', id: 'move', word: 'Move it' },
    ...placesFor(shown, folder, folder.parent, (into) => void moveFolder(workspace, folder, into)),
  ]
  return (
    <li>
      {isRenamed ? (
        <FolderName naming={naming} shown={shown} />
      ) : (
        <div className="st-project-row">
          <FolderIcon />
          <span className="st-project-folder">{folder.name}</span>
          <MoreOf name={`the folder ${folder.name}`} lines={lines} />
        </div>
      )}
      <Level within={folder.id} shown={shown} />
      {isMadeIn ? <FolderName key="new" naming={naming} shown={shown} /> : null}
    </li>
  )
}

function MoreOf({ name, lines }: { readonly name: string; readonly lines: readonly MenuLine[] }) {
  return (
    <Menu
      label={`More for ${name}`}
      lines={lines}
      trigger={(attributes) => (
        <Button {...attributes} look="quiet" icon={MoreIcon} label={`More for ${name}`} />
      )}
    />
  )
}

/** The places that something can be moved to, as lines of a menu; the one where it lies is marked. */
function placesFor(
  { tree, folders }: Shown,
  moved: Folder | null,
  now: FolderId | null,
  onMove: (into: Folder | null) => void,
): MenuLine[] {
  const targets = moved ? folderTargets(moved, folders) : folders
  const isHere = (id: FolderId): boolean => id === now
  const named = folders
    .filter((one) => targets.includes(one) || isHere(one.id))
    .map((one) => ({ one, path: tree.pathOf(one.id).join(' / ') }))
    .sort((a, b) => a.path.localeCompare(b.path))
  return [
    { id: 'top', word: 'To the top', isChosen: now === null, onChoose: () => onMove(null) },
    ...named.map(({ one, path }) => ({
      id: one.id,
      word: path,
      isChosen: isHere(one.id),
      onChoose: () => onMove(one),
    })),
  ]
}

function FolderName({ naming, shown }: { readonly naming: Naming; readonly shown: Shown }) {
  const workspace = useWorkspace()
  const standing = naming.kind === 'rename' ? naming.folder : null
  const parent = naming.kind === 'new' ? naming.parent : naming.folder.parent
  const [name, setName] = useState(standing?.name ?? '')
  const [isAsked, setAsked] = useState(false)
  const trouble = findFolderNameTrouble(shown.folders, name, parent, standing?.id ?? null)
  const within = standing === null && parent ? ` in “${shown.tree.find(parent)?.name ?? ''}”` : ''
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    setAsked(true)
    if (trouble) return
    const isDone = standing
      ? await renameFolder(workspace, standing, name)
      : await makeFolder(workspace, name, parent)
    if (isDone) shown.onName(null)
  }
  return (
    <form
      className="st-project-naming"
      noValidate
      onSubmit={(event) => void submit(event)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        shown.onName(null)
      }}
    >
      <TextInput
        label={standing ? `Name of “${standing.name}”` : `Name of the new folder${within}`}
        autoFocus
        autoComplete="off"
        spellCheck={false}
        value={name}
        error={isAsked && trouble ? trouble : undefined}
        onChange={({ target }) => setName(target.value)}
      />
      <div className="st-button-row">
        <Button look="strong" type="submit">
          {standing ? 'Rename' : 'Make it'}
        </Button>
        <Button look="quiet" onClick={() => shown.onName(null)}>
          Leave it
        </Button>
      </div>
    </form>
  )
}
