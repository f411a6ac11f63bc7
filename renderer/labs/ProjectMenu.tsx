/** The project in the panes, and the others of the lab. */
import { useId, useState } from 'react'
import { fileProject, pathOfFolder } from '../../shared/lab/acts.ts'
import { projectStatuses, type Folder, type Project } from '../../shared/lab/model.ts'
import { lineOfMap } from '../map/index.ts'
import { useOffered } from '../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, Dialog, Field, Menu, TextInput, type MenuLine } from '../ui/index.ts'
import { AddIcon, AmendIcon, ExportIcon, FolderIcon, ProjectIcon } from '../ui/icons.tsx'
import { TagField } from '../panes/tagging/index.ts'
import { ProjectForm } from './FirstStart.tsx'
import './labs.css'

type Asking = 'nothing' | 'new' | 'about'

export function ProjectMenu() {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const folders = useWorkspaceState((state) => state.projectFolders)
  const shown = useWorkspaceState((state) => state.view?.project)
  const [asking, setAsking] = useState<Asking>('nothing')
  const project = projects.find(({ id }) => id === shown)
  const acts: MenuLine[] = [
    {
      id: 'about',
      word: 'Title, aim, status and folder',
      icon: AmendIcon,
      onChoose: () => setAsking('about'),
    },
    lineOfMap(workspace),
    {
      id: 'arrange',
      word: 'Projects and folders',
      icon: FolderIcon,
      onChoose: () => workspace.set({ panel: { kind: 'projects' } }),
    },
    {
      id: 'provenance',
      word: 'Export its provenance…',
      icon: ExportIcon,
      onChoose: () => workspace.set({ panel: { kind: 'provenance', of: 'project' } }),
    },
    { id: 'new', word: 'Start another project', icon: AddIcon, onChoose: () => setAsking('new') },
  ]
  useOffered(() => (project ? { about: 'Project', lines: acts } : null))
  if (!project) return null
  const close = (): void => setAsking('nothing')
  const lines: MenuLine[] = [
    { kind: 'heading', id: 'projects', word: 'Projects of this lab' },
    ...groupsOf(projects, folders).flatMap(({ path, inside }): MenuLine[] => [
      ...(path === '' ? [] : [{ kind: 'heading', id: `folder ${path}`, word: path } as const]),
      ...inside.map((one) => ({
        id: one.id,
        word: one.title,
        hint: hintOf(one),
        isChosen: one.id === shown,
        onChoose: () => void workspace.openProject(one.id),
      })),
    ]),
    { kind: 'rule', id: 'rule' },
    ...acts,
  ]
  return (
    <>
      <Menu
        label="Projects"
        lines={lines}
        trigger={(attributes) => (
          <Button {...attributes} className="st-button--name" icon={ProjectIcon}>
            {project.title}
          </Button>
        )}
      />
      {asking === 'new' ? (
        <Dialog title="Start another project" onClose={close}>
          <ProjectForm onDone={close} />
        </Dialog>
      ) : null}
      {asking === 'about' ? <AboutProject project={project} onDone={close} /> : null}
    </>
  )
}

const PATH_SIGN = ' / '

/** Projects by the path of their folder, those without one first. */
function groupsOf(projects: readonly Project[], folders: readonly Folder[]) {
  const groups = new Map<string, Project[]>([['', []]])
  for (const project of projects) {
    const path = pathOfFolder(project.folder, folders).join(PATH_SIGN)
    groups.set(path, [...(groups.get(path) ?? []), project])
  }
  return [...groups].map(([path, inside]) => ({ path, inside })).sort((a, b) => a.path.localeCompare(b.path))
}

/** A project's status, and its tags as far as there is room. */
function hintOf({ status, tags }: Project): string {
  const shown = tags.slice(0, 3).join(', ')
  return tags.length === 0 ? status : `${status} · ${shown}${tags.length > 3 ? ' …' : ''}`
}

function AboutProject({ project, onDone }: { readonly project: Project; readonly onDone: () => void }) {
  const workspace = useWorkspace()
  const [fields, setFields] = useState({ title: project.title, aim: project.aim, status: project.status })
  const folders = useWorkspaceState((state) => state.projectFolders)
  const projects = useWorkspaceState((state) => state.projects)
  const [path, setPath] = useState(pathOfFolder(project.folder, folders).join(PATH_SIGN))
  const listed = useId()
  const keep = async (): Promise<void> => {
    const names = path
      .split('/')
      .map((name) => name.trim())
      .filter(Boolean)
    const { surroundings } = workspace.requireLab()
    const change = fileProject(surroundings, project, fields, names, folders, projects)
    if (await workspace.commit(change)) onDone()
  }
  return (
    <Dialog title="Title, aim, status and folder" onClose={onDone}>
      <form
        className="st-first-form"
        onSubmit={(event) => {
          event.preventDefault()
          void keep()
        }}
      >
        <TextInput
          label="Title"
          value={fields.title}
          onChange={(event) => setFields({ ...fields, title: event.target.value })}
          data-first
        />
        <TextInput
          label="Aim"
          hint="What is to be reached, so that one can say when it is."
          value={fields.aim}
          onChange={(event) => setFields({ ...fields, aim: event.target.value })}
        />
        <Field label="Status">
          {(attributes) => (
            <select
              {...attributes}
              className="st-input"
              value={fields.status}
              onChange={(event) => setFields({ ...fields, status: event.target.value as Project['status'] })}
            >
              {projectStatuses.map((status) => (
                <option key={status}>{status}</option>
              ))}
            </select>
          )}
        </Field>
        <TextInput
          label="Folder"
          hint="Folders may lie in one another: Rack / Power. Empty for none."
          list={listed}
          value={path}
          onChange={(event) => setPath(event.target.value)}
        />
        <datalist id={listed}>
          {folders.map(({ id }) => (
            <option key={id} value={pathOfFolder(id, folders).join(PATH_SIGN)} />
          ))}
        </datalist>
        <Button type="submit" look="strong" disabled={fields.title.trim() === ''}>
          Keep
        </Button>
      </form>
      <div className="st-field">
        <span className="st-field-label">Tags</span>
        <TagField thing={{ kind: 'project', record: project }} />
        <p className="st-field-hint">Tags are kept at once.</p>
      </div>
    </Dialog>
  )
}
