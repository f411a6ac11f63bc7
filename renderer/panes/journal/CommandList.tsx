/** The commands of an entry one by one, below its text: each can be copied, and each has its outcome. */
import { useEffect, useRef, type KeyboardEvent, type ReactNode } from 'react'
import type { EntryCommand } from '../../../shared/journal/entry-commands.ts'
import { outcomes, type Entry, type Outcome } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { CloseIcon, CopyIcon } from '../../ui/icons.tsx'
import { nextPlace } from '../../ui/roving.ts'
import { briefly, copyCommand, useCommands } from './entryCommands.ts'
import { setOutcome } from './entryMarks.ts'
import { outcomeFaces, wordOf } from './EntryOutcome.tsx'
import { focusEntry, setIn, type JournalStore } from './journalState.ts'

export interface CommandListProps {
  readonly entry: Entry
  readonly store: JournalStore
}

export function CommandList({ entry, store }: CommandListProps): ReactNode {
  const commands = useCommands(entry)
  const list = useRef<HTMLOListElement>(null)
  useEffect(() => list.current?.querySelector<HTMLElement>('li')?.focus(), [])
  const close = (): void => {
    setIn(store, 'listing', entry.id, false)
    focusEntry(store, entry.id)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') close()
    else {
      const lines = [...(list.current?.querySelectorAll<HTMLElement>(':scope > li') ?? [])]
      const next = nextPlace(event.key, lines.indexOf(event.target as HTMLElement), lines.length, 'vertical')
      if (next === null) return
      lines[next]?.focus()
    }
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <div className="st-commands" role="group" aria-label="Commands of this entry" onKeyDown={onKeyDown}>
      <div className="st-commands-head">
        <p>
          {entry.kind === 'action'
            ? 'On a command: C copies it, S, F and U say how it ended.'
            : 'On a command: C copies it.'}
        </p>
        <Button look="quiet" icon={CloseIcon} label="Fold the commands" keys="Escape" onClick={close} />
      </div>
      <ol ref={list} className="st-commands-list">
        {commands.map((command) => (
          <CommandLine key={command.from} entry={entry} command={command} />
        ))}
      </ol>
    </div>
  )
}

interface CommandLineProps {
  readonly entry: Entry
  readonly command: EntryCommand
}

function CommandLine({ entry, command }: CommandLineProps) {
  const workspace = useWorkspace()
  const name = briefly(command.command)
  const hasOutcome = entry.kind === 'action'
  const set = (outcome: Outcome): void => void setOutcome(workspace, entry, outcome, command.pieces)
  const copy = (): void => void copyCommand(workspace, command)
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.target !== event.currentTarget) return
    const key = event.key.toUpperCase()
    const outcome = outcomes.find((one) => outcomeFaces[one].key === key)
    if (key === 'C') copy()
    else if (outcome && hasOutcome) set(outcome)
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <li
      tabIndex={0}
      className="st-command"
      aria-label={hasOutcome ? `${name}: ${command.outcome}` : name}
      aria-keyshortcuts={hasOutcome ? 'C S F U' : 'C'}
      onKeyDown={onKeyDown}
    >
      <code className="st-command-text">{command.command}</code>
      <span className="st-command-acts">
        {hasOutcome
          ? outcomes.map((one) => (
              <Button
                key={one}
                look="quiet"
                icon={outcomeFaces[one].icon}
                className={`st-outcome st-outcome--${one}`}
                label={wordOf(one)}
                pressed={one === command.outcome}
                onClick={() => set(one)}
              />
            ))
          : null}
        <Button look="quiet" icon={CopyIcon} label={`Copy ${name}`} onClick={copy} />
      </span>
    </li>
  )
}
