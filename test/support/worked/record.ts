/**
 * Records the work of `scenes.ts` with util-linux `script`, each on a small staged machine (stage.sh), in a shell that
 * marks its prompt, so that the log says exit codes and places: `npx tsx test/support/worked/record.ts [name…]`. Needs
 * root, unshare, script and what the scenes call.
 */
import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bashSetUp } from '../../../shared/journal/terminal/shellSetUp.ts'
import { scenes, type Scene } from './scenes.ts'

const target = join(import.meta.dirname, '../../fixtures/worked')
const pause = (ms: number): Promise<void> => new Promise((go) => setTimeout(go, ms))

async function record({ name, host, typed }: Scene): Promise<void> {
  const work = mkdtempSync(join(tmpdir(), 'worked-'))
  const [log, timing, rc] = ['log', 'timing', 'rc'].map((one) => join(work, one)) as [string, string, string]
  writeFileSync(rc, `PS1='\\u@\\h:\\w\\$ '\nunset HISTFILE\n${bashSetUp}`)
  const stage = `unshare --uts --mount --net --pid --fork --kill-child sh ${join(import.meta.dirname, 'stage.sh')} ${host} ${rc}`
  const command = `stty rows 30 cols 110; exec ${stage}`
  const run = spawn('script', ['-q', '-f', '-O', log, '-T', timing, '-m', 'advanced', '-c', command], {
    env: { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8', SHELL: '/bin/sh' },
    stdio: ['pipe', 'ignore', 'inherit'],
  })
  const ended = new Promise<void>((go) => run.on('exit', () => go()))
  const quiet = async (ms: number, least: number): Promise<void> => {
    for (let [size, n] = [-1, 0]; n < 100; n++) {
      const now = existsSync(log) ? statSync(log).size : 0
      if (now === size && now > least) return
      size = now
      await pause(ms)
    }
  }
  await quiet(500, 200)
  for (const line of [...typed, 'exit'].flatMap((one) => one.split('\n'))) {
    run.stdin.write(`${line}\n`)
    await quiet(450, 0)
  }
  await ended
  for (const [part, path] of [
    ['log', log],
    ['timing', timing],
  ] as const) {
    const text = readFileSync(path, 'latin1').replaceAll(stage, 'bash').replaceAll(work, '/tmp')
    writeFileSync(join(target, `${name}.${part}`), text, 'latin1')
  }
  rmSync(work, { recursive: true })
}

const chosen = process.argv.slice(2)
for (const scene of scenes.filter(({ name }) => chosen.length === 0 || chosen.includes(name)))
  await record(scene)
