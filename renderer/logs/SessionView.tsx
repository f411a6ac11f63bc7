/** One open log: how it stands, and what it offers. */
import { memo, useState, type ReactNode } from 'react'
import { useStore } from 'zustand'
import { outcomeOfExit } from '../../shared/journal/entry-facts.ts'
import type { MachineId } from '../../shared/lab/ids.ts'
import { systemClock, offsetOf, toMoment } from '../../shared/lab/moment.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, Field, ProgressLine, TextInput } from '../ui/index.ts'
import { ChosenIcon, FailedIcon, NotChosenIcon, SucceededIcon, UnknownIcon } from '../ui/icons.tsx'
import type { LogSession, Offer, SessionPhase } from './session.ts'

/** How many offers are drawn at once, the newest. */
const SHOWN = 100

export interface SessionViewProps {
  readonly session: LogSession
  readonly onClose: () => void
}

export function SessionView({ session, onClose }: SessionViewProps): ReactNode {
  const state = useStore(session.store)
  const { phase, offers, running, notes, asksSize } = state
  return (
    <section className="st-log-session" aria-label={session.name}>
      <div className="st-log-session-head">
        <h3 className="st-log-session-name">{session.name}</h3>
        <span className="st-log-phase" role="status">
          {wordsOfPhase(phase)}
        </span>
        {phase.kind === 'following' ? (
          <Button look="quiet" onClick={() => session.stop({ kind: 'ended' })}>
            Stop following
          </Button>
        ) : null}
        <Button look="quiet" label={`Close ${session.name}`} onClick={onClose}>
          Close
        </Button>
      </div>
      {phase.kind === 'reading' && phase.share !== null ? (
        <ProgressLine words="Reading the log" share={phase.share} />
      ) : null}
      {phase.kind === 'pasted' ? null : <MachineOf session={session} machine={state.machine} />}
      {asksSize ? <AskSize session={session} /> : null}
      {notes.map((sentence) => (
        <p key={sentence} className="st-log-note">
          {sentence}
        </p>
      ))}
      {running ? (
        <p className="st-log-running">
          Running: <code>{firstLine(running.command)}</code>
        </p>
      ) : null}
      <Offers session={session} offers={offers} takesAll={state.takesAll} />
    </section>
  )
}

function wordsOfPhase(phase: SessionPhase): string {
  switch (phase.kind) {
    case 'reading':
      return 'reading'
    case 'following':
      return 'following'
    case 'ended':
      return 'read to its end'
    case 'pasted':
      return 'Choose what becomes entries. The text stays where it was pasted until all is taken or folded away.'
    case 'stopped':
      return phase.sentence
  }
}

