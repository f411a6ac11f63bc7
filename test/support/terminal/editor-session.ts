/**
 * Records one command in a terminal by util-linux `script`, with keys pressed at given times, and gives what it wrote
 * in the pieces in which it came (script's timing file, "advanced" format of scriptreplay(1)).
 */
import { spawn, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface EditorSession {
  readonly command: string
  /** Keys in order; after each the program is waited for until it writes no more. */
  readonly keys: readonly string[]
  readonly directory: string
  readonly columns?: number
  readonly rows?: number
  readonly environment?: Readonly<Record<string, string>>
}

export interface Recorded {
  readonly pieces: readonly Uint8Array[]
  readonly exitCode: number
}

/** Whether a program is here, by its name on the path. */
export function hasProgram(name: string): boolean {
  return spawnSync('sh', ['-c', `command -v ${name}`]).status === 0
}

const pause = (ms: number): Promise<void> => new Promise((go) => setTimeout(go, ms))

/** Records a session. @throws where script is not here or the command does not end by its keys */
export async function recordSession(session: EditorSession): Promise<Recorded> {
  const { command, keys, directory, columns = 80, rows = 24, environment = {} } = session
  const work = mkdtempSync(join(tmpdir(), 'editor-'))
  const [log, timing] = [join(work, 'log'), join(work, 'timing')]
  const words = ['-q', '-f', '-e', '-O', log, '-T', timing, '-m', 'advanced']
  const env = {
    ...process.env,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
    LC_ALL: 'C.UTF-8',
    SHELL: '/bin/sh',
    HOME: work,
  }
  const line = `stty rows ${rows} cols ${columns}; ${command}`
  const run = spawn('script', [...words, '-c', line], {
    cwd: directory,
    env: { ...env, ...environment },
    stdio: ['pipe', 'ignore', 'ignore'],
  })
  const ended = new Promise<number>((go) => run.on('exit', (code) => go(code ?? -1)))
  let exitCode: number | undefined
  void ended.then((code) => (exitCode = code))
  const sizeOf = (): number => (existsSync(log) ? statSync(log).size : 0)
  const isQuiet = async (least: number): Promise<void> => {
    for (let [size, n] = [-1, 0]; n < 100 && (size !== sizeOf() || sizeOf() < least); n++) {
      size = sizeOf()
      await pause(70)
    }
  }
  await isQuiet(120)
  for (const key of keys) {
    if (exitCode !== undefined) break
    run.stdin.write(key)
    await isQuiet(0)
  }
  for (let n = 0; n < 60 && exitCode === undefined; n++) await pause(50)
  if (exitCode === undefined) run.kill('SIGKILL')
  const recorded = {
    pieces: piecesOf(readFileSync(log), readFileSync(timing, 'utf8')),
    exitCode: await ended,
  }
  rmSync(work, { recursive: true })
  return recorded
}

/** The bytes of the log behind its first line, cut where they came. */
function piecesOf(log: Uint8Array, timing: string): Uint8Array[] {
  let at = log.indexOf(10) + 1
  return Array.from(timing.matchAll(/^O \S+ (\d+)$/gm), ([, count]) => {
    const piece = log.subarray(at, at + Number(count))
    at += Number(count)
    return piece
  })
}
