/** Beginning a procedure: its title is typed where it will stand. */
import { useState, type FormEvent } from 'react'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, EmptyState, TextInput } from '../../ui/index.ts'
import { AddIcon, ProcedureIcon } from '../../ui/icons.tsx'
import { beginTitled } from './acts.ts'
import { setPane, usePane } from './paneStore.ts'

/** What stands in the pane while the project has no procedure. */
export function NoProcedure() {
  const isBeginning = usePane((state) => state.newTitle !== null)
  if (isBeginning) return <BeginForm />
  return (
    <EmptyState
      icon={ProcedureIcon}
      purpose="Numbered steps that someone else can follow, distilled from the journal."
      action={
        <Button icon={AddIcon} onClick={() => setPane({ newTitle: '' })}>
          Begin a procedure
        </Button>
      }
      hint="Once there is one, words can be carried into it from the journal and from sources."
    />
  )
}

/** Asks for the title. Enter begins, Escape calls it off. */
export function BeginForm() {
  const workspace = useWorkspace()
  const title = usePane((state) => state.newTitle) ?? ''
  const [isRefused, setRefused] = useState(false)
  const begin = (event: FormEvent) => {
    event.preventDefault()
    if (title.trim() === '') return setRefused(true)
    void beginTitled(workspace, title.trim())
  }
  return (
    <form
      className="st-begin"
      onSubmit={begin}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setPane({ newTitle: null })
      }}
    >
      <TextInput
        label="Title of the procedure"
        placeholder="What will be done when all steps are"
        value={title}
        autoFocus
        className="st-begin-title"
        error={isRefused && title.trim() === '' ? 'Give it a title of one word or more.' : undefined}
        onChange={(event) => setPane({ newTitle: event.currentTarget.value })}
      />
      <div className="st-button-row">
        <Button type="submit">Begin</Button>
        <Button look="quiet" onClick={() => setPane({ newTitle: null })}>
          Not now
        </Button>
      </div>
    </form>
  )
}
