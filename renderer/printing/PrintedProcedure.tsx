/** A procedure as it stands on paper: a box for each step to tick, blanks to write in, cautions before what they are for. */
import { useMemo, type ReactNode } from 'react'
import { partLabels } from '../../shared/export/labels.ts'
import type { Parameter, ProcedurePartKind, StepPartKind } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { factsOfFetch, groupsOf, nameOfFetch } from '../../shared/procedure/fetches/written.ts'
import { placeInWords } from '../../shared/procedure/rows/places.ts'
import { signalWordMeanings } from '../../shared/safety/signal-words/caution.ts'
import {
  cautionFromMarkdown,
  cautionToMarkdown,
  signalWordOf,
} from '../../shared/safety/signal-words/markdown.ts'
import { wordsOfFile } from '../panes/journal/files/FileLine.tsx'
import { standsBehind, type ShownPart, type ShownStep } from '../panes/procedure/shown.ts'
import { useStepLinks } from '../panes/procedure/stepLinks.ts'
import { capitalised, untitled, wordOfOwnPart } from '../panes/procedure/words.ts'
import { useWorkspaceState } from '../store/useWorkspace.ts'
import { PictureContext } from '../ui/blobs.tsx'
import { FenceContext } from '../ui/fences.ts'
import { PrintedSign } from './signs.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { PlaceholderContext, type ShownPlaceholder } from '../ui/placeholders.tsx'
import { StepLinksContext } from '../ui/stepLinks.tsx'
import type { PrintJob } from './job.ts'
import { AFTER_BLANK, WITHIN_WORD } from './lines.ts'
import { PrintedPicture, printedFences, Words } from './PrintBlocks.tsx'

export function PrintedProcedure({ job }: { readonly job: PrintJob }): ReactNode {
  const { shown, version, printed } = job
  const title = plainWords(shown.title?.text ?? '') || untitled
  const placeholders = useMemo(() => toPlaceholders(job), [job])
  const own = (isBehind: boolean) =>
    shown.own
      .filter(
        ({ part, text }) =>
          part.kind !== 'title' && text.trim() !== '' && standsBehind(part.kind) === isBehind,
      )
      .map((one) => <OwnPart key={one.part.id} shown={one} />)
  return (
    <FenceContext value={printedFences}>
      <PictureContext value={PrintedPicture}>
        <PlaceholderContext value={placeholders}>
          <StepLinksContext value={useStepLinks(shown)}>
            {/* The head of a table stands on every page that the table reaches (CSS 2.2 §17.2). */}
            <table className="st-print-pages" role="presentation">
              <thead>
                <tr>
                  <td>
                    <div className="st-print-running">
                      <span>
                        <Words text={title} />
                      </span>
                      <span>{`${version}, printed ${printed}`}</span>
                    </div>
                  </td>
                </tr>
              </thead>
              <tbody>
                <tr>
                  <td>
                    <h1 className="st-print-title">
                      <Words text={title} />
                    </h1>
                    <WithSecrets job={job} />
                    <Followed />
                    {own(false)}
                    <Parameters job={job} />
                    <Fetches job={job} />
                    <p className="st-print-facts st-print-legend">
                      A line that is longer than a row goes on in the next one: {AFTER_BLANK} behind a blank,{' '}
                      {WITHIN_WORD} within a word.
                    </p>
                    <ol className="st-print-steps">
                      {shown.steps.map((step) => (
                        <Step key={step.step.id} shown={step} />
                      ))}
                    </ol>
                    {own(true)}
                  </td>
                </tr>
              </tbody>
            </table>
          </StepLinksContext>
        </PlaceholderContext>
      </PictureContext>
    </FenceContext>
  )
}

function toPlaceholders({ parameters, secrets }: PrintJob): ReadonlyMap<string, ShownPlaceholder> {
  return new Map(
    parameters.map(({ name }) => [name, { title: '', look: 'quiet' as const, value: secrets.get(name) }]),
  )
}

/** Whoever holds the paper is to know it. */
function WithSecrets({ job: { secrets } }: { readonly job: PrintJob }) {
  const names = [...secrets.keys()]
  if (names.length === 0) return null
  return (
    <p className="st-print-secrets">
      This paper holds secrets in plain words: {names.join(', ')}. Keep it where only those who need it can
      read it, and destroy it afterwards.
    </p>
  )
}

/** Who followed it and when, to be written in. */
function Followed() {
  return (
    <p className="st-print-followed">
      <Blank label="Followed by" />
      <Blank label="Begun" />
      <Blank label="Ended" />
    </p>
  )
}

function Blank({ label }: { readonly label: string }) {
  return (
    <span className="st-print-blank">
      <span>{label}</span>
      <span className="st-print-line-to-write" />
    </span>
  )
}

function OwnPart({ shown: { part, text } }: { readonly shown: ShownPart }) {
  const kind = part.kind as ProcedurePartKind
  return (
    <section className="st-print-own">
      <h2>{wordOfOwnPart[kind]}</h2>
      <Markdown text={text} />
    </section>
  )
}

