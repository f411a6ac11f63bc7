/**
 * Commands and outputs of real sessions, recorded here by script(1): commands, places and exit codes against what the
 * shell itself wrote before each command (bash: DEBUG trap, zsh: preexec), outputs against tmux(1) on the same bytes.
 */
import { diffArrays } from 'diff'
import { describe, expect, it } from 'vitest'
import type { FoundCommand } from '../../shared/journal/terminal/found.ts'
import { LogReader } from '../../shared/journal/terminal/reader.ts'
import { hasProgram } from '../support/terminal/editor-session.ts'
import { recordMarked, type MarkedRecording } from '../support/terminal/marked.ts'
import { linesInTmux } from '../support/terminal/tmux.ts'

async function readAll(pieces: readonly Uint8Array[], columns = 80, rows = 24): Promise<FoundCommand[]> {
  const found: FoundCommand[] = []
  const reader = new LogReader({ columns, rows, onFound: (one) => found.push(one) })
  let at = Date.UTC(2026, 10, 25, 21)
  for (const piece of pieces) await reader.push(piece, (at += 1000))
  reader.end()
  return found
}

const plainKeys = [
  'echo one\n',
  'ls /nonexistent\n',
  'for i in 1 2 3; do\n',
  'echo $i\n',
  'done\n',
  'cat <<E\n',
  '  kept blanks\n',
  'E\n',
  'cd /etc\n',
  `: ${'a'.repeat(90)} b\n`,
  'echo onX\u007fe\u001b[D\u001b[Dz\n',
  'printf "no line end"\n',
  '\n',
  'given up\u0003',
  'seq 1 60\n',
  'false\n',
  "printf '\\033[31mred\\033[0m \\033[1mbold\\033[0m\\n'\n",
  "printf 'tab\\tand\\bbackspace\\n'\n",
  'i=0; while [ $i -lt 40 ]; do printf "\\rprogress %d%%" $((i * 100 / 39)); i=$((i + 1)); done; echo\n',
  'echo "größe ✓ 時計"\n',
  'ls --color=always /\n',
  'exit\n',
]

function check(found: readonly FoundCommand[], { said }: MarkedRecording): void {
  const told = found.map(({ command, place, exitCode }) => ({ ...place, command, exitCode }))
  // The shell is gone before it could mark how `exit` ended.
  const wanted = said.map((one) => (one.command === 'exit' ? { ...one, exitCode: null } : one))
  expect(told).toEqual(
    wanted.map(({ user, host, directory, command, exitCode }) => ({
      host,
      user,
      directory,
      command,
      exitCode,
    })),
  )
}

/** Share of output lines that tmux shows otherwise, and the first of them. */
async function compareWithTmux(found: readonly FoundCommand[], pieces: readonly Uint8Array[]) {
  const commands = found.map(({ command }) => command)
  // Rows of long commands, which editors wrap by themselves, cannot be told from output here; equal lines go on both sides.
  const isCounted = (line: string): boolean =>
    line !== '' && !commands.some((one) => one.includes(line.trim()))
  const own = found
    .flatMap(({ output }) => output.split('\n').map((line) => line.trimEnd()))
    .filter(isCounted)
  const theirs = (await linesInTmux(pieces))
    // A prompt may stand behind an output without a line end; zsh sets a sign there.
    .map((line) => line.replace(/root@[\w.-]+:\S*[#$%]$|#$/, '').trimEnd())
    .filter((line) => isCounted(line) && !/^root@[\w.-]+:\S*[#$%] |^(?:\w+)?> /.test(line))
  const changes = diffArrays(own, theirs)
  const different = changes.filter(({ added, removed }) => added || removed)
  const lines = Math.max(
    ...[true, false].map((side) =>
      different.filter(({ added }) => added === side).reduce((sum, { value }) => sum + value.length, 0),
    ),
  )
  return { share: own.length === 0 ? 0 : lines / own.length, lines: own.length, different }
}

describe.each(['bash', 'zsh'] as const)('a session of %s with marks', (shell) => {
  const isHere = hasProgram('script') && hasProgram(shell)

  it.skipIf(!isHere)(
    'gives every command as the shell wrote it, with place and exit code, and no other',
    { timeout: 90_000 },
    async () => {
      const recording = await recordMarked({ shell, keys: plainKeys })
      expect(recording.said.length).toBeGreaterThan(14)
      const found = await readAll(recording.pieces)
      check(found, recording)
      expect(found.every(({ foundBy, started }) => foundBy === 'marks' && started !== null)).toBe(true)
      if (!hasProgram('tmux')) return
      const { share, different } = await compareWithTmux(found, recording.pieces)
      expect(share, JSON.stringify(different.slice(0, 6))).toBeLessThanOrEqual(0.01)
    },
  )

  it.skipIf(!isHere || !hasProgram('nano') || !hasProgram('top') || !hasProgram('tmux'))(
    'leaves full-screen programs out of the outputs and keeps a long output whole',
    { timeout: 180_000 },
    async () => {
      const lines = `awk 'BEGIN { for (i = 0; i < 10000; i++) { printf "%d", i; for (j = 0; j < 99; j++) printf " abcdefghi"; print "" } }'`
      const keys = [
        'echo before\n',
        'top\n',
        'q',
        '\n',
        'nano note.txt\n',
        'The driver waits.',
        '\u000f',
        '\r',
        '\u0018',
        'cat note.txt\n',
        `${lines}\n`,
        'echo behind\n',
        'exit\n',
      ]
      const recording = await recordMarked({ shell, keys })
      const found = await readAll(recording.pieces)
      check(found, recording)
      const by = (start: string): FoundCommand => found.find(({ command }) => command.startsWith(start))!
      expect(by('cat').output).toBe('The driver waits.')
      expect(by('nano').output).toBe('')
      expect(by('nano').files).toEqual([
        { path: `${recording.directory}/note.txt`, content: 'The driver waits.\n', by: 'editor' },
      ])
      const long = by('awk').output
      expect(long.length).toBeGreaterThan(9_900_000)
      expect(long.split('\n').map((line) => Number(line.split(' ')[0]))).toEqual(
        Array.from({ length: 10_000 }, (_, i) => i),
      )
      const { share, different } = await compareWithTmux(found, recording.pieces)
      expect(share, JSON.stringify(different.slice(0, 6)).slice(0, 2000)).toBeLessThanOrEqual(0.01)
    },
  )
})

describe('reading a log with marks', () => {
  it.skipIf(!hasProgram('script') || !hasProgram('bash'))(
    'gives the same in whichever pieces the bytes come',
    { timeout: 60_000 },
    async () => {
      const { pieces } = await recordMarked({ shell: 'bash', keys: plainKeys })
      const whole = Buffer.concat(pieces.map((piece) => Buffer.from(piece)))
      const withoutTimes = (all: FoundCommand[]) => all.map((one) => ({ ...one, started: null, ended: null }))
      const once = withoutTimes(await readAll([whole]))
      for (const size of [1, 7, 100, 4096]) {
        const cut = []
        for (let at = 0; at < whole.length; at += size) cut.push(whole.subarray(at, at + size))
        expect(withoutTimes(await readAll(cut)), `pieces of ${size}`).toEqual(once)
      }
    },
  )
})
