/**
 * The commands of a lab: every command that stands in an action, once for all times that it was run, with what came of it.
 * Two runs are of one command where its words are the same to the letter. Read from texts as they stand now, so that what was
 * struck out is not among them; who asks leaves out entries that were withdrawn.
 */
import { commandsOfEntry } from '../../journal/entry-commands.ts'
import { momentOf, placeOf } from '../../journal/entry-facts.ts'
import { commandsOf } from '../../journal/scrollback/commands.ts'
import type { EntryId, MachineId, ProjectId } from '../../lab/ids.ts'
import type { Entry, Mark, Outcome, Piece } from '../../lab/model.ts'
import { instantOf, type Moment } from '../../lab/moment.ts'

/** An entry with what is known of it. */
export interface RunMatter {
  readonly entry: Entry
  readonly text: string
  /** The identities of the text's characters. */
  readonly pieces: readonly Piece[]
  /** In the order in which they were set. */
  readonly marks: readonly Mark[]
}

/** One time that a command was run. */
export interface CommandRun {
  readonly entry: EntryId
  readonly project: ProjectId
  /** Where it stands in the entry's text, UTF-16 code units, end exclusive. */
  readonly range: { readonly start: number; readonly end: number }
  readonly outcome: Outcome
  /** When the entry happened, else when it was written. */
  readonly moment: Moment
  /** Null where it is not known. */
  readonly machine: MachineId | null
  /** The name that the log or the person gave the machine; of one that has no record, too. */
  readonly host: string | null
}

export interface LabCommand {
  /** Exactly what was run. */
  readonly command: string
  /** Newest first; those of one instant, and of one entry, the later first. Never empty. */
  readonly runs: readonly CommandRun[]
  /** How many of the runs came to each outcome. */
  readonly counts: Readonly<Record<Outcome, number>>
}

/** The runs in one entry, in the order of its text; none where it is no action. */
export function runsOf({ entry, text, pieces, marks }: RunMatter): (CommandRun & { command: string })[] {
  if (entry.kind !== 'action') return []
  const place = placeOf(entry, marks)
  return commandsOfEntry(entry, commandsOf(text), pieces, marks).map(({ command, from, to, outcome }) => ({
    command,
    entry: entry.id,
    project: entry.project,
    range: { start: from, end: to },
    outcome,
    moment: momentOf(entry, marks),
    machine: place?.machine ?? null,
    host: place?.host ?? null,
  }))
}

/** Every command of the lab, the one that was run last first. The order of the entries is of no account. */
export function commandsOfLab(entries: Iterable<RunMatter>): LabCommand[] {
  return commandsOfRuns([...entries].flatMap(runsOf))
}

/** The same of runs that were read already; their order is of no account. */
export function commandsOfRuns(all: Iterable<CommandRun & { readonly command: string }>): LabCommand[] {
  const runs = new Map<string, CommandRun[]>()
  for (const { command, ...run } of all) {
    const known = runs.get(command)
    if (known) known.push(run)
    else runs.set(command, [run])
  }
  const commands = [...runs].map(([command, own]) => ({
    command,
    runs: own.sort(newestFirst),
    counts: countOutcomes(own),
  }))
  return commands.sort((a, b) => newestFirst(a.runs[0]!, b.runs[0]!) || (a.command < b.command ? -1 : 1))
}

/**
 * The commands in which a part stands, in the order in which they came. Capitals and how much white space stands between
 * words are of no account; an empty part stands in all.
 */
export function withPart(commands: readonly LabCommand[], part: string): LabCommand[] {
  const wanted = folded(part).trim()
  return commands.filter(({ command }) => folded(command).includes(wanted))
}

function folded(text: string): string {
  return text.replace(/\s+/g, ' ').toLowerCase()
}

function newestFirst(a: CommandRun, b: CommandRun): number {
  const between = instantOf(b.moment) - instantOf(a.moment)
  if (between !== 0) return between
  if (a.entry !== b.entry) return a.entry > b.entry ? -1 : 1
  return b.range.start - a.range.start
}

function countOutcomes(runs: readonly CommandRun[]): Record<Outcome, number> {
  const counts = { succeeded: 0, failed: 0, unknown: 0 }
  for (const { outcome } of runs) counts[outcome]++
  return counts
}
