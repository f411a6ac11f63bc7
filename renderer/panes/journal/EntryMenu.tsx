import type { ReactNode } from 'react'
import type { Entry } from '../../../shared/lab/model.ts'
import { canAnswer, problemsOf } from '../../../shared/journal/problems.ts'
import { answer, setWithdrawn } from '../../store/gestures.ts'
import { lineOfDraftFrom } from '../../draft/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import {
  AdditionIcon,
  AmendIcon,
  CarryIcon,
  CopyIcon,
  JournalIcon,
  KindProblemIcon,
  MoreIcon,
  OutlineIcon,
  PlaceIcon,
  StrikeOutIcon,
  TagIcon,
  TimeIcon,
  TraceIcon,
  UndoIcon,
  WithdrawIcon,
} from '../../ui/icons.tsx'
import { copyText } from '../../store/copyText.ts'
import { briefly, commandsIn, copyCommand } from './entryCommands.ts'
import { findSelection, fragmentOfEntry, offerToCarry } from './entryFragment.ts'
import { beginAmending, setIn, type JournalStore } from './journalState.ts'
import { traceEntry } from './traceEntry.ts'
import { timeBeside } from './rows.ts'
import { useIsWithdrawn } from './useEntry.ts'

export interface EntryMenuProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
}

const isWithdrawnSentence = 'It was withdrawn. Bring it back first.'

/** Everything that can be done with one entry. */
export function EntryMenu({ entry, store, tabIndex }: EntryMenuProps): ReactNode {
  const workspace = useWorkspace()
  const isWithdrawn = useIsWithdrawn(entry.id)
  // A press on the button may end the selection in the text, so it is noted before.
  const noteSelection = (): void => {
    const log = document.querySelector('.st-log')
    const found = log && findSelection(workspace, log)
    store.setState({ selected: found?.entry.id === entry.id ? { id: entry.id, range: found.range } : null })
  }
  return (
    <Menu
      label="This entry"
      lines={() => linesOfEntry(workspace, store, entry, isWithdrawn)}
      trigger={(attributes) => (
        <Button
          {...attributes}
          look="quiet"
          icon={MoreIcon}
          label="More for this entry"
          tabIndex={tabIndex}
          data-entry-menu
          onPointerDownCapture={noteSelection}
          onClickCapture={(event) => event.detail === 0 && noteSelection()}
        />
      )}
    />
  )
}

export function linesOfEntry(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  isWithdrawn: boolean,
): readonly MenuLine[] {
  const { id } = entry
  const disabledBecause = isWithdrawn ? isWithdrawnSentence : undefined
  return [
    {
      id: 'carry',
      word: 'Carry…',
      icon: CarryIcon,
      hint: 'Alt+C',
      disabledBecause,
      onChoose: () => carryChosen(workspace, store, entry),
    },
    {
      id: 'pick',
      word: 'Pick words…',
      hint: 'by keyboard',
      disabledBecause,
      onChoose: () => setIn(store, 'picking', id, true),
    },
    { ...lineOfDraftFrom(workspace, id), disabledBecause },
    {
      id: 'amend',
      word: 'Amend',
      icon: AmendIcon,
      disabledBecause,
      onChoose: () => beginAmending(store, id),
    },
    {
      id: 'tidy',
      word: 'Tidy…',
      icon: OutlineIcon,
      disabledBecause:
        entry.kind === 'file' ? 'A file is kept as it is, to the last character.' : disabledBecause,
      onChoose: () => setIn(store, 'tidying', id, true),
    },
    {
      id: 'tags',
      word: 'Tags…',
      icon: TagIcon,
      hint: 'T',
      disabledBecause,
      onChoose: () => setIn(store, 'tagging', id, true),
    },
    {
      id: 'add',
      word: 'Add to this',
      icon: AdditionIcon,
      hint: 'A',
      disabledBecause,
      onChoose: () => store.getState().composer.addTo(entry.under ?? id),
    },
    {
      id: 'place',
      word: 'Where it happened…',
      icon: PlaceIcon,
      hint: 'P',
      disabledBecause,
      onChoose: () => setIn(store, 'placing', id, true),
    },
    {
      id: 'time',
      word: 'When it happened…',
      icon: TimeIcon,
      disabledBecause,
      onChoose: () => setIn(store, 'timing', id, true),
    },
    {
      id: 'trace',
      word: 'Trace',
      hint: 'Alt+T',
      icon: TraceIcon,
      onChoose: () => traceEntry(workspace, store, id),
    },
    {
      id: 'copy',
      word: 'Copy text',
      icon: CopyIcon,
      onChoose: () =>
        void copyText(workspace, workspace.requireView().texts.get(id) ?? '', 'Copied the entry’s text.'),
    },
    ...(isWithdrawn ? [] : commandLines(workspace, store, entry)),
    ...(isWithdrawn ? [] : answerLines(workspace, entry)),
    { kind: 'rule', id: 'rule' },
    ...withdrawalLines(workspace, entry, isWithdrawn),
    {
      id: 'strike',
      word: 'Strike out…',
      hint: 'for good',
      icon: StrikeOutIcon,
      isDanger: true,
      onChoose: () => store.setState({ striking: { id, text: chosenText(workspace, store, entry) } }),
    },
  ]
}

