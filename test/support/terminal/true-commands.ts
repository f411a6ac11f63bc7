/** Recorded sessions with what was really run in them, and how far what was found agrees with it. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { FoundCommand } from '../../../shared/journal/terminal/found.ts'
import { Screen, type Spot } from '../../../shared/journal/terminal/screen.ts'
import { LogDriver } from '../../../shared/journal/terminal/driver.ts'
import type { TrueCommand } from './prompts/record.ts'

const fixtures = join(import.meta.dirname, '../../fixtures')
const prompts = join(fixtures, 'terminal/prompts')
const sample = join(fixtures, 'recordings')

export interface Recorded {
  readonly name: string
  readonly log: Uint8Array
  readonly truth: readonly TrueCommand[]
  readonly isFrozen: boolean
}

const named = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.log'))
    .map((name) => name.slice(0, -'.log'.length))

/** Sessions with different prompts, and the sample's sessions, whose lists leave the last `exit` out. */
export function recordedSessions(): Recorded[] {
  const own = named(prompts).map((name): Recorded => {
    const truth = JSON.parse(readFileSync(join(prompts, `${name}.truth.json`), 'utf8')) as TrueCommand[]
    return {
      name,
      log: readFileSync(join(prompts, `${name}.log`)),
      truth,
      isFrozen: name.startsWith('frozen-'),
    }
  })
  if (!existsSync(sample)) return own
  const others = named(sample).map((name): Recorded => {
    const commands = JSON.parse(readFileSync(join(sample, `${name}.commands.json`), 'utf8')) as string[]
    const truth = [...commands, 'exit'].map((command) => ({
      by: 'driver',
      user: null,
      host: null,
      directory: null,
      command,
    }))
    return { name, log: readFileSync(join(sample, `${name}.log`)), truth, isFrozen: false }
  })
  return [...own, ...others]
}

/**
 * Whether a session was recorded to see how the reader fares on what its authors had not seen. There a text alone tells less:
 * they wrap more, and their outputs quote more of other sessions.
 */
export const isExamination = ({ name }: Recorded): boolean => /^late[2-4]-/u.test(name)

/** What a finished log gives. */
export async function readLog(name: string, log: Uint8Array): Promise<FoundCommand[]> {
  const found: FoundCommand[] = []
  const driver = new LogDriver({ name, isLive: false, isTimed: false, measured: null }, null, (message) => {
    // Output at an empty prompt is offered too, and is no command.
    if (message.kind === 'found' && message.found.command !== '') found.push(message.found)
  })
  await driver.push(log, null)
  await driver.end()
  return found
}

/** The lines of a log of `script` as they stood on the screen, wraps joined, without anything else that is known. */
export async function readLines(log: Uint8Array): Promise<string[]> {
  const start = log.indexOf(10) + 1
  const columns = Number(/COLUMNS="(\d+)"/u.exec(Buffer.from(log.subarray(0, start)).toString())?.[1] ?? 80)
  const end = Buffer.from(log).lastIndexOf('\nScript done on ')
  const nothing = (): void => undefined
  const erased: string[] = []
  let from: Spot
  const screen: Screen = new Screen(
    { columns, rows: 28 },
    {
      onMark: nothing,
      onDirectory: nothing,
      onTitle: nothing,
      // A text that was copied before holds what the screen lost.
      onErase: () => {
        erased.push(...screen.read(from, 'written').lines.map(({ text }) => text))
        from = screen.spot() ?? from
      },
      onReset: (reset) => reset(),
    },
  )
  from = screen.spot()!
  await screen.write(log.subarray(start, end === -1 ? undefined : end), null)
  const { lines } = screen.read(from, 'all')
  screen.dispose()
  return [...erased, ...lines.map(({ text }) => text)].map((text) => text.trimEnd())
}

/** As bash writes a command down: lines joined by a backslash are one. Blanks at the ends do not count. */
export const asWritten = (command: string): string => command.replaceAll('\\\n', '').trim()

export interface Agreement<F> {
  readonly pairs: readonly (readonly [TrueCommand, F])[]
  readonly missed: readonly string[]
  readonly wrong: readonly string[]
}

/** Pairs what was run with what was found, in order, so that most agree to the letter (longest common subsequence). */
export function agreement<F extends { readonly command: string }>(
  truth: readonly TrueCommand[],
  found: readonly F[],
): Agreement<F> {
  const a = truth.map(({ command }) => asWritten(command))
  const b = found.map(({ command }) => asWritten(command))
  const most = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0))
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      most[i]![j] = a[i] === b[j] ? most[i + 1]![j + 1]! + 1 : Math.max(most[i + 1]![j]!, most[i]![j + 1]!)
    }
  }
  const pairs: (readonly [TrueCommand, F])[] = []
  const missed: string[] = []
  const wrong: string[] = []
  for (let i = 0, j = 0; i < a.length || j < b.length;) {
    if (i < a.length && j < b.length && a[i] === b[j]) pairs.push([truth[i++]!, found[j++]!])
    else if (j >= b.length || (i < a.length && most[i + 1]![j]! >= most[i]![j + 1]!)) missed.push(a[i++]!)
    else wrong.push(b[j++]!)
  }
  return { pairs, missed, wrong }
}
