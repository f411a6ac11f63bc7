/** The end of a form that writes a file: one file at a time, and why one was not written. */
import { useState, type ReactNode } from 'react'
import type { HostResult } from '../../shared/host.ts'
import { Button, ErrorSentence } from '../ui/index.ts'
import { ExportIcon } from '../ui/icons.tsx'

export interface Writing {
  readonly isBusy: boolean
  /** Why the last try failed. */
  readonly failure: string | null
  readonly start: () => void
}

/**
 * Writes when it is started; not while it writes already.
 * @param onSaved called where the person did not cancel
 */
export function useWriting<Written extends { readonly kind: 'saved' | 'cancelled' }>(
  write: () => Promise<HostResult<Written>>,
  onSaved: (saved: Extract<Written, { readonly kind: 'saved' }>) => void,
): Writing {
  const [isBusy, setBusy] = useState(false)
  const [failure, setFailure] = useState<string | null>(null)
  const run = async (): Promise<void> => {
    setBusy(true)
    setFailure(null)
    const result = await write()
    setBusy(false)
    if (!result.ok) setFailure(result.sentence)
    else if (result.value.kind === 'saved')
      onSaved(result.value as Extract<Written, { readonly kind: 'saved' }>)
  }
  return { isBusy, failure, start: () => (isBusy ? undefined : void run()) }
}

export interface WriteRowProps {
  readonly writing: Writing
  /** On the button: 'Write file'. */
  readonly word: string
  /** What did not happen where it failed: 'The files were not exported.' */
  readonly notDone: string
  /** Whether there is nothing to write. */
  readonly isEmpty?: boolean
}

export function WriteRow({ writing, word, notDone, isEmpty = false }: WriteRowProps): ReactNode {
  const { isBusy, failure, start } = writing
  return (
    <>
      {failure === null ? null : (
        <ErrorSentence
          happened={notDone}
          safe={failure}
          next="Nothing in the lab was changed. Try again, or choose another place."
        />
      )}
      <div className="st-button-row">
        <Button
          icon={ExportIcon}
          aria-disabled={isBusy || isEmpty}
          onClick={() => (isEmpty ? undefined : start())}
        >
          {isBusy ? 'Writing …' : word}
        </Button>
      </div>
    </>
  )
}
