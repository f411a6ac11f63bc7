/** A procedure as it reads with its values. Secrets are never shown: their places say that they are there. */
import { useMemo, type ReactNode } from 'react'
import type { Parameter, ProcedurePartKind, StepPartKind } from '../../shared/lab/model.ts'
import type { Values } from '../../shared/procedure/values/placeholders.ts'
import {
  standsBehind,
  type ShownPart,
  type ShownProcedure,
  type ShownStep,
} from '../panes/procedure/shown.ts'
import { SignalFace } from '../panes/procedure/CautionHead.tsx'
import { NoReturn } from '../panes/procedure/NoReturn.tsx'
import { PlaceWords } from '../panes/procedure/RowPlaceLine.tsx'
import { wordsOfFile } from '../panes/journal/files/FileLine.tsx'
import { signalWordOf } from '../../shared/safety/signal-words/markdown.ts'
import { classOfPart, wordOfOwnPart } from '../panes/procedure/words.ts'
import { copyText } from '../store/copyText.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, PartLabel } from '../ui/index.ts'
import { CopyIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { PlaceholderContext, type ShownPlaceholder } from '../ui/placeholders.tsx'
import { commandsToRun, fillProcedure } from './filled.ts'

interface FilledProcedureProps {
  readonly shown: ShownProcedure
  readonly parameters: readonly Parameter[]
  readonly values: Values
  /** Secrets that were entered. */
  readonly known: Values
  /** What goes into what is copied. */
  readonly handedOut: Values
}

export function FilledProcedure({ shown, parameters, values, known, handedOut }: FilledProcedureProps) {
  const filled = useMemo(() => fillProcedure(shown, values), [shown, values])
  const copied = useMemo(() => fillProcedure(shown, handedOut), [shown, handedOut])
  const places = useMemo(() => placesLeft(parameters, known), [parameters, known])
  return (
    <ProcedureToRead
      shown={filled}
      copied={copied}
      placeholders={places}
      label="The procedure with these values"
    />
  )
}

interface ProcedureToReadProps {
  readonly shown: ShownProcedure
  /** The same one as it is copied, where that is another. */
  readonly copied?: ShownProcedure
  /** What its placeholders stand for. */
  readonly placeholders: ReadonlyMap<string, ShownPlaceholder>
  readonly label: string
}

/** A procedure as it reads, with nothing in it that could be changed. */
export function ProcedureToRead({ shown, copied = shown, placeholders, label }: ProcedureToReadProps) {
  const own = (isBehind: boolean) =>
    shown.own
      .filter(({ part, text }) => text.trim() !== '' && standsBehind(part.kind) === isBehind)
      .map((one) => <OwnPart key={one.part.id} shown={one} />)
  return (
    <PlaceholderContext value={placeholders}>
      <article className="st-filled" aria-label={label}>
        {own(false)}
        <ol className="st-filled-steps">
          {shown.steps.map((step, i) => (
            <FilledStep key={step.step.id} shown={step} copied={copied.steps[i]!} />
          ))}
        </ol>
        {own(true)}
      </article>
    </PlaceholderContext>
  )
}

function placesLeft(parameters: readonly Parameter[], known: Values): ReadonlyMap<string, ShownPlaceholder> {
  return new Map(
    parameters.map(({ name }) => [
      name,
      known.has(name)
        ? { title: 'Entered, and not shown.', look: 'given' as const }
        : { title: 'No value yet.', look: 'missing' as const },
    ]),
  )
}

function OwnPart({ shown: { part, text } }: { readonly shown: ShownPart }) {
  const kind = part.kind as ProcedurePartKind
  if (kind === 'title')
    return (
      <div className="st-filled-title">
        <Markdown text={text} />
      </div>
    )
  return (
    <div className="st-prose">
      {kind === 'purpose' ? null : <h3 className="st-own-label">{wordOfOwnPart[kind]}</h3>}
      <Markdown text={text} />
    </div>
  )
}

interface FilledStepProps {
  readonly shown: ShownStep
  readonly copied: ShownStep
}

function FilledStep({ shown: { step, number, place, parts }, copied }: FilledStepProps) {
  const workspace = useWorkspace()
  const commands = useMemo(() => commandsToRun(copied.parts), [copied])
  if (step.level === 'section')
    return (
      <li className="st-filled-section">
        {parts.map(({ part, text }) => (
          <Markdown key={part.id} text={text} />
        ))}
        <FilledPlace place={place} label="The section happens" />
      </li>
    )
  return (
    <li className="st-filled-step">
      {step.pointOfNoReturn ? <NoReturn /> : null}
      <FilledPlace place={place} label={`Step ${number} happens`} />
      <span className="st-step-number">{number}</span>
      <div className="st-filled-parts">
        {parts
          .filter(({ part, text }) => text.trim() !== '' || part.file !== null)
          .map((one) => (
            <FilledPart key={one.part.id} shown={one}>
              {one.part.kind === 'do' && commands !== '' ? (
                <Button
                  look="quiet"
                  icon={CopyIcon}
                  label={`Copy the commands of step ${number}`}
                  onClick={() => void copyText(workspace, commands)}
                />
              ) : null}
            </FilledPart>
          ))}
      </div>
    </li>
  )
}

interface FilledPlaceProps {
  readonly place: ShownStep['place']
  readonly label: string
}

/** Where a row happens, where that is another place than before. */
function FilledPlace({ place: { place, isChanged }, label }: FilledPlaceProps) {
  if (!isChanged || place === null) return null
  return (
    <div className="st-row-above st-place-read">
      <PlaceWords place={place} label={label} />
    </div>
  )
}

interface FilledPartProps {
  readonly shown: ShownPart
  /** What can be done with it. */
  readonly children: ReactNode
}

function FilledPart({ shown: { part, text }, children }: FilledPartProps) {
  const kind = part.kind as StepPartKind
  const signal = kind === 'caution' ? signalWordOf(text) : null
  return (
    <div className={classOfPart(kind, signal)}>
      <div className="st-part-head">
        {kind === 'caution' ? (
          <span className="st-signal">
            <SignalFace signal={signal} />
          </span>
        ) : (
          <PartLabel kind={kind} />
        )}
        {children}
      </div>
      {part.file ? (
        <div className="st-file-line">
          <span className="st-file-path">{part.file.path}</span>
          <span className="st-file-facts">{wordsOfFile(part.file)}</span>
        </div>
      ) : null}
      <div className="st-part-text st-part-shown st-prose">
        <Markdown text={text} />
      </div>
    </div>
  )
}
