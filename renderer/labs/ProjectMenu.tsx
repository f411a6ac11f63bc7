/** The project in the panes, and the others of the lab. */
import { useState } from 'react'
import { projectStatuses, type Project } from '../../shared/lab/model.ts'
import { reviseProject } from '../store/gestures.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, Dialog, Field, Menu, TextInput, type MenuLine } from '../ui/index.ts'
import { AddIcon, AmendIcon, ProjectIcon } from '../ui/icons.tsx'
import { TagField } from '../panes/tagging/index.ts'
import { ProjectForm } from './FirstStart.tsx'
import './labs.css'

type Asking = 'nothing' | 'new' | 'about'

export function ProjectMenu() {
  const workspace = useWorkspace()
  const projects = useWorkspaceState((state) => state.projects)
  const shown = useWorkspaceState((state) => state.view?.project)
  const [asking, setAsking] = useState<Asking>('nothing')
  const project = projects.find(({ id }) => id === shown)
  if (!project) return null
  const close = (): void => setAsking('nothing')
  const lines: MenuLine[] = [
    { kind: 'heading', id: 'projects', word: 'Projects of this lab' },
    ...projects.map((one) => ({
      id: one.id,
      word: one.title,
      hint: hintOf(one),
      isChosen: one.id === shown,
      onChoose: () => void workspace.openProject(one.id),
    })),
    { kind: 'rule', id: 'rule' },
    { id: 'about', word: 'Title, aim and status', icon: AmendIcon, onChoose: () => setAsking('about') },
    { id: 'new', word: 'Start another project', icon: AddIcon, onChoose: () => setAsking('new') },
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

/** A project's status, and its tags as far as there is room. */
function hintOf({ status, tags }: Project): string {
  const shown = tags.slice(0, 3).join(', ')
  return tags.length === 0 ? status : `${status} · ${shown}${tags.length > 3 ? ' …' : ''}`
}

function AboutProject({ project, onDone }: { readonly project: Project; readonly onDone: () => void }) {
  const workspace = useWorkspace()
  const [fields, setFields] = useState({ title: project.title, aim: project.aim, status: project.status })
  const keep = async (): Promise<void> => {
    if (await reviseProject(workspace, project, fields)) onDone()
  }
  return (
    <Dialog title="Title, aim and status" onClose={onDone}>
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
