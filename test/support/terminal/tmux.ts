/** A second terminal: what tmux's scrollback holds after it was given the same bytes. */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const pause = (ms: number): Promise<void> => new Promise((go) => setTimeout(go, ms))

/** The lines of the scrollback and the screen, wraps joined, trailing blanks trimmed, empty lines at the end left out. */
export async function linesInTmux(
  pieces: readonly Uint8Array[],
  { columns = 80, rows = 24, patience = 60_000 } = {},
): Promise<string[]> {
  const work = mkdtempSync(join(tmpdir(), 'tmux-'))
  const [bytes, conf, done, socket] = ['bytes', 'conf', 'done', 'socket'].map((name) => join(work, name)) as [
    string,
    string,
    string,
    string,
  ]
  writeFileSync(bytes, Buffer.concat(pieces.map((piece) => Buffer.from(piece))))
  writeFileSync(conf, 'set -g history-limit 2000000\nset -g status off\nset -g remain-on-exit on\n')
  const tmux = (...words: string[]): string =>
    execFileSync('tmux', ['-S', socket, '-f', conf, '-u', ...words], {
      encoding: 'utf8',
      maxBuffer: 200_000_000,
      env: { ...process.env, LC_ALL: 'C.UTF-8', TERM: 'xterm-256color' },
    })
  const play = `stty raw -echo; cat ${bytes}; touch ${done}; sleep 1000`
  tmux('new-session', '-d', '-x', String(columns), '-y', String(rows), play)
  try {
    for (let waited = 0; !existsSync(done) && waited < patience; waited += 50) await pause(50)
    await pause(400)
    const text = tmux('capture-pane', '-p', '-J', '-S', '-', '-E', '-')
    return text.split('\n').map((line) => line.trimEnd())
  } finally {
    spawnSync('tmux', ['-S', socket, 'kill-server'])
    rmSync(work, { recursive: true, force: true })
  }
}
