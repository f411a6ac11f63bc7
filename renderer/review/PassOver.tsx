/** Asks why a finding is passed over; without a reason it is not. */
import { useEffect, useRef, useState, type FormEvent } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, TextInput } from '../ui/index.ts'
import { passOver } from './acts.ts'
import type { ListedFinding } from './listed.ts'
import { endPassing, setReason, usePassing } from './passing.ts'

interface PassOverProps {
  readonly procedure: ProcedureId
  readonly finding: ListedFinding
}

export function PassOver({ procedure, finding }: PassOverProps) {
  const workspace = useWorkspace()
  const form = useRef<HTMLFormElement>(null)
  const reason = usePassing((state) => state.reason)
  const [isAsked, setAsked] = useState(false)
  const [isBusy, setBusy] = useState(false)
  const isEmpty = reason.trim() === ''
  const lineAround = () => form.current?.closest<HTMLElement>('[data-key]')
  useEffect(() => {
    // Opened again with a reason half written, as with the panel, it leaves the keyboard where it is.
    if (lineAround()?.contains(document.activeElement)) form.current?.querySelector('input')?.focus()
  }, [])
  useEffect(() => {
    // With its buttons, and with the sentence that says what is missing.
    if (form.current?.contains(document.activeElement)) form.current.scrollIntoView({ block: 'nearest' })
  }, [isAsked])
  const cancel = (): void => {
    lineAround()?.focus()
    endPassing()
  }
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    if (isBusy) return
    if (isEmpty) return setAsked(true)
    setBusy(true)
    void passOver(workspace, procedure, finding, reason.trim())
      .then((isDone) => (isDone ? endPassing() : undefined))
      .finally(() => setBusy(false))
  }
  return (
    <form
      ref={form}
      className="st-finding-pass"
      noValidate
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        cancel()
      }}
    >
      <TextInput
        label="Why it is right as it stands"
        value={reason}
        error={isAsked && isEmpty ? 'Say why, so that others need not wonder.' : undefined}
        onChange={(event) => setReason(event.target.value)}
      />
      <span className="st-button-row">
        <Button look="quiet" keys="Escape" onClick={cancel}>
          Cancel
        </Button>
        <Button type="submit" keys="Enter" disabled={isBusy}>
          Pass it over
        </Button>
      </span>
    </form>
  )
}
