/** One entry: time and kind in the margin, its text as safe HTML, and what it is joined to. */
import { memo, useRef, type DragEvent, type ReactNode } from 'react'
import { useStore } from 'zustand'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { Entry } from '../../../shared/lab/model.ts'
import { writeFragment } from '../../editor/fragments.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Badge, Button, entryKindFaces, KindTag } from '../../ui/index.ts'
import { DragHandleIcon } from '../../ui/icons.tsx'
import { Markdown } from '../../ui/Markdown.tsx'
import { Amend } from './Amend.tsx'
import { CommandList } from './CommandList.tsx'
import { EntryFoot } from './EntryFoot.tsx'
import { EntryHead } from './EntryHead.tsx'
import { CopyCommands, EntryOutcome } from './EntryOutcome.tsx'
import { FileLine } from './files/FileLine.tsx'
import { onEntryKey } from './entryKeys.ts'
import { EntryMenu } from './EntryMenu.tsx'
import { EntryTagLine } from './EntryTagLine.tsx'
import {
  CUT_SENTENCE,
  findSelection,
  offerToCarry,
  refusalToCarry,
  TEXT_ATTRIBUTE,
  wholeEntry,
} from './entryFragment.ts'
import { setIn, type JournalStore } from './journalState.ts'
import { PickWords } from './PickWords.tsx'
import { offsetNameOf, timeBeside, timeOf, type EntryRow } from './rows.ts'
import { Ticked } from './Ticked.tsx'
import { TidyEntry } from './tidying/TidyEntry.tsx'
import { useIsWithdrawn, useMarks, useText } from './useEntry.ts'

export interface EntryBlockProps {
  readonly row: EntryRow
  readonly store: JournalStore
  readonly isCurrent: boolean
  readonly isAmending: boolean
  readonly isTagging: boolean
  readonly isPlacing: boolean
  readonly isTiming: boolean
  readonly isNaming: boolean
  readonly isPicking: boolean
  readonly isListing: boolean
  readonly isUnfolded: boolean
}

export const EntryBlock = memo(function EntryBlock(props: EntryBlockProps) {
  const { row, store, isCurrent } = props
  const { entry, parent } = row
  const workspace = useWorkspace()
  const isWithdrawn = useIsWithdrawn(entry.id)
  const marks = useMarks(entry.id)
  const classes = ['st-entry', `st-entry--${entry.kind}`, `st-kind--${entry.kind}`]
  if (isWithdrawn) classes.push('st-entry--withdrawn')
  if (marks) classes.push('st-entry--chosen')
  if (parent) classes.push('st-entry--added')
  const tabIndex = isCurrent ? 0 : -1
  const isAction = entry.kind === 'action'
  return (
    <article
      className={classes.join(' ')}
      aria-label={nameOf(row, isWithdrawn)}
      aria-keyshortcuts={
        entry.kind === 'action' ? 'Alt+C Alt+T Enter T A P C O S F U' : 'Alt+C Alt+T Enter T A P C O'
      }
      data-entry={entry.id}
      tabIndex={tabIndex}
      onFocus={() => store.setState({ current: entry.id })}
      onKeyDown={(event) => onEntryKey(workspace, store, entry, event)}
    >
      <div className="st-entry-margin">
        <Handle entry={entry} store={store} tabIndex={tabIndex} />
        <span className="st-entry-when">
          <time
            className="st-entry-time"
            dateTime={row.moment}
            title={`${row.moment.slice(0, 19)} ${offsetNameOf(row.moment)}`}
          >
            {parent ? timeBeside(row.moment, parent.moment) : timeOf(row.moment)}
          </time>
          {isAction ? <EntryOutcome entry={entry} store={store} tabIndex={tabIndex} /> : null}
        </span>
        <span className="st-entry-more">
          <EntryMenu entry={entry} store={store} tabIndex={tabIndex} />
        </span>
        <span className="st-entry-what">
          <KindTag kind={entry.kind} />
          {isAction ? <CopyCommands entry={entry} store={store} tabIndex={tabIndex} /> : null}
        </span>
      </div>
      <div className="st-entry-body">
        <EntryHead
          entry={entry}
          store={store}
          tabIndex={tabIndex}
          isElsewhere={row.isElsewhere}
          isPlacing={props.isPlacing}
          isTiming={props.isTiming}
        />
        {entry.kind === 'file' ? (
          <FileLine entry={entry} store={store} tabIndex={tabIndex} isNaming={props.isNaming} />
        ) : null}
        <EntryText {...props} entry={entry} isWithdrawn={isWithdrawn} tabIndex={tabIndex} />
        {props.isListing ? <CommandList entry={entry} store={store} /> : null}
        <EntryTagLine entry={entry} store={store} isTagging={props.isTagging} tabIndex={tabIndex} />
        <EntryFoot entry={entry} store={store} isUnfolded={props.isUnfolded} tabIndex={tabIndex} />
      </div>
    </article>
  )
})

