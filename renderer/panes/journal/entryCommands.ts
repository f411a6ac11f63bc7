/** The commands of the entries on the screen. Finding them parses the text, so what was found is kept for a while. */
import { useMemo } from 'react'
import { commandsOfEntry, outcomeOfEntry, type EntryCommand } from '../../../shared/journal/entry-commands.ts'
import { commandsOf, type MarkdownCommand } from '../../../shared/journal/scrollback/commands.ts'
import type { Entry, Mark, Outcome, Piece } from '../../../shared/lab/model.ts'
import { remembered } from '../../../shared/lab/remembered.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import type { ProjectView } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { copyText } from '../../store/copyText.ts'
import { useEntryMarks, useText } from './useEntry.ts'

const noPieces: readonly Piece[] = []
const noMarks: readonly Mark[] = []

/** The commands in a Markdown text, found once, until something is struck out. */
export const findCommands = remembered(
  2000,
  (text: string) => text,
  (text): readonly MarkdownCommand[] => commandsOf(text),
)

type Facts = Pick<ProjectView, 'texts' | 'pieces' | 'marks'>

/** The commands of an entry as it stands now. */
export function commandsIn({ texts, pieces, marks }: Facts, entry: Entry): EntryCommand[] {
  const commands = findCommands(texts.get(entry.id) ?? '')
  if (commands.length === 0) return []
  return commandsOfEntry(entry, commands, pieces.get(entry.id) ?? noPieces, marks.get(entry.id) ?? noMarks)
}

/** The outcome of an entry; null where it has none. */
export function outcomeIn(facts: Facts, entry: Entry): Outcome | null {
  if (entry.kind !== 'action') return null
  return outcomeOfEntry(entry, commandsIn(facts, entry), facts.marks.get(entry.id) ?? noMarks)
}

/** The commands of one entry, kept up to date. */
export function useCommands(entry: Entry): readonly EntryCommand[] {
  const text = useText(entry.id)
  const marks = useEntryMarks(entry.id)
  const pieces = useWorkspaceState(({ view }) => view?.pieces.get(entry.id) ?? noPieces)
  return useMemo(
    () => commandsOfEntry(entry, findCommands(text), pieces, marks),
    [entry, text, pieces, marks],
  )
}

/** The first line of a command, cut to what a line of a menu holds. */
export function briefly(command: string): string {
  const [first = '', ...more] = command.split('\n')
  const cut = first.length > 40 ? first.slice(0, 39) : first
  return more.length > 0 || cut !== first ? `${cut.trimEnd()}…` : cut
}

/** Puts a command on the clipboard: exactly what is to be run, without prompt and without a line end behind it. */
export function copyCommand(workspace: Workspace, { command }: MarkdownCommand): Promise<void> {
  return copyText(workspace, command, 'Copied the command.')
}
