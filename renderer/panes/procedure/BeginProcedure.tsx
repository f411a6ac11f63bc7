/** Beginning a procedure: its title is typed where it will stand. */
import { useState, type FormEvent } from 'react'
import { DRAFT_KEYS, showDraft, useDraftKey } from '../../draft/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button, EmptyState, TextInput } from '../../ui/index.ts'
import { AddIcon, ProcedureIcon } from '../../ui/icons.tsx'
import { beginTitled } from './acts.ts'
import { FirstLanding, useComer } from './LandingPlaces.tsx'
import { setPane, usePane } from './paneStore.ts'
import { takesDragOver, useEndOfVisit } from './visits.ts'

/** What stands in the pane while the project has no procedure. */
export function NoProcedure() {
  const isBeginning = usePane((state) => state.newTitle !== null)
  const workspace = useWorkspace()
  const comer = useComer()
  useEndOfVisit()
  useDraftKey(workspace)
  return (
    <div className="st-no-procedure" onDragOver={(event) => void takesDragOver(event)}>
      {isBeginning ? (
        <BeginForm />
      ) : (
        <EmptyState
          icon={ProcedureIcon}
          purpose="Numbered steps that someone else can follow, distilled from the journal."
          action={
            <div className="st-button-row">
              <Button icon={AddIcon} onClick={() => setPane({ newTitle: '' })}>
                Begin a procedure
              </Button>
              <Button look="quiet" keys={DRAFT_KEYS} onClick={() => showDraft(workspace)}>
                Draft it from the journal
              </Button>
            </div>
          }
          hint="Or carry words over from the journal or from a source: they become its first step."
        />
      )}
      {comer ? <FirstLanding comer={comer} /> : null}
    </div>
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
