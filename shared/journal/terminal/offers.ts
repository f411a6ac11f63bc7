/** What a found command becomes in the journal: an action, its output, and the files that it wrote. */
import type { EntryInput } from '../../lab/acts.ts'
import { maybeMachineOf } from '../../lab/machine-acts.ts'
import type { FileState, Machine, Place } from '../../lab/model.ts'
import { toMoment, type Moment } from '../../lab/moment.ts'
import { fileText, maybeTextShape } from '../files/content.ts'
import { noFile } from '../files/typed.ts'
import { tidyPlace } from '../places.ts'
import type { FoundCommand, FoundFile, FoundPlace } from './found.ts'

/** A longer output stands in its entry by its head and its tail. UTF-16 code units. */
export const MOST_IN_ENTRY = 100_000
const KEPT_EACH = 40_000

/** What is known of the log that a command was found in. */
export interface LogFacts {
  /** Its name, for people. */
  readonly name: string
  /** The machine that it is of, where the person said so; it counts for commands that say no other host. */
  readonly machine: Machine | null
  readonly machines: readonly Machine[]
  /** Minutes east of UTC, of the times. */
  readonly offset: number
}

type Input = Omit<EntryInput, 'project'>

/** The entries of one command, in order: the action, its output where there is one, its files. Without a command, the output alone. */
export function entriesOf(found: FoundCommand, log: LogFacts): Input[] {
  const at = (ms: number | null): Moment | null => (ms === null ? null : toMoment(ms, log.offset))
  const started = at(found.started)
  const about = { happened: started, place: placeFor(found.place, log) }
  const ran = { exitCode: found.exitCode, started, ended: at(found.ended), log: log.name }
  const action: Input[] =
    found.command === '' ? [] : [{ ...about, kind: 'action', text: fenced(found.command, 'sh'), ran }]
  const output: Input[] =
    found.output === '' ? [] : [{ ...about, kind: 'output', text: fenced(shortened(found.output), 'text') }]
  return [...action, ...output, ...found.files.flatMap((file) => maybeFileEntry(file, about))]
}

function maybeFileEntry({ path, content }: FoundFile, about: Pick<Input, 'happened' | 'place'>): Input[] {
  const shape = maybeTextShape(content)
  if (!shape) return []
  const file: FileState = { ...noFile, ...shape, path }
  return [{ ...about, kind: 'file', text: fileText(content, path), file }]
}

function placeFor({ host, user, directory }: FoundPlace, { machine, machines }: LogFacts): Place | null {
  const named = host === null ? undefined : maybeMachineOf(host, machines)
  if (named) return { machine: named.id, host, user, directory }
  return tidyPlace({ machine: host === null ? (machine?.id ?? null) : null, host, user, directory })
}

/** The text itself, or its first and last lines with a line between that says how many were left out. */
export function shortened(output: string): string {
  if (output.length <= MOST_IN_ENTRY) return output
  const head = output.slice(0, output.lastIndexOf('\n', KEPT_EACH) + 1 || KEPT_EACH)
  const from = output.indexOf('\n', output.length - KEPT_EACH) + 1 || output.length - KEPT_EACH
  const left = output.slice(head.length, from).split('\n').length - 1
  return `${head}[${left} lines left out here; the log holds them]\n${output.slice(from)}`
}

/** A fenced code block (CommonMark 0.31.2 §4.5) whose fence is longer than any run of its sign in the text. */
function fenced(text: string, language: string): string {
  const longest = Array.from(text.matchAll(/`{3,}/g)).reduce((most, [run]) => Math.max(most, run.length), 2)
  const fence = '`'.repeat(longest + 1)
  return `${fence}${language}\n${text}\n${fence}`
}
