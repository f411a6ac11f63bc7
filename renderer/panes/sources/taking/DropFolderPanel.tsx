import { useStore } from 'zustand'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'
import { dropFolderOf, type DropFolderState } from './dropFolder.ts'

/** Naming the drop folder, seeing how it is, and leaving it. */
export function DropFolderPanel() {
  const watch = dropFolderOf(useWorkspace())
  const state = useStore(watch.store)
  const isThere = state.kind === 'folder'
  return (
    <div className="st-way-in" role="group" aria-label="Drop folder">
      <p>
        A folder that Stillroom looks into: what your browser or another program saves there comes in by
        itself, each file once. The files stay where they are.
      </p>
      <div role="status">
        <StateWords state={state} />
      </div>
      {state.kind === 'none' || isThere ? (
        <div className="st-button-row">
          <Button onClick={() => void watch.choose()}>
            {isThere ? 'Name another folder…' : 'Name a folder…'}
          </Button>
          {isThere ? (
            <Button look="quiet" onClick={() => void watch.leave()}>
              Leave this folder
            </Button>
          ) : null}
        </div>
      ) : null}
    </div>
  )
}

function StateWords({ state }: { readonly state: DropFolderState }) {
  switch (state.kind) {
    case 'unknown':
      return <p>Looking for it …</p>
    case 'none':
      return <p>This lab has none.</p>
    case 'unsupported':
      return <p>{state.sentence}</p>
    case 'folder':
      return (
        <>
          <p className="st-mono">{state.path}</p>
          {state.notes.length === 0 ? (
            <p>It can be read, and all that is complete in it was taken in.</p>
          ) : null}
          {state.notes.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </>
      )
  }
}
