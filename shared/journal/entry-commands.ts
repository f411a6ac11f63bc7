/** The commands that stand in an entry, each with its outcome. */
import type { Entry, Mark, Outcome, Piece } from '../lab/model.ts'
import { slicePieces } from '../provenance/pieces.ts'
import { outcomeOf, outcomeSet } from './entry-facts.ts'
import type { MarkdownCommand } from './scrollback/commands.ts'

export interface EntryCommand extends MarkdownCommand {
  /** The identities of its characters, by which marks name it. */
  readonly pieces: readonly Piece[]
  readonly outcome: Outcome
}

/**
 * An exit code is that of the last command which ran: of those before it, it says nothing.
 * @param found the commands in the entry's text, in order
 * @param pieces the identities of the text's characters
 * @param marks what was set on the entry since it was written, in order
 */
export function commandsOfEntry(
  entry: Entry,
  found: readonly MarkdownCommand[],
  pieces: readonly Piece[],
  marks: readonly Mark[],
): EntryCommand[] {
  const withoutExit: Entry = { ...entry, ran: null }
  return found.map((command, at) => {
    const own = slicePieces(pieces, { start: command.from, end: command.to })
    const isLast = at === found.length - 1
    return { ...command, pieces: own, outcome: outcomeOf(isLast ? entry : withoutExit, marks, own) }
  })
}

/** The outcome of several commands: succeeded only where every one did, failed as soon as one did. */
export function outcomeTogether(outcomes: readonly Outcome[]): Outcome {
  if (outcomes.includes('failed')) return 'failed'
  return outcomes.length > 0 && outcomes.every((one) => one === 'succeeded') ? 'succeeded' : 'unknown'
}

/** The outcome of an entry; null where it has none: it is no action, or one that holds no command and tells of none. */
export function outcomeOfEntry(
  entry: Entry,
  commands: readonly EntryCommand[],
  marks: readonly Mark[],
): Outcome | null {
  if (entry.kind !== 'action') return null
  if (commands.length > 0) return outcomeTogether(commands.map(({ outcome }) => outcome))
  return entry.ran !== null || outcomeSet(marks, null) !== null ? outcomeOf(entry, marks) : null
}
