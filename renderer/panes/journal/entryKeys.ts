/** The keys of an entry. */
import type { KeyboardEvent } from 'react'
import type { Entry, Outcome } from '../../../shared/lab/model.ts'
import type { Workspace } from '../../store/workspace.ts'
import { isAltLetter } from '../../ui/keys.ts'
import { commandsIn } from './entryCommands.ts'
import { CUT_SENTENCE, findSelection, offerToCarry, wholeEntry } from './entryFragment.ts'
import { setOutcome } from './entryMarks.ts'
import { copyOrList, ownPieces } from './EntryOutcome.tsx'
import { isInEditor } from './isTyping.ts'
import { setIn, type JournalStore } from './journalState.ts'
import { traceEntry } from './traceEntry.ts'

/** What a key does while the keyboard is on an entry. */
export function onEntryKey(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  event: KeyboardEvent<HTMLElement>,
): void {
  const { currentTarget: article } = event
  if (isInEditor(event.target)) return
  if (event.code === 'KeyC' && event.altKey && !event.ctrlKey && !event.metaKey) {
    event.preventDefault()
    carryFrom(workspace, entry, article)
  } else if (isAltLetter(event, 'T')) {
    event.preventDefault()
    traceEntry(workspace, store, entry.id)
  } else if (event.key === 'Enter' && event.target === article) {
    event.preventDefault()
    article.querySelector<HTMLElement>('[data-entry-menu]')?.click()
  } else if (!workspace.state.view?.withdrawn.has(entry.id)) {
    const act = actOfLetter(workspace, store, entry, maybeLetter(event))
    if (!act) return
    event.preventDefault()
    act()
  }
}

/** The letter that was pressed alone, while the keyboard is on the entry itself. */
function maybeLetter({ key, altKey, ctrlKey, metaKey, target, currentTarget }: KeyboardEvent): string | null {
  return altKey || ctrlKey || metaKey || target !== currentTarget ? null : key.toLowerCase()
}

const outcomeOfLetter: Readonly<Record<string, Outcome>> = { s: 'succeeded', f: 'failed', u: 'unknown' }

function actOfLetter(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  letter: string | null,
): (() => void) | null {
  if (letter === 't') return () => setIn(store, 'tagging', entry.id, true)
  if (letter === 'p') return () => setIn(store, 'placing', entry.id, true)
  if (letter === 'c' || letter === 'o') return actOnCommands(workspace, store, entry, letter)
  if (letter === 'a') return () => store.getState().composer.addTo(entry.under ?? entry.id)
  const outcome = entry.kind === 'action' && letter !== null ? outcomeOfLetter[letter] : undefined
  return outcome ? () => setOutcomeOf(workspace, entry, outcome) : null
}

function actOnCommands(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  letter: 'c' | 'o',
): (() => void) | null {
  const commands = commandsIn(workspace.requireView(), entry)
  if (commands.length === 0) return null
  if (letter === 'c') return () => copyOrList(workspace, store, entry, commands)
  return () => setIn(store, 'listing', entry.id, true)
}

function setOutcomeOf(workspace: Workspace, entry: Entry, outcome: Outcome): void {
  const view = workspace.requireView()
  const own = ownPieces(commandsIn(view, entry), view.marks.get(entry.id) ?? [])
  void setOutcome(workspace, entry, outcome, own)
}

/** Carries the words that are selected in the entry, or the whole of it. */
function carryFrom(workspace: Workspace, entry: Entry, root: Element): void {
  const selection = findSelection(workspace, root)
  const isOfWords = selection?.entry.id === entry.id
  if (isOfWords && selection.isCut) workspace.say('notice', CUT_SENTENCE)
  offerToCarry(workspace, entry, isOfWords ? selection.fragment : wholeEntry(workspace, entry))
}
