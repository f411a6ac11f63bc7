import { spawn, type ChildProcess } from 'node:child_process'
import { maybeProgram } from '../../../build/programs.mjs'

let server: ChildProcess | null = null

/** Says whether windows can be shown to a test: on a display that is there, or on an Xvfb. */
export function canHaveDisplay(): boolean {
  return process.platform !== 'linux' || Boolean(process.env.DISPLAY) || maybeProgram('Xvfb') !== null
}

/**
 * The display for windows: the one that is there, else an Xvfb of this test run's own, which ends with it.
 *
 * @returns a value for DISPLAY, '' on systems that have no such thing. @throws when there is neither a display nor Xvfb
 */
export async function ensureDisplay(): Promise<string> {
  if (process.env.DISPLAY || process.platform !== 'linux') return process.env.DISPLAY ?? ''
  const started = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1920x1080x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  })
  server = started
  const number = await new Promise<string>((resolve, reject) => {
    started.once('error', () =>
      reject(new Error('there is no display and no Xvfb (on Debian: apt-get install xvfb)')),
    )
    started.stdio[3]?.once('data', (chunk: Buffer) => resolve(chunk.toString().trim()))
  })
  process.env.DISPLAY = `:${number}`
  process.once('exit', () => server?.kill())
  return process.env.DISPLAY
}
