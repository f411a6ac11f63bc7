/** Beside an action's time and kind: how its commands ended, and the button that copies them. */
import type { ReactNode } from 'react'
import { outcomeSet } from '../../../shared/journal/entry-facts.ts'
import { outcomeOfEntry, type EntryCommand } from '../../../shared/journal/entry-commands.ts'
import { outcomes, type Entry, type Mark, type Outcome } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import { CopyIcon, FailedIcon, SucceededIcon, UnknownIcon, type Icon } from '../../ui/icons.tsx'
import { copyCommand, useCommands } from './entryCommands.ts'
import { setOutcome } from './entryMarks.ts'
import { setIn, type JournalStore } from './journalState.ts'
import { useEntryMarks } from './useEntry.ts'

export const outcomeFaces: Readonly<Record<Outcome, { readonly icon: Icon; readonly key: string }>> = {
  succeeded: { icon: SucceededIcon, key: 'S' },
  failed: { icon: FailedIcon, key: 'F' },
  unknown: { icon: UnknownIcon, key: 'U' },
}

export interface EntryOutcomeProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly tabIndex: number
}

/** The outcome of an action's commands together, and the menu that sets it. Nothing where there is no command. */
export function EntryOutcome({ entry, store, tabIndex }: EntryOutcomeProps): ReactNode {
  const workspace = useWorkspace()
  const commands = useCommands(entry)
  const marks = useEntryMarks(entry.id)
  const outcome = outcomeOfEntry(entry, commands, marks)
  if (outcome === null) return null
  const exitCode = entry.ran?.exitCode ?? null
  const code = outcome === 'failed' && exitCode !== null && exitCode !== 0 ? `exit ${exitCode}` : null
  const name = `${[outcome, code].filter(Boolean).join(', ')}: outcome of this action`
  return (
    <Menu
      label="Outcome"
      lines={() => linesFor(workspace, store, { entry, commands, marks, outcome })}
      trigger={(attributes) => (
        <Button
          {...attributes}
          look="quiet"
          icon={outcomeFaces[outcome].icon}
          className={`st-outcome st-outcome--${outcome}`}
          label={name}
          tabIndex={tabIndex}
        />
      )}
    />
  )
}

interface Standing {
  readonly entry: Entry
  readonly commands: readonly EntryCommand[]
  readonly marks: readonly Mark[]
  readonly outcome: Outcome
}

function linesFor(
  workspace: Workspace,
  store: JournalStore,
  { entry, commands, marks, outcome }: Standing,
): MenuLine[] {
  const exitCode = entry.ran?.exitCode ?? null
  const lines: MenuLine[] = outcomes.map((one) => ({
    id: one,
    word: wordOf(one),
    icon: outcomeFaces[one].icon,
    hint: outcomeFaces[one].key,
    isChosen: one === outcome,
    onChoose: () => void setOutcome(workspace, entry, one, ownPieces(commands, marks)),
  }))
  if (outcomeSet(marks, null) !== null && exitCode !== null)
    lines.push({
      id: 'exit code',
      word: `As the exit code says (${exitCode})`,
      onChoose: () => void setOutcome(workspace, entry, null),
    })
  if (commands.length > 1)
    lines.push({
      id: 'each',
      word: `Each of its ${commands.length} commands…`,
      hint: 'O',
      onChoose: () => setIn(store, 'listing', entry.id, true),
    })
  return lines
}

export const wordOf = (outcome: Outcome): string => outcome[0]!.toUpperCase() + outcome.slice(1)

/** What a mark for a whole entry must name: a single command of which something was said alone hears to that only. */
export function ownPieces(
  commands: readonly EntryCommand[],
  marks: readonly Mark[],
): EntryCommand['pieces'] | null {
  const [one] = commands
  return commands.length === 1 && outcomeSet(marks, one!.pieces) !== null ? one!.pieces : null
}

/** Copies the one command of an action, or leads to the list of them. */
export function CopyCommands({ entry, store, tabIndex }: EntryOutcomeProps): ReactNode {
  const workspace = useWorkspace()
  const commands = useCommands(entry)
  if (commands.length === 0) return null
  return (
    <Button
      look="quiet"
      icon={CopyIcon}
      label={commands.length === 1 ? 'Copy command' : 'Copy one of its commands'}
      keys="C"
      tabIndex={tabIndex}
      onClick={() => copyOrList(workspace, store, entry, commands)}
    />
  )
}

export function copyOrList(
  workspace: Workspace,
  store: JournalStore,
  entry: Entry,
  commands: readonly EntryCommand[],
): void {
  const [one, ...more] = commands
  if (one && more.length === 0) void copyCommand(workspace, one)
  else if (one) setIn(store, 'listing', entry.id, true)
}
