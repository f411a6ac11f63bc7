/** One row of what was found. */
import type { ReactNode } from 'react'
import type { AnswerPassage } from '../../shared/find/ask/answerer.ts'
import { toReadingText } from '../../shared/find/reading-text.ts'
import type { EntryKind, SourceKind } from '../../shared/lab/model.ts'
import type { FoundCommand, FoundHit } from '../workers/find.ts'
import {
  EnterIcon,
  FailedIcon,
  FilterIcon,
  JournalIcon,
  KindActionIcon,
  PartWhyIcon as AnswerIcon,
  PlaceIcon,
  ProcedureIcon,
  ProjectIcon,
  SourceTextIcon,
  SucceededIcon,
  UnknownIcon,
  type Icon,
} from '../ui/icons.tsx'
import { Badge, Kbd } from '../ui/index.ts'
import { Marked } from '../ui/Marked.tsx'
import { entryKindFaces, sourceKindFaces } from '../ui/kinds.ts'
import type { FoundRow } from './groups.ts'
import { howOften, localOffsetAt, outcomeWords, wayTo, whenOf, whereRun } from './words.ts'
import { isKeys } from '../ui/keys.ts'

export function RowContent({ row }: { readonly row: FoundRow }): ReactNode {
  switch (row.is) {
    case 'completion':
      return <Plain icon={FilterIcon} word={row.completion.text} isMono />
    case 'hit':
      return <Hit hit={row.hit} />
    case 'command':
      return <Command command={row.command} />
    case 'act': {
      const { about, item } = row.found.act
      return <Plain icon={item.icon ?? EnterIcon} word={item.word} about={about} hint={item.hint} />
    }
    case 'answer':
      return <Passage says={row.says} passage={row.passage} />
    case 'answer step':
      return (
        <Plain
          icon={ProcedureIcon}
          word={`${row.step.number} ${row.step.line}`.trim()}
          about={row.title || 'Untitled procedure'}
        />
      )
    case 'more':
      return <span className="st-finder-more">{`${row.count.toLocaleString('en')} more`}</span>
  }
}

interface PlainProps {
  readonly icon: Icon
  readonly word: string
  readonly about?: string
  readonly hint?: string | undefined
  readonly isMono?: boolean
}

function Plain({ icon: Picture, word, about, hint, isMono = false }: PlainProps) {
  return (
    <>
      <Picture />
      <span className="st-finder-body">
        <span className="st-finder-line">
          <span className={isMono ? 'st-finder-title st-mono' : 'st-finder-title'}>{word}</span>
          {about === undefined ? null : <span className="st-finder-way">{about}</span>}
          {hint === undefined ? null : isKeys(hint) ? (
            <span className="st-finder-when">
              <Kbd keys={hint} />
            </span>
          ) : (
            <span className="st-finder-when">{hint}</span>
          )}
        </span>
      </span>
    </>
  )
}

function Hit({ hit }: { readonly hit: FoundHit }) {
  const { title, titleMarks, excerpt, moment, isWithdrawn } = hit
  const Picture = iconOf(hit)
  const [way, when] = [wayTo(hit), whenOf(moment, localOffsetAt)]
  const hasText = excerpt.text.trim() !== ''
  return (
    <>
      <Picture />
      <span className={isWithdrawn ? 'st-finder-body st-finder-body--withdrawn' : 'st-finder-body'}>
        {title === '' ? null : (
          <span className="st-finder-title">
            <Marked text={title} marks={titleMarks} />
          </span>
        )}
        {hasText ? (
          <span className="st-finder-excerpt">
            {excerpt.isCutBefore ? '… ' : ''}
            <Marked text={excerpt.text} marks={excerpt.marks} />
            {excerpt.isCutBehind ? ' …' : ''}
          </span>
        ) : null}
        <span className="st-finder-line">
          {isWithdrawn ? <Badge>Withdrawn</Badge> : null}
          <span className="st-finder-way">
            {[wordOf(hit), way].filter((part) => part !== '').join(' · ')}
          </span>
          <span className="st-finder-when">{when}</span>
        </span>
      </span>
    </>
  )
}

function Passage({ says, passage }: { readonly says: string; readonly passage: AnswerPassage }) {
  const { text, range, words, title, way, moment } = passage
  const marks = words.flatMap(({ start, end }) =>
    start >= range.start && end <= range.end ? [{ start: start - range.start, end: end - range.start }] : [],
  )
  const shown = toReadingText(text, { start: 0, end: text.length }, marks)
  return (
    <>
      <AnswerIcon />
      <span className="st-finder-body">
        <span className="st-finder-title">{[says, title].filter((part) => part !== '').join(': ')}</span>
        <span className="st-finder-answer">
          <Marked text={shown.text} marks={shown.marks} />
        </span>
        <span className="st-finder-line">
          <span className="st-finder-way">{way.join(' › ')}</span>
          <span className="st-finder-when">{whenOf(moment, localOffsetAt)}</span>
        </span>
      </span>
    </>
  )
}

const outcomeIcons = { succeeded: SucceededIcon, failed: FailedIcon, unknown: UnknownIcon } as const

function Command({ command }: { readonly command: FoundCommand }) {
  const [last] = command.runs
  const { outcome, moment } = last!
  const Outcome = outcomeIcons[outcome]
  return (
    <>
      <KindActionIcon />
      <span className="st-finder-body">
        <span className="st-finder-command st-mono">
          <Marked text={command.command} marks={command.marks} />
        </span>
        <span className="st-finder-line">
          <span className={`st-finder-outcome st-finder-outcome--${outcome}`}>
            <Outcome /> {outcomeWords[outcome]}
          </span>
          <span className="st-finder-way">
            {[whereRun(command), howOften(command)].filter((part) => part !== '').join(' · ')}
          </span>
          <span className="st-finder-when">{whenOf(moment, localOffsetAt)}</span>
        </span>
      </span>
    </>
  )
}

const isEntryKind = (kind: EntryKind | SourceKind): kind is EntryKind => kind in entryKindFaces

function faceOf({ kind }: FoundHit): { readonly word: string; readonly icon: Icon } | null {
  if (kind === null) return null
  return isEntryKind(kind) ? entryKindFaces[kind] : sourceKindFaces[kind]
}

function wordOf(hit: FoundHit): string {
  if (hit.goal.kind === 'parameter') return 'Parameter'
  if (hit.goal.kind === 'version') return `Version ${hit.goal.number}`
  return hit.thing === 'source' || hit.thing === 'entry' ? (faceOf(hit)?.word ?? '') : ''
}

function iconOf(hit: FoundHit): Icon {
  const face = faceOf(hit)
  if (face) return face.icon
  switch (hit.thing) {
    case 'procedure':
    case 'step':
      return ProcedureIcon
    case 'project':
      return ProjectIcon
    case 'machine':
      return PlaceIcon
    case 'source':
      return SourceTextIcon
    case 'command':
      return KindActionIcon
    case 'entry':
    case 'problem':
    case 'file':
      return JournalIcon
  }
}
