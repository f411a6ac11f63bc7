/** From a terminal's log to the journal, in the real shell: followed while it is written, with what the shell itself says as the truth. */
import { spawn } from 'node:child_process'
import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Locator } from '@playwright/test'
import { hasProgram } from '../support/terminal/editor-session.ts'
import { readSaid, recordMarked, startFileOf } from '../support/terminal/marked.ts'
import type { Launched } from './support/launch.ts'
import { followLog, openLogs, sayWidth } from './support/logs.ts'
import { beginProject } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const isHere = hasProgram('script') && hasProgram('bash')

/** A shell in a terminal that is logged as the help page says, driven from here. */
class LoggedShell {
  readonly log: string
  readonly timing: string
  readonly directory: string
  /** What the shell itself wrote of each command. */
  readonly said: string
  private readonly run

  constructor(host: string) {
    this.directory = mkdtempSync(join(tmpdir(), 'logged-'))
    this.log = join(this.directory, `${host}.log`)
    this.timing = join(this.directory, `${host}.timing`)
    const rc = join(this.directory, 'rc')
    this.said = join(this.directory, 'said')
    writeFileSync(this.said, '')
    writeFileSync(rc, `HOSTNAME=${host}\n${startFileOf('bash')}`)
    const shell = `stty rows 24 cols 100; exec bash --noprofile --rcfile ${rc} -i`
    this.run = spawn('script', ['-q', '-f', '-T', this.timing, '-c', shell, this.log], {
      cwd: this.directory,
      env: {
        ...process.env,
        TERM: 'xterm-256color',
        LC_ALL: 'C.UTF-8',
        HOME: this.directory,
        SHELL: '/bin/bash',
        T_LOG: this.said,
      },
      stdio: ['pipe', 'ignore', 'ignore'],
    })
  }

  async ready(): Promise<void> {
    await expect
      .poll(() => existsSync(this.log) && readFileSync(this.log, 'latin1').includes('133;B'))
      .toBe(true)
  }

  type(line: string): void {
    this.run.stdin.write(`${line}\n`)
  }

  end(): void {
    this.run.kill('SIGKILL')
  }
}

// script(1) writes the width only where it is itself in a terminal, which it is not here.
async function follow(program: Launched, panel: Locator, path: string): Promise<Locator> {
  const session = await followLog(program, panel, path)
  await sayWidth(session, 100)
  return session
}

/** What an offer says of its command, in order: command, outcome, user and host, directory. */
async function told(session: Locator): Promise<string[][]> {
  return session
    .getByRole('listitem')
    .evaluateAll((rows) =>
      rows.map((row) => [
        row.querySelector('code')!.textContent,
        ...Array.from(row.querySelectorAll('.st-offer-facts > span'), (fact) =>
          fact.textContent.trim(),
        ).filter((words) => !/^\d{4}-|lines?$|^wrote /.test(words)),
      ]),
    )
}

/** The same of what the shell wrote. */
function toldBy(shell: LoggedShell): string[][] {
  return readSaid(shell.said).map(({ command, exitCode, user, host, directory }) => {
    const [first = '', ...more] = command.split('\n')
    const outcome = exitCode === 0 ? 'succeeded' : 'failed'
    return [more.length > 0 ? `${first} …` : first, outcome, `${user}@${host}`, directory]
  })
}

test.describe('following the terminal', () => {
  test.skip(!isHere, 'script or bash is not here')
  test.setTimeout(120_000)

  test('offers the commands of two logs at once, with place and outcome as the shells wrote them, and takes them', async ({
    program,
  }) => {
    const { page } = program
    const [gate, weather] = [new LoggedShell('gate'), new LoggedShell('weather')]
    try {
      await Promise.all([gate.ready(), weather.ready()])
      await beginProject(program.page, 'Move the mast UPS')
      const panel = await openLogs(page)
      const first = await follow(program, panel, gate.log)
      const second = await follow(program, panel, weather.log)
      for (const line of [
        'cd /etc',
        'ls no-such-file',
        'false',
        "printf '\\033[31mred\\033[0m\\n'",
        'cd "/usr/share"',
        'pwd',
      ])
        gate.type(line)
      weather.type('echo 1017 hPa')
      weather.type("cat > note.txt <<'E'\nThe gauge is dry.\nE")
      await expect(first.getByRole('listitem')).toHaveCount(6)
      await expect(second.getByRole('listitem')).toHaveCount(2)
      expect(await told(first)).toEqual(toldBy(gate))
      expect(await told(second)).toEqual(toldBy(weather))
      await first.getByRole('button', { name: 'Take all' }).click()
      await second.getByRole('button', { name: /echo 1017 hPa: choose/ }).click()
      await second.getByRole('button', { name: 'Take 1 chosen' }).click()
      const entries = page.locator('.st-entry')
      await expect(entries.filter({ hasText: '1017 hPa' })).toHaveCount(2)
      await second.getByRole('button', { name: 'Fold all away' }).click()
      await expect(second.getByRole('listitem')).toHaveCount(0)
      await second.getByRole('button', { name: 'Show the folded' }).click()
      await second.getByRole('button', { name: 'Take each as it comes' }).click()
      weather.type('echo 1016 hPa')
      await expect(entries.filter({ hasText: '1016 hPa' })).toHaveCount(2)
      const failed = page.getByRole('article', { name: /^Action/ }).filter({ hasText: 'no-such-file' })
      await expect(failed.getByRole('button', { name: /^failed, exit 2/ })).toBeVisible()
      const note = page.getByRole('article', { name: /^File/ })
      await expect(note.getByText('The gauge is dry.')).toBeVisible()
      await expect(note.getByRole('button', { name: /note\.txt: which file/ })).toBeVisible()
      await program.restart()
      await expect(program.page.locator('.st-entry').filter({ hasText: '1016 hPa' })).toHaveCount(2)
      expect(program.complaints).toEqual([])
    } finally {
      gate.end()
      weather.end()
    }
  })

  test('says it when a log is deleted, cut short or replaced, and goes on', async ({ program }) => {
    const { page } = program
    const folder = mkdtempSync(join(tmpdir(), 'rotated-'))
    const path = join(folder, 'gate.log')
    const prompt = 'root@gate:/etc# '
    writeFileSync(path, `${prompt}echo one\r\none\r\n${prompt}`)
    await beginProject(program.page, 'Move the mast UPS')
    const panel = await openLogs(page)
    const session = await follow(program, panel, path)
    await expect(session.getByRole('listitem').filter({ hasText: 'echo one' })).toHaveCount(1)
    truncateSync(path)
    await expect(session.locator('.st-log-note')).toHaveCount(1)
    appendFileSync(path, `${prompt}echo two\r\ntwo\r\n${prompt}`)
    await expect(session.getByRole('listitem').filter({ hasText: 'echo two' })).toHaveCount(1)
    renameSync(path, `${path}.1`)
    writeFileSync(path, `${prompt}echo three\r\nthree\r\n${prompt}`)
    await expect(session.getByRole('listitem').filter({ hasText: 'echo three' })).toHaveCount(1)
    // The moment without a file of that name may have been seen, so it may be said for the second time below.
    const lastNote = session.locator(':scope > .st-log-note').last()
    await expect(lastNote).toContainText('Another file now has the name')
    unlinkSync(path)
    await expect(lastNote).toContainText('was deleted or moved away')
    await session.getByRole('button', { name: 'Take all' }).click()
    await expect(page.locator('.st-entry').filter({ hasText: 'three' })).toHaveCount(2)
    expect(program.complaints).toEqual([])
  })
})

