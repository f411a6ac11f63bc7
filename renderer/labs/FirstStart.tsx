/** What an empty lab shows: what the program is for, and the two ways to begin. */
import { useState } from 'react'
import { beginProject } from '../store/gestures.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, TextInput } from '../ui/index.ts'
import { AddIcon, LabFileInIcon, LabIcon } from '../ui/icons.tsx'
import { useLabFile } from './useLabFile.ts'
import { loadSampleInto } from './loadSample.ts'
import './labs.css'

export function FirstStart() {
  const workspace = useWorkspace()
  const [isBusy, setBusy] = useState(false)
  const { bringIn } = useLabFile()
  const during = (work: () => Promise<unknown>) => () => {
    setBusy(true)
    void work().finally(() => setBusy(false))
  }
  return (
    <section className="st-first" aria-labelledby="st-first-title">
      <h1 id="st-first-title">Keep what you read, what you did, and how to do it again</h1>
      <p className="st-first-purpose">
        Sources stand on the left, the journal of the work in the middle, the procedure on the right. Carry
        words from left to right; each step then knows where it came from.
      </p>
      <ProjectForm isBusy={isBusy} />
      <div className="st-first-others">
        <p>Or look at a finished one first: a small observatory moves its weather logger to a disk.</p>
        <Button icon={LabIcon} disabled={isBusy} onClick={during(() => loadSampleInto(workspace))}>
          Load the sample
        </Button>
        <p>Or go on where you left off on another machine.</p>
        <Button icon={LabFileInIcon} disabled={isBusy} onClick={during(bringIn)}>
          Bring in a lab file
        </Button>
      </div>
    </section>
  )
}

/** Begins a project: its title, and what is to be reached. */
export function ProjectForm({
  isBusy = false,
  onDone,
}: {
  readonly isBusy?: boolean
  readonly onDone?: () => void
}) {
  const workspace = useWorkspace()
  const [title, setTitle] = useState('')
  const [aim, setAim] = useState('')
  const begin = async (): Promise<void> => {
    const project = await beginProject(workspace, {
      title: title.trim(),
      aim: aim.trim(),
      status: 'under way',
    })
    if (project) onDone?.()
  }
  return (
    <form
      className="st-first-form"
      onSubmit={(event) => {
        event.preventDefault()
        if (title.trim() !== '') void begin()
      }}
    >
      <TextInput
        label="What do you want to do?"
        hint="A project, in a few words. For instance: Move the logger to a disk."
        value={title}
        onChange={(event) => setTitle(event.target.value)}
        data-first
      />
      <TextInput
        label="What is to be reached?"
        hint="May stay empty, and may change."
        value={aim}
        onChange={(event) => setAim(event.target.value)}
      />
      <Button type="submit" look="strong" icon={AddIcon} disabled={isBusy || title.trim() === ''}>
        Start the project
      </Button>
    </form>
  )
}