/** How many commands the menu offers to copy; the list of them has all. */
const MOST_COMMANDS = 5

function commandLines(workspace: Workspace, store: JournalStore, entry: Entry): MenuLine[] {
  const commands = commandsIn(workspace.requireView(), entry)
  const copying = commands.slice(0, MOST_COMMANDS).map((command): MenuLine => ({
    id: `copy from ${command.from}`,
    word: commands.length === 1 ? 'Copy command' : `Copy “${briefly(command.command)}”`,
    hint: commands.length === 1 ? 'C' : undefined,
    icon: CopyIcon,
    onChoose: () => void copyCommand(workspace, command),
  }))
  if (commands.length < 2) return copying
  const list = (): void => setIn(store, 'listing', entry.id, true)
  return [...copying, { id: 'commands', word: 'Commands one by one…', hint: 'O', onChoose: list }]
}

/** How many problems the menu offers to answer, the newest first. */
const MOST_PROBLEMS = 5

/** The open problems that a fix or decision may have ended: one press says so. */
function answerLines(workspace: Workspace, entry: Entry): MenuLine[] {
  const { view } = workspace.state
  if (!view || !canAnswer(entry)) return []
  const open = problemsOf({ ...view, links: view.links.values() }).filter(({ ended }) => ended === null)
  return open
    .slice(-MOST_PROBLEMS)
    .reverse()
    .map(({ entry: problem, since }) => ({
      id: `answers ${problem.id}`,
      word: `Answers the problem of ${timeBeside(since, entry.moment)}`,
      hint: (view.texts.get(problem.id) ?? '').replace(/\s+/gu, ' ').slice(0, 40),
      icon: KindProblemIcon,
      onChoose: () => void answer(workspace, entry.id, problem.id, 'button'),
    }))
}

function withdrawalLines(workspace: Workspace, { id, kind }: Entry, isWithdrawn: boolean): MenuLine[] {
  const withdraw = (wanted: boolean) => () => void setWithdrawn(workspace, id, wanted)
  if (!isWithdrawn)
    return [{ id: 'withdraw', word: 'Withdraw', icon: WithdrawIcon, onChoose: withdraw(true) }]
  const writeAnew = (): void => {
    const text = workspace.state.view?.texts.get(id)
    if (text !== undefined) workspace.composerReturns.emit({ kind, text })
  }
  return [
    { id: 'bring back', word: 'Bring back', icon: UndoIcon, onChoose: withdraw(false) },
    { id: 'anew', word: 'Write anew', hint: 'in the composer', icon: JournalIcon, onChoose: writeAnew },
  ]
}

/** Carries the words that were selected in the entry, or all of it. */
function carryChosen(workspace: Workspace, store: JournalStore, entry: Entry): void {
  const { selected } = store.getState()
  const text = workspace.requireView().texts.get(entry.id) ?? ''
  const ranges = selected?.id === entry.id ? [selected.range] : [{ start: 0, end: text.length }]
  offerToCarry(workspace, entry, fragmentOfEntry(workspace, entry, text, ranges))
}

/** The words that were selected in the entry, or all of it. */
function chosenText(workspace: Workspace, store: JournalStore, { id }: Entry): string {
  const { selected } = store.getState()
  const text = workspace.requireView().texts.get(id) ?? ''
  return selected?.id === id ? text.slice(selected.range.start, selected.range.end) : text
}
