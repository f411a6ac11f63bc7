/** When something happened that is written down late. */
import { useState, type FormEvent, type ReactNode } from 'react'
import { offsetOf, toMoment, type Moment } from '../../../shared/lab/moment.ts'
import { Button, TextInput } from '../../ui/index.ts'

export interface HappenedFormProps {
  /** What stands now; null for the moment of writing. */
  readonly happened: Moment | null
  /** The moment of writing. */
  readonly written: Moment
  readonly onKeep: (happened: Moment | null) => void
  readonly onCancel: () => void
}

export function HappenedForm({ happened, written, onKeep, onCancel }: HappenedFormProps): ReactNode {
  const shown = happened ?? written
  const [date, setDate] = useState(shown.slice(0, 10))
  const [time, setTime] = useState(shown.slice(11, 19))
  const [error, setError] = useState<string | undefined>(undefined)
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    const moment = toHappened(date, time, offsetOf(shown))
    if (!moment) setError('Write the time as hours and minutes, for instance 02:30.')
    else if (Date.parse(moment) > Date.now())
      setError('That is still to come. Say when it happened, or leave it at now.')
    else onKeep(moment)
  }
  return (
    <form
      className="st-facts-form"
      aria-label="When it happened"
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        onCancel()
      }}
    >
      <div className="st-facts-fields">
        <TextInput
          label="Day"
          type="date"
          autoFocus
          value={date}
          onChange={(event) => setDate(event.target.value)}
        />
        <TextInput
          label={`Time (UTC${shown.slice(23)})`}
          type="time"
          step={1}
          value={time}
          error={error}
          onChange={(event) => setTime(event.target.value)}
        />
      </div>
      <div className="st-facts-foot">
        <p className="st-field-hint">Both times stay: when it happened, and when it was written down.</p>
        <span className="st-button-row">
          <Button look="quiet" onClick={() => onKeep(null)}>
            When written
          </Button>
          <Button type="submit">Keep the time</Button>
        </span>
      </div>
    </form>
  )
}

/** @param offset minutes east of UTC */
export function toHappened(date: string, time: string, offset: number): Moment | null {
  const whole = /^\d{2}:\d{2}$/.test(time) ? `${time}:00` : time
  const ms = Date.parse(`${date}T${whole}Z`)
  return Number.isNaN(ms) ? null : toMoment(ms - offset * 60_000, offset)
}
