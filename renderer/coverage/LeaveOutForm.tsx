/** Asks why something is left out: a ready reason, or one in own words. */
import { useEffect, useRef, useState, type FormEvent, type KeyboardEvent } from 'react'
import { Button, TextInput } from '../ui/index.ts'
import { nextPlace } from '../ui/roving.ts'
import { readyReasons } from './words.ts'

interface LeaveOutFormProps {
  readonly onReason: (reason: string) => void
  readonly onCancel: () => void
}

export function LeaveOutForm({ onReason, onCancel }: LeaveOutFormProps) {
  const form = useRef<HTMLFormElement>(null)
  const [own, setOwn] = useState('')
  const [isAsked, setAsked] = useState(false)
  useEffect(() => {
    form.current?.querySelector<HTMLElement>('button')?.focus()
  }, [])
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    if (own.trim() === '') return setAsked(true)
    onReason(own.trim())
  }
  return (
    <form
      ref={form}
      className="st-leave-out"
      aria-label="Why it is left out"
      noValidate
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          event.preventDefault()
          event.stopPropagation()
          onCancel()
        } else goAlong(event, form.current)
      }}
    >
      <p className="st-field-label">Why is it left out?</p>
      {readyReasons.map((reason) => (
        <Button key={reason} look="quiet" className="st-leave-out-ready" onClick={() => onReason(reason)}>
          {reason}
        </Button>
      ))}
      <TextInput
        label="Another reason"
        value={own}
        error={
          isAsked && own.trim() === '' ? 'Say it in a few words, for whoever reads it later.' : undefined
        }
        onChange={(event) => setOwn(event.target.value)}
      />
      <div className="st-button-row">
        <Button type="submit">Leave it out</Button>
        <Button look="quiet" onClick={onCancel}>
          Not now
        </Button>
      </div>
    </form>
  )
}

/** The arrows lead along the ready reasons. */
function goAlong(event: KeyboardEvent, form: HTMLFormElement | null): void {
  const ready = [...(form?.querySelectorAll<HTMLElement>('.st-leave-out-ready') ?? [])]
  const at = ready.findIndex((one) => one === event.target)
  const next = at < 0 ? null : nextPlace(event.key, at, ready.length, 'vertical')
  if (next === null) return
  event.preventDefault()
  event.stopPropagation()
  ready[next]!.focus()
}