function Parameters({ job: { parameters, values, secrets } }: { readonly job: PrintJob }) {
  if (parameters.length === 0) return null
  return (
    <section className="st-print-own">
      <h2>Values</h2>
      <ul className="st-print-values">
        {parameters.map((parameter) => {
          const value = values.get(parameter.name) ?? secrets.get(parameter.name)
          return (
            <li key={parameter.id}>
              <span className="st-print-name">{parameter.name}</span>
              {value === undefined ? (
                <span className="st-print-line-to-write" />
              ) : (
                <span className="st-print-value">{value}</span>
              )}
              {value === undefined ? <span className="st-print-facts">{hintOf(parameter)}</span> : null}
            </li>
          )
        })}
      </ul>
    </section>
  )
}

/** What helps to write it in. Of a secret nothing but what it is. */
function hintOf({ type, example, preset, help }: Parameter): string {
  const words = plainWords(help, 160)
  return [
    type,
    ...(type !== 'secret' && example !== '' ? [`for instance ${example}`] : []),
    ...(type !== 'secret' && preset !== '' ? [`else ${preset}`] : []),
    ...(words === '' ? [] : [words]),
  ].join(', ')
}

function Fetches({ job: { fetches } }: { readonly job: PrintJob }) {
  if (fetches.length === 0) return null
  return (
    <section className="st-print-own">
      <h2>To fetch beforehand</h2>
      <ul className="st-print-fetches">
        {groupsOf(fetches).flatMap(({ label, items }) =>
          items.map((item, i) => (
            <li key={`${label} ${i}`}>
              <Box isTicked={item.isFetched} />
              <span>
                {label}: <code>{nameOfFetch(item)}</code>{' '}
                <span className="st-print-facts">
                  {[factsOfFetch(item), ...item.places].join('; ')}
                  {item.sha256 ? `; SHA-256 ${item.sha256}` : ''}
                </span>
              </span>
            </li>
          )),
        )}
      </ul>
    </section>
  )
}

/** A box to tick by hand. */
function Box({ isTicked = false }: { readonly isTicked?: boolean }) {
  return <span className="st-print-box">{isTicked ? '\u00d7' : ''}</span>
}

function Step({ shown: { step, number, parts, place } }: { readonly shown: ShownStep }) {
  const machines = useWorkspaceState((state) => state.machines)
  const written = parts.filter(({ part, text }) => text.trim() !== '' || part.file !== null)
  const where =
    place.isChanged && place.place ? (
      <p className="st-print-place">
        <Words text={capitalised(placeInWords(place.place, machines))} />
      </p>
    ) : null
  if (step.level === 'section')
    return (
      <li className="st-print-section">
        <h2>
          <Words text={plainWords(written[0]?.text ?? '') || 'Section'} />
        </h2>
        {where}
      </li>
    )
  return (
    <li className={number.includes('.') ? 'st-print-step st-print-step--sub' : 'st-print-step'}>
      {step.pointOfNoReturn ? (
        <p className="st-print-no-return">
          <strong>Point of no return.</strong> What is done from here on cannot be taken back.
        </p>
      ) : null}
      {where}
      <div className="st-print-margin">
        <span className="st-print-number">{number}</span>
        <Box />
      </div>
      <div className="st-print-parts">
        {written.map((part) => (
          <Part key={part.part.id} shown={part} />
        ))}
      </div>
    </li>
  )
}

function Part({ shown: { part, text } }: { readonly shown: ShownPart }) {
  const kind = part.kind as StepPartKind
  if (kind === 'caution') return <Caution text={text} />
  if (kind === 'hold') return <Hold text={text} />
  return (
    <div className={`st-print-part st-print-part--${kind.replaceAll(' ', '-')}`}>
      <span className="st-print-label">
        {part.file?.form === 'diff' ? 'Difference to the file' : partLabels[kind]}
      </span>
      {part.file ? (
        <p className="st-print-file">
          <code>
            <Words text={part.file.path} />
          </code>{' '}
          <span className="st-print-facts">{wordsOfFile({ ...part.file, form: 'content' })}</span>
        </p>
      ) : null}
      <Markdown text={text} />
    </div>
  )
}

/** The panel of a caution: sign and word, told apart by its frame and never by colour (after ANSI Z535.6). */
function Caution({ text }: { readonly text: string }) {
  const signal = signalWordOf(text)
  // The word stands in the panel, not a second time in the text.
  const words = signal ? cautionToMarkdown({ ...cautionFromMarkdown(text), signal: null }) : text
  return (
    <div className={`st-print-caution st-print-caution--${signal ?? 'unsaid'}`}>
      <p className="st-print-signal">
        <PrintedSign of={signal ?? 'unsaid'} />
        {signal ? signalWordMeanings[signal].word : partLabels.caution}
      </p>
      <Markdown text={words} />
    </div>
  )
}

function Hold({ text }: { readonly text: string }) {
  return (
    <div className="st-print-hold">
      <p className="st-print-signal">
        <PrintedSign of="hold" />
        {partLabels.hold}
      </p>
      <Markdown text={text} />
      <p className="st-print-followed">
        <Blank label="Released by" />
        <Blank label="at" />
      </p>
    </div>
  )
}