test.describe('finished logs', () => {
  test.skip(!isHere, 'script or bash is not here')
  test.setTimeout(120_000)

  test('are brought in from script with either timing file, from an asciicast, and from bytes alone', async ({
    program,
  }) => {
    const { page } = program
    const keys = ['echo one\n', 'ls no-such-file\n', 'exit\n']
    const { pieces } = await recordMarked({ shell: 'bash', keys, columns: 80, rows: 24 })
    const folder = mkdtempSync(join(tmpdir(), 'finished-'))
    const at = (name: string, ...parts: (string | Uint8Array)[]): string => {
      const path = join(folder, name)
      writeFileSync(path, Buffer.concat(parts.map((part) => Buffer.from(part))))
      return path
    }
    const body = Buffer.concat(pieces.map((piece) => Buffer.from(piece)))
    const head =
      'Script started on 2026-11-14 21:00:00+01:00 [TERM="xterm-256color" TTY="/dev/pts/1" COLUMNS="80" LINES="24"]\n'
    const foot = '\nScript done on 2026-11-14 21:00:30+01:00 [COMMAND_EXIT_CODE="0"]\n'
    const classic = pieces.map(({ length }) => `0.500000 ${length}\n`).join('')
    const advanced = `H 0.000000 START_TIME 2026-11-14 21:00:00+01:00\nH 0.000000 COLUMNS 80\nH 0.000000 LINES 24\n${pieces
      .map(({ length }) => `O 0.500000 ${length}\n`)
      .join('')}`
    const decoder = new TextDecoder()
    const cast = [
      JSON.stringify({ version: 2, width: 80, height: 24, timestamp: Date.UTC(2026, 10, 14, 20) / 1000 }),
      ...pieces.map((piece, i) => JSON.stringify([i * 0.5, 'o', decoder.decode(piece, { stream: true })])),
      JSON.stringify([0.4, 'i', 'typed-in-secret']),
    ].join('\n')
    await beginProject(program.page, 'Move the mast UPS')
    const panel = await openLogs(page)
    const bringIn = async (...paths: string[]): Promise<Locator> => {
      await program.shell?.evaluate(({ dialog }, files) => {
        dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: files })
      }, paths)
      await panel.getByRole('button', { name: 'Bring in a finished log…' }).click()
      return panel.getByRole('region', { name: paths[0]!.slice(paths[0]!.lastIndexOf('/') + 1) })
    }
    const timed = [
      await bringIn(at('classic.log', head, body, foot), at('classic.timing', classic)),
      await bringIn(at('advanced.log', head, body, foot), at('advanced.timing', advanced)),
      await bringIn(at('recorded.cast', cast)),
    ]
    for (const session of timed) {
      await expect(session.getByRole('listitem')).toHaveCount(3)
      await expect(session.getByRole('listitem').first()).toContainText('2026-11-14')
      await expect(session.getByRole('listitem').nth(1)).toContainText('failed')
    }
    const alone = await bringIn(at('pipe.log', body))
    await alone.getByRole('button', { name: 'Read it with this width' }).click()
    await expect(alone.getByRole('listitem')).toHaveCount(3)
    await timed[1]!.getByRole('button', { name: 'Take all' }).click()
    const entries = page.locator('.st-entry')
    await expect(entries.filter({ hasText: 'echo one' })).toHaveCount(1)
    await expect(page.getByText('Saturday, 14 November 2026')).toBeVisible()
    await expect(page.locator('body')).not.toContainText('typed-in-secret')
    expect(program.complaints).toEqual([])
  })
})
