/** How far one camera's clock was off: as hours, minutes and seconds, or by the true time of one of its photos. */
import { useState, type FormEvent, type ReactNode } from 'react'
import { aheadBy, MOST_AHEAD, wordsOfAhead } from '../../../../shared/journal/pictures/clock.ts'
import { Button, Field, TextInput } from '../../../ui/index.ts'
import type { Photo } from './photos.ts'

export interface CameraClockProps {
  /** Empty for photos that name no camera. */
  readonly camera: string
  /** Seconds; negative where it was behind. */
  readonly ahead: number
  readonly own: readonly Photo[]
  readonly onAhead: (seconds: number) => void
}

type Asking = 'nothing' | 'difference' | 'true time'

export function CameraClock({ camera, ahead, own, onAhead }: CameraClockProps): ReactNode {
  const [asking, setAsking] = useState<Asking>('nothing')
  const keep = (seconds: number): void => {
    onAhead(seconds)
    setAsking('nothing')
  }
  const name = camera || 'Photos that name no camera'
  return (
    <section className="st-clock" aria-label={`Clock of ${camera || 'photos that name no camera'}`}>
      <p className="st-clock-words">
        <strong>{name}</strong>: its clock was {wordsOfAhead(ahead)}.
      </p>
      {asking === 'nothing' ? (
        <span className="st-button-row">
          <Button look="quiet" onClick={() => setAsking('difference')}>
            It was off by…
          </Button>
          <Button look="quiet" onClick={() => setAsking('true time')}>
            True time of one photo…
          </Button>
        </span>
      ) : null}
      {asking === 'difference' ? (
        <DifferenceForm ahead={ahead} onKeep={keep} onCancel={() => setAsking('nothing')} />
      ) : null}
      {asking === 'true time' ? (
        <TrueTimeForm own={own} onKeep={keep} onCancel={() => setAsking('nothing')} />
      ) : null}
    </section>
  )
}

interface FormProps {
  readonly onKeep: (seconds: number) => void
  readonly onCancel: () => void
}

function DifferenceForm({ ahead, onKeep, onCancel }: FormProps & { readonly ahead: number }) {
  const all = Math.abs(ahead)
  const [way, setWay] = useState<'ahead' | 'behind'>(ahead < 0 ? 'behind' : 'ahead')
  const [hours, setHours] = useState(String(Math.floor(all / 3600)))
  const [minutes, setMinutes] = useState(String(Math.floor(all / 60) % 60))
  const [seconds, setSeconds] = useState(String(all % 60))
  const sum = toSeconds(hours) * 3600 + toSeconds(minutes) * 60 + toSeconds(seconds)
  const isWrong = !(sum >= 0 && sum <= MOST_AHEAD)
  const part = (
    label: string,
    value: string,
    onChange: (value: string) => void,
    isFirst = false,
  ): ReactNode => (
    <TextInput
      label={label}
      inputMode="numeric"
      autoFocus={isFirst}
      className="st-clock-number"
      value={value}
      onChange={(event) => onChange(event.target.value)}
    />
  )
  return (
    <ClockForm
      name="Difference of the clock"
      isWrong={isWrong}
      onCancel={onCancel}
      onKeep={() => onKeep(way === 'ahead' ? sum : 0 - sum)}
    >
      <Field label="The camera was">
        {(attributes) => (
          <select
            {...attributes}
            className="st-input"
            value={way}
            onChange={(event) => setWay(event.target.value === 'behind' ? 'behind' : 'ahead')}
          >
            <option value="ahead">ahead by</option>
            <option value="behind">behind by</option>
          </select>
        )}
      </Field>
      {part('Hours', hours, setHours, true)}
      {part('Minutes', minutes, setMinutes)}
      {part('Seconds', seconds, setSeconds)}
    </ClockForm>
  )
}

/** A whole number of units; NaN for anything else. */
function toSeconds(text: string): number {
  return /^\s*\d*\s*$/.test(text) ? Number(text) : Number.NaN
}

function TrueTimeForm({ own, onKeep, onCancel }: FormProps & { readonly own: readonly Photo[] }) {
  const [id, setId] = useState(own[0]!.id)
  const photo = own.find((one) => one.id === id) ?? own[0]!
  const shown = new Date(photo.says.taken!.local).toISOString()
  const [date, setDate] = useState(shown.slice(0, 10))
  const [time, setTime] = useState(shown.slice(11, 19))
  const right = Date.parse(`${date}T${/^\d{2}:\d{2}$/.test(time) ? `${time}:00` : time}Z`)
  const choose = (next: Photo): void => {
    const itsTime = new Date(next.says.taken!.local).toISOString()
    setId(next.id)
    setDate(itsTime.slice(0, 10))
    setTime(itsTime.slice(11, 19))
  }
  return (
    <ClockForm
      name="True time of one photo"
      isWrong={Number.isNaN(right)}
      onCancel={onCancel}
      onKeep={() => onKeep(aheadBy(photo.says.taken!, right))}
    >
      <Field label="Photo">
        {(attributes) => (
          <select
            {...attributes}
            className="st-input"
            value={id}
            onChange={(event) => choose(own.find((one) => String(one.id) === event.target.value) ?? photo)}
          >
            {own.map((one) => (
              <option key={one.id} value={one.id}>
                {one.file.name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <img className="st-photo-small" src={photo.url} alt="" />
      <TextInput
        label="True day"
        type="date"
        value={date}
        onChange={(event) => setDate(event.target.value)}
      />
      <TextInput
        label="True time"
        type="time"
        step={1}
        autoFocus
        value={time}
        onChange={(event) => setTime(event.target.value)}
      />
    </ClockForm>
  )
}

interface ClockFormProps {
  readonly name: string
  readonly isWrong: boolean
  readonly onKeep: () => void
  readonly onCancel: () => void
  readonly children: ReactNode
}

function ClockForm({ name, isWrong, onKeep, onCancel, children }: ClockFormProps) {
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    if (!isWrong) onKeep()
  }
  return (
    <form
      className="st-clock-form"
      aria-label={name}
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        onCancel()
      }}
    >
      <div className="st-clock-fields">{children}</div>
      <span className="st-button-row">
        <Button look="quiet" keys="Escape" onClick={onCancel}>
          Cancel
        </Button>
        <Button type="submit" disabled={isWrong}>
          Set the clock right
        </Button>
      </span>
    </form>
  )
}
