/** A procedure as it reads with its values. Secrets are never shown: their places say that they are there. */
import { useMemo } from 'react'
import type { Parameter, ProcedurePartKind, StepPartKind } from '../../shared/lab/model.ts'
import type { Values } from '../../shared/procedure/values/placeholders.ts'
import {
  standsBehind,
  type ShownPart,
  type ShownProcedure,
  type ShownStep,
} from '../panes/procedure/shown.ts'
import { classOfPart, wordOfOwnPart } from '../panes/procedure/words.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, PartLabel } from '../ui/index.ts'
import { CopyIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { PlaceholderContext, type ShownPlaceholder } from '../ui/placeholders.tsx'
import { commandsToRun, fillProcedure } from './filled.ts'
import { copyText } from './handOut.ts'

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

function FilledStep({ shown: { step, number, parts }, copied }: FilledStepProps) {
  const workspace = useWorkspace()
  const commands = useMemo(() => commandsToRun(copied.parts), [copied])
  if (step.level === 'section')
    return (
      <li className="st-filled-section">
        {parts.map(({ part, text }) => (
          <Markdown key={part.id} text={text} />
        ))}
      </li>
    )
  return (
    <li className="st-filled-step">
      <span className="st-step-number">{number}</span>
      <div className="st-filled-parts">
        {parts
          .filter(({ text }) => text.trim() !== '')
          .map(({ part, text }) => (
            <div key={part.id} className={classOfPart(part.kind as StepPartKind)}>
              <div className="st-part-head">
                <PartLabel kind={part.kind as StepPartKind} />
                {part.kind === 'do' && commands !== '' ? (
                  <Button
                    look="quiet"
                    icon={CopyIcon}
                    label={`Copy the commands of step ${number}`}
                    onClick={() => void copyText(workspace, commands)}
                  />
                ) : null}
              </div>
              <div className="st-part-text st-prose">
                <Markdown text={text} />
              </div>
            </div>
          ))}
      </div>
    </li>
  )
}