function nameOf({ entry: { kind }, moment, parent }: EntryRow, isWithdrawn: boolean): string {
  const added = parent ? `added to ${entryKindFaces[parent.entry.kind].word.toLowerCase()}, ` : ''
  const name = `${entryKindFaces[kind].word}, ${added}${timeOf(moment)}`
  return isWithdrawn ? `${name}, withdrawn` : name
}

interface HandleProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
}

/** Drags the whole entry; pressed, it carries it by the list of places. */
function Handle({ entry, store, tabIndex }: HandleProps) {
  const workspace = useWorkspace()
  return (
    <button
      type="button"
      className="st-handle"
      draggable
      tabIndex={tabIndex}
      aria-label="Carry this entry"
      onClick={() => offerToCarry(workspace, entry, wholeEntry(workspace, entry))}
      onDragStart={(event) => {
        if (!startDrag(workspace, store, entry, wholeEntry(workspace, entry), event)) return
        const article = event.currentTarget.closest('article')
        if (article) event.dataTransfer.setDragImage(article, 12, 12)
      }}
      onDragEnd={() => endDrag(workspace, store)}
    >
      <DragHandleIcon />
    </button>
  )
}

/** Begins a drag of a fragment of an entry. @returns false where nothing can be carried from it now */
function startDrag(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  fragment: Fragment | null,
  event: DragEvent,
): boolean {
  const refusal = refusalToCarry(workspace, entry)
  if (refusal || !fragment) {
    event.preventDefault()
    if (refusal) workspace.say('notice', refusal)
    return false
  }
  event.dataTransfer.clearData()
  writeFragment(event.dataTransfer, fragment)
  event.dataTransfer.effectAllowed = 'copy'
  store.setState({ dragged: entry.id })
  workspace.set({ dragging: fragment })
  return true
}

function endDrag(workspace: Workspace, store: JournalStore): void {
  store.setState({ dragged: null })
  workspace.set({ dragging: null })
}

interface TextProps extends EntryBlockProps {
  readonly entry: Entry
  readonly isWithdrawn: boolean
  readonly tabIndex: number
}

function EntryText({
  entry,
  store,
  isAmending,
  isPicking,
  isUnfolded,
  isWithdrawn,
  tabIndex,
}: TextProps): ReactNode {
  const text = useText(entry.id)
  const isTidying = useStore(store, (state) => state.tidying.has(entry.id))
  if (isAmending) return <Amend entry={entry} store={store} />
  if (isTidying && !isWithdrawn) return <TidyEntry entry={entry} store={store} text={text} />
  if (isPicking) return <PickWords entry={entry} store={store} text={text} />
  if (!isWithdrawn) return <RenderedText entry={entry} store={store} text={text} tabIndex={tabIndex} />
  return (
    <>
      <div className="st-entry-withdrawn">
        <Badge>Withdrawn</Badge>
        <Button
          look="quiet"
          aria-expanded={isUnfolded}
          onClick={() => setIn(store, 'unfolded', entry.id, !isUnfolded)}
        >
          {isUnfolded ? 'Fold its text' : 'Show its text'}
        </Button>
      </div>
      {isUnfolded ? <RenderedText entry={entry} store={store} text={text} tabIndex={null} /> : null}
    </>
  )
}

interface RenderedTextProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly text: string
  /** Of boxes to tick; null where nothing can be ticked. */
  readonly tabIndex: number | null
}

function RenderedText({ entry, store, text, tabIndex }: RenderedTextProps) {
  const workspace = useWorkspace()
  const root = useRef<HTMLDivElement>(null)
  const marks = useMarks(entry.id)
  const onDragStart = (event: DragEvent): void => {
    const selection = root.current && findSelection(workspace, root.current)
    if (!selection || selection.entry.id !== entry.id) return
    if (selection.isCut) workspace.say('notice', CUT_SENTENCE)
    startDrag(workspace, store, entry, selection.fragment, event)
  }
  if (text.trim() === '') return <p className="st-entry-empty">No text.</p>
  return (
    <div
      ref={root}
      className="st-prose"
      {...{ [TEXT_ATTRIBUTE]: entry.id }}
      onDragStart={onDragStart}
      onDragEnd={() => endDrag(workspace, store)}
    >
      <Ticked entry={entry} text={text} tabIndex={tabIndex}>
        <Markdown text={text} {...(marks ? { marks } : {})} />
      </Ticked>
    </div>
  )
}