function MachineOf({
  session,
  machine,
}: {
  readonly session: LogSession
  readonly machine: MachineId | null
}) {
  const machines = useWorkspaceState((state) => state.machines)
  if (machines.length === 0) return null
  return (
    <Field label="Machine, where a command names none">
      {(attributes) => (
        <select
          {...attributes}
          className="st-input"
          value={machine ?? ''}
          onChange={(event) => session.setMachine((event.target.value || null) as MachineId | null)}
        >
          <option value="">not said</option>
          {machines
            .filter(({ setAside }) => !setAside)
            .map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
        </select>
      )}
    </Field>
  )
}

/** Neither the log nor its marks say how wide the window was. */
function AskSize({ session }: { readonly session: LogSession }) {
  const [columns, setColumns] = useState('80')
  const number = /^\d{2,4}$/.test(columns.trim()) ? Number(columns) : null
  return (
    <form
      className="st-log-size"
      onSubmit={(event) => {
        event.preventDefault()
        if (number !== null) session.setColumns(number)
      }}
    >
      <TextInput
        label="How many columns wide was the window?"
        hint="The log does not say it. With a wrong width, long lines are broken in wrong places."
        inputMode="numeric"
        value={columns}
        onChange={(event) => setColumns(event.target.value)}
      />
      <Button type="submit" disabled={number === null}>
        Read it with this width
      </Button>
    </form>
  )
}

interface OffersProps {
  readonly session: LogSession
  readonly offers: readonly Offer[]
  readonly takesAll: boolean
}

function Offers({ session, offers, takesAll }: OffersProps) {
  const [all, setAll] = useState(false)
  const project = useWorkspaceState(
    (state) => state.projects.find(({ id }) => id === state.view?.project)?.title,
  )
  const open = offers.filter(({ standing }) => standing === 'offered')
  const chosen = open.filter(({ isChosen }) => isChosen)
  const taken = offers.filter(({ standing }) => standing === 'taken').length
  const folded = offers.filter(({ standing }) => standing === 'folded').length
  const shown = all ? open : open.slice(-SHOWN)
  const numbersOf = (some: readonly Offer[]): number[] => some.map(({ number }) => number)
  return (
    <>
      <p className="st-log-counts">
        {`${open.length} offered, ${taken} taken${folded > 0 ? `, ${folded} folded away` : ''}, into “${project ?? ''}”.`}
      </p>
      <span className="st-button-row st-log-acts">
        <Button disabled={open.length === 0} onClick={() => void session.take(numbersOf(open))}>
          Take all
        </Button>
        <Button disabled={chosen.length === 0} onClick={() => void session.take(numbersOf(chosen))}>
          {chosen.length === 0 ? 'Take chosen' : `Take ${chosen.length} chosen`}
        </Button>
        <Button
          look="quiet"
          disabled={open.length === 0}
          onClick={() => session.fold(numbersOf(chosen.length > 0 ? chosen : open))}
        >
          {chosen.length > 0 ? 'Fold the chosen away' : 'Fold all away'}
        </Button>
        {folded > 0 ? (
          <Button look="quiet" onClick={() => session.unfold()}>
            Show the folded
          </Button>
        ) : null}
        {session.isOver ? null : (
          <Button look="quiet" pressed={takesAll} onClick={() => session.setTakesAll(!takesAll)}>
            Take each as it comes
          </Button>
        )}
      </span>
      {shown.length < open.length ? (
        <Button look="quiet" onClick={() => setAll(true)}>
          {`Show the ${open.length - shown.length} before`}
        </Button>
      ) : null}
      <ul className="st-offers" aria-label="Commands found">
        {shown.map((offer) => (
          <OfferRow key={offer.number} offer={offer} session={session} />
        ))}
      </ul>
    </>
  )
}

const outcomeIcons = { succeeded: SucceededIcon, failed: FailedIcon, unknown: UnknownIcon }

interface OfferRowProps {
  readonly offer: Offer
  readonly session: LogSession
}

/** Kept as it stands while others come, so that a new one is shown without drawing all anew. */
const OfferRow = memo(function OfferRow({ offer, session }: OfferRowProps) {
  const { found, number, isChosen } = offer
  const words = firstLine(found.command === '' ? found.output : found.command)
  const outcome = outcomeOfExit(found.exitCode)
  const Outcome = outcomeIcons[outcome]
  return (
    <li className="st-offer">
      <Button
        look="quiet"
        icon={isChosen ? ChosenIcon : NotChosenIcon}
        className="st-offer-choice"
        label={`${words}: choose`}
        pressed={isChosen}
        onClick={() => session.choose([number], !isChosen)}
      >
        <code className="st-offer-command">{words}</code>
      </Button>
      <span className="st-offer-facts">
        {found.command === '' ? (
          <span>came at an empty prompt</span>
        ) : (
          <span className={`st-outcome--${outcome}`}>
            <Outcome /> {outcome}
          </span>
        )}
        {factsOf(offer).map((words) => (
          <span key={words}>{words}</span>
        ))}
      </span>
      {found.notes.map((sentence) => (
        <p key={sentence} className="st-log-note">
          {sentence}
        </p>
      ))}
    </li>
  )
})

function factsOf({ found: { started, place, output, files } }: Offer): string[] {
  const lines = output === '' ? 0 : output.split('\n').length
  return [
    started === null ? '' : toMoment(started, offsetOf(systemClock.now())).slice(0, 19).replace('T', ' '),
    [place.user, place.host].filter(Boolean).join('@'),
    place.directory ?? '',
    lines === 0 ? '' : `${lines} ${lines === 1 ? 'line' : 'lines'}`,
    ...files.map(({ path }) => `wrote ${path}`),
  ].filter((words) => words !== '')
}

function firstLine(command: string): string {
  const [first = '', ...more] = command.split('\n')
  return more.length > 0 ? `${first} …` : first
}
