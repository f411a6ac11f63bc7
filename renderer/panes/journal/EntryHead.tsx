/** What is true of an entry beside its words, in one quiet line above them: where, with what outcome, written when. */
import type { ReactNode } from 'react'
import { happenedOf, outcomeOf, outcomeSet, placeOf } from '../../../shared/journal/entry-facts.ts'
import { wordsOfPlace } from '../../../shared/journal/places.ts'
import { instantOf, type Moment } from '../../../shared/lab/moment.ts'
import type { Entry, Mark, Outcome } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import { FailedIcon, PlaceIcon, SucceededIcon, UnknownIcon, type Icon } from '../../ui/icons.tsx'
import { HappenedForm } from './HappenedForm.tsx'
import { setHappened, setOutcome, setPlace } from './entryMarks.ts'
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
  if (entry.kind !== 'action' && !place && late === null) return null
  return (
    <div className="st-entry-head">
      {place ? <PlaceButton entry={entry} store={store} place={place} tabIndex={tabIndex} /> : null}
      {entry.kind === 'action' ? <OutcomeMenu entry={entry} marks={marks} tabIndex={tabIndex} /> : null}
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

const faceOf: Readonly<Record<Outcome, { readonly icon: Icon; readonly key: string }>> = {
  succeeded: { icon: SucceededIcon, key: 'S' },
  failed: { icon: FailedIcon, key: 'F' },
  unknown: { icon: UnknownIcon, key: 'U' },
}

/** The outcome of an action's commands, and the menu that sets it. */
function OutcomeMenu({
  entry,
  marks,
  tabIndex,
}: {
  readonly entry: Entry
  readonly marks: readonly Mark[]
  readonly tabIndex: number
}) {
  const workspace = useWorkspace()
  const outcome = outcomeOf(entry, marks)
  const exitCode = entry.ran?.exitCode ?? null
  const byHand = outcomeSet(marks, null)
  const lines: MenuLine[] = (['succeeded', 'failed', 'unknown'] as const).map((one) => ({
    id: one,
    word: one[0]!.toUpperCase() + one.slice(1),
    icon: faceOf[one].icon,
    hint: faceOf[one].key,
    isChosen: one === outcome,
    onChoose: () => void setOutcome(workspace, entry, one),
  }))
  if (byHand !== null && exitCode !== null)
    lines.push({
      id: 'exit code',
      word: `As the exit code says (${exitCode})`,
      onChoose: () => void setOutcome(workspace, entry, null),
    })
  const code = exitCode !== null && (exitCode !== 0 || byHand !== null) ? `, exit ${exitCode}` : ''
  return (
    <Menu
      label="Outcome"
      lines={lines}
      trigger={(attributes) => (
        <Button
          {...attributes}
          look="quiet"
          icon={faceOf[outcome].icon}
          className={`st-entry-fact st-outcome st-outcome--${outcome}`}
          label={`${outcome}${code}: outcome of this action`}
          tabIndex={tabIndex}
        >
          {`${outcome}${code}`}
        </Button>
      )}
    />
  )
}
