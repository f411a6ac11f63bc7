/** The offer to rewrite the store, with what it does and does not do. */
import { useState } from 'react'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Button } from '../ui/index.ts'
import { StrikeOutIcon } from '../ui/icons.tsx'

export function RewriteStore() {
  const workspace = useWorkspace()
  const [isAsked, setAsked] = useState(false)
  const [problem, setProblem] = useState<string | null>(null)
  const begin = async (): Promise<void> => {
    setAsked(false)
    setProblem(await beginRewriting(workspace))
  }
  return (
    <>
      <h3>Rewrite the store</h3>
      <p>
        After something was struck out, its bytes may still lie in the database’s files. Rewriting writes all
        labs out, compares, deletes those files, and reads everything back. The window closes and comes back;
        no record is changed.
      </p>
      <p>
        It does not reach copies elsewhere: lab files and journals that were taken out, backups and snapshots,
        and what a disk keeps of deleted files.
      </p>
      {isAsked ? (
        <span className="st-button-row" role="group" aria-label="Rewrite the store now?">
          <Button look="strong" onClick={() => void begin()} autoFocus>
            Yes, rewrite it now
          </Button>
          <Button onClick={() => setAsked(false)}>Not now</Button>
        </span>
      ) : (
        <span className="st-button-row">
          <Button icon={StrikeOutIcon} onClick={() => setAsked(true)}>
            Rewrite the store…
          </Button>
        </span>
      )}
      {problem === null ? null : <p role="alert">{problem}</p>}
    </>
  )
}

/** Loads the page anew, with nothing open. @returns why it did not begin; null where the page is about to go */
async function beginRewriting(workspace: Workspace): Promise<string | null> {
  await workspace.flushTexts()
  const unsaved = [...workspace.state.unsaved.values()][0]
  if (unsaved) return `The store was not rewritten, since something is not saved yet: ${unsaved}`
  const begun = await workspace.host.beginRewriting()
  if (!begun.ok) return begun.sentence
  location.reload()
  return null
}
