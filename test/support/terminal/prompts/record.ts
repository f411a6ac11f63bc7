/**
 * Records the sessions of `scenes.ts`, `frozen-scenes.ts`, `late-scenes.ts`, `later-scenes.ts` and `last-scenes.ts` with util-linux
 * `script`, each on a small staged machine (stage.sh): `npx tsx test/support/terminal/prompts/record.ts [name…]`. Needs
 * root, unshare, tmux, script, bash, zsh, fish, sshd, sudo, sqlite3 and git. Keys go through tmux; the shells write what
 * they run, and this file what it typed at inner prompts.
 */
import { execFileSync, spawn } from 'node:child_process'
import {
  appendFileSync,
  chmodSync,
  copyFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { frozenScenes } from './frozen-scenes.ts'
import { lateScenes } from './late-scenes.ts'
import { laterScenes } from './later-scenes.ts'
import { lastScenes } from './last-scenes.ts'
import { scenes, type Scene, type Step } from './scenes.ts'

/** One command as its shell wrote it down, or as it was typed at a prompt within. */
export interface TrueCommand {
  /** `bash`, `zsh` and `fish` wrote it themselves before they ran it; for all else it is what was typed. */
  readonly by: string
  readonly user: string | null
  readonly host: string | null
  readonly directory: string | null
  readonly command: string
}

const here = import.meta.dirname
const target = join(here, '../../../fixtures/terminal/prompts')
const pause = (ms: number): Promise<void> => new Promise((go) => setTimeout(go, ms))

async function record(scene: Scene): Promise<void> {
  const work = mkdtempSync(join(tmpdir(), 'session-'))
  chmodSync(work, 0o755)
  writeFileSync(join(work, 'more.sh'), scene.stage ?? '')
  const words = ['--uts', '--mount', '--net', '--pid', '--fork', '--kill-child', 'sh', join(here, 'stage.sh')]
  const stage = spawn('unshare', [...words, work, scene.host, String(scene.columns)], {
    stdio: ['ignore', 'inherit', 'inherit'],
  })
  const ended = new Promise<void>((go) => stage.on('exit', () => go()))
  for (let n = 0; n < 100 && !existsSync(join(work, 'ready')); n++) await pause(100)
  const log = join(work, 'log')
  const keys = (...args: string[]): void => {
    execFileSync('tmux', ['-S', join(work, 'tmux'), 'send-keys', '-t', 's', ...args])
  }
  keys('-l', `script -f -O ${log} -T ${work}/timing -m advanced -c '${scene.command}'`)
  keys('Enter')
  await quiet(log, 600)
  for (const step of scene.steps) await take(step, keys, log, join(work, 'truth'))
  await pause(300)
  keep(scene, work)
  rmSync(join(work, 'ready'))
  await ended
  rmSync(work, { recursive: true, force: true })
}

async function take(
  step: Step,
  keys: (...args: string[]) => void,
  log: string,
  truth: string,
): Promise<void> {
  const lines = typeof step === 'string' ? step.split('\n') : 'type' in step ? step.type.split('\n') : []
  if (typeof step !== 'string' && 'at' in step)
    appendFileSync(truth, [step.at, '', '', '', step.type, ''].join('\0'))
  if (typeof step !== 'string' && 'wait' in step) await pause(step.wait)
  if (typeof step !== 'string' && 'keys' in step) {
    for (const key of step.keys) {
      if (key.startsWith('=')) keys('-l', key.slice(1))
      else keys(key)
      await pause(60)
    }
    await quiet(log, 350)
  }
  for (const line of lines) {
    // tmux takes a semicolon at the end of a word for the end of its own command.
    if (line !== '') keys('-l', '--', line.replace(/;$/u, String.raw`\;`))
    await pause(40 + 5 * line.length)
    keys('Enter')
    await quiet(log, 280)
  }
}

/** Waits until nothing was written for a time. */
async function quiet(log: string, ms: number): Promise<void> {
  let size = -1
  for (let n = 0; n < 60; n++) {
    await pause(ms)
    const now = existsSync(log) ? statSync(log).size : 0
    if (now === size) return
    size = now
  }
}

function keep(scene: Scene, work: string): void {
  const name = join(target, scene.name)
  for (const part of ['log', 'timing']) {
    copyFileSync(join(work, part), `${name}.${part}`)
    const text = readFileSync(`${name}.${part}`, 'latin1').replaceAll(work, '/tmp')
    writeFileSync(`${name}.${part}`, text, 'latin1')
  }
  const fields = readFileSync(join(work, 'truth'), 'utf8').split('\0')
  const truth: TrueCommand[] = []
  for (let n = 0; n + 5 <= fields.length; n += 5) {
    const [by = '', user = '', host = '', directory = '', command = ''] = fields.slice(n, n + 5)
    // A completed word leaves a blank before Enter, of which nothing shows.
    const line = command.replace(/ +$/u, '')
    truth.push({ by, user: user || null, host: host || null, directory: directory || null, command: line })
  }
  writeFileSync(`${name}.truth.json`, `${JSON.stringify(truth, null, 2)}\n`)
  console.log(scene.name, truth.length)
}

const chosen = process.argv.slice(2)
for (const scene of [...scenes, ...frozenScenes, ...lateScenes, ...laterScenes, ...lastScenes].filter(
  ({ name }) => chosen.length === 0 || chosen.includes(name),
))
  await record(scene)
