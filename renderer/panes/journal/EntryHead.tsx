/** What is true of an entry beside its words, in one quiet line above them: where, and written when. */
import type { ReactNode } from 'react'
import { happenedOf, placeOf } from '../../../shared/journal/entry-facts.ts'
import { wordsOfPlace } from '../../../shared/journal/places.ts'
import { instantOf, type Moment } from '../../../shared/lab/moment.ts'
import type { Entry, Mark } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { PlaceIcon } from '../../ui/icons.tsx'
import { HappenedForm } from './HappenedForm.tsx'
import { setHappened, setPlace } from './entryMarks.ts'
import { focusEntry, setIn, type JournalStore } from './journalState.ts'
import { PlaceForm } from './PlaceForm.tsx'
import { offsetNameOf, timeBeside } from './rows.ts'
import { useEntryMarks } from './useEntry.ts'

export interface EntryHeadProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
  /** Whether it happened elsewhere than what stands before it: only then is the place shown. */
  readonly isElsewhere: boolean
  readonly isPlacing: boolean
  readonly isTiming: boolean
}

/** Up to a minute between happening and writing is not worth a word. Milliseconds. */
const WORTH_SAYING = 60_000

export function EntryHead({
  entry,
  store,
  tabIndex,
  isElsewhere,
  isPlacing,
  isTiming,
}: EntryHeadProps): ReactNode {
  const marks = useEntryMarks(entry.id)
  const late = writtenLate(entry, happenedOf(entry, marks))
  const place = isElsewhere ? placeOf(entry, marks) : null
  if (isPlacing || isTiming)
    return <EntryForms entry={entry} store={store} marks={marks} isPlacing={isPlacing} />
  if (!place && late === null) return null
  return (
    <div className="st-entry-head">
      {place ? <PlaceButton entry={entry} store={store} place={place} tabIndex={tabIndex} /> : null}
      {late === null ? null : <span className="st-entry-late">{late}</span>}
    </div>
  )
}

/** `Written 23:40`, where that is not when it happened. */
export function writtenLate({ moment }: Entry, happened: Moment | null): string | null {
  if (happened === null || Math.abs(instantOf(moment) - instantOf(happened)) < WORTH_SAYING) return null
  const offset = moment.slice(23) === happened.slice(23) ? '' : ` ${offsetNameOf(moment)}`
  return `written ${timeBeside(moment, happened)}${offset}`
}

function EntryForms({
  entry,
  store,
  marks,
  isPlacing,
}: {
  readonly entry: Entry
  readonly store: JournalStore
  readonly marks: readonly Mark[]
  readonly isPlacing: boolean
}) {
  const workspace = useWorkspace()
  const close = (): void => {
    setIn(store, isPlacing ? 'placing' : 'timing', entry.id, false)
    focusEntry(store, entry.id)
  }
  return isPlacing ? (
    <PlaceForm
      place={placeOf(entry, marks)}
      hint="Kept beside the entry, which stays as it was written."
      onCancel={close}
      onKeep={(place) => void setPlace(workspace, entry, place).then(close)}
    />
  ) : (
    <HappenedForm
      happened={happenedOf(entry, marks)}
      written={entry.moment}
      onCancel={close}
      onKeep={(happened) => void setHappened(workspace, entry, happened).then(close)}
    />
  )
}

interface PlaceButtonProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly place: NonNullable<Entry['place']>
  readonly tabIndex: number
}

function PlaceButton({ entry, store, place, tabIndex }: PlaceButtonProps) {
  const machines = useWorkspaceState((state) => state.machines)
  const words = wordsOfPlace(place, machines)
  return (
    <Button
      look="quiet"
      icon={PlaceIcon}
      className="st-entry-fact st-entry-place"
      label={`${words}: where it happened`}
      keys="P"
      tabIndex={tabIndex}
      onClick={() => setIn(store, 'placing', entry.id, true)}
    >
      {words}
    </Button>
  )
}
