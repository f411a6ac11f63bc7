import { describe, expect, it } from 'vitest'
import { filesOf, readFiles, type KnownFiles } from '../../../../../shared/journal/files/found-files.ts'
import type { ScreenShot } from '../../../../../shared/journal/terminal/found.ts'

const place = { host: 'vane', user: 'ops', directory: '/srv/rack' }
const ran = (command: string, over: { output?: string; exitCode?: number | null } = {}) => ({
  command,
  output: '',
  exitCode: 0,
  place,
  ...over,
})
const write = "cat > fans <<'E'\nspeed=3\nE"
const offered = (command: string, over = {}): (readonly [string, string])[] =>
  filesOf(ran(command, over), []).map(({ path, content }) => [path, content] as const)

/** A screen of vim with a text of some rows and its message. */
function vimScreen(rows: readonly string[], message: string): ScreenShot {
  const lines = [...rows, ...Array.from({ length: 9 - rows.length }, () => '~'), message]
  return { columns: 40, rows: 10, lines, wrapped: lines.map(() => false), cursor: { column: 0, row: 0 } }
}
const edited = (command: string, message: string, rows = ['speed=3'], over = {}): string[] =>
  filesOf(ran(command, over), [vimScreen(rows, message)]).map(({ path }) => path)

describe('files that a command wrote', () => {
  it('are offered only where the command succeeded', () => {
    expect(offered(write)).toEqual([['/srv/rack/fans', 'speed=3\n']])
    expect(offered(write, { exitCode: null })).toEqual([['/srv/rack/fans', 'speed=3\n']])
    expect(offered(write, { exitCode: 1 })).toEqual([])
    expect(offered(write, { exitCode: null, output: 'bash: fans: Permission denied' })).toEqual([])
    expect(offered(`${write}\nls`, { output: 'bash: fans: Permission denied\nmast' })).toEqual([])
  })

  it('are offered where tee repeats words that sound like a failure', () => {
    expect(offered("tee fans <<'E'\non error: failed\nE", { output: 'on error: failed' })).toEqual([
      ['/srv/rack/fans', 'on error: failed\n'],
    ])
  })

  it('are left out where blanks on the screen may be tabs, and this is said', () => {
    const tabs = ran("cat > fans <<'E'\nall:\n      cc vane.c\nE")
    expect(readFiles(tabs, [], new Map())).toMatchObject({
      files: [],
      notes: [expect.stringContaining('tabs') as unknown],
    })
    expect(offered("cat > fans <<'E'\na:\n  b:\n    c:\n      d: 1\n        e: 2\nE")).toHaveLength(1)
    expect(offered("cat > fans <<'E'\nall:\n\tcc vane.c\nE")).toEqual([
      ['/srv/rack/fans', 'all:\n\tcc vane.c\n'],
    ])
    expect(offered("cat > fans <<-'E'\n  a\nE")).toEqual([])
  })

  it('grow by what is added, as long as nothing else touched them', () => {
    const add = "cat >> fans <<'E'\nport=7\nE"
    const after = (...commands: string[]): unknown => {
      let known: KnownFiles = new Map()
      return commands.map((command) => {
        const read = readFiles(ran(command), [], known)
        known = read.known
        return read.files[0]?.content ?? null
      })
    }
    expect(after(add)).toEqual([null])
    expect(after(write, add, add)).toEqual(['speed=3\n', 'speed=3\nport=7\n', 'speed=3\nport=7\nport=7\n'])
    expect(after(write, 'cat fans', 'ls', add)).toEqual(['speed=3\n', null, null, 'speed=3\nport=7\n'])
    for (const other of [
      'sed -i s/3/4/ fans',
      'rm fans',
      'nano fans',
      'echo "$X" > "$Y"',
      'for x in 1; do echo > fans; done',
    ])
      expect(after(write, other, add), other).toEqual(['speed=3\n', null, null])
  })
})

describe('files that an editor wrote', () => {
  const proof = '1L, 8B written'
  it('are named by what was typed, wherever the editor shows it otherwise', () => {
    expect(edited('vim fans', `"fans" ${proof}`)).toEqual(['/srv/rack/fans'])
    expect(edited('sudo vim /etc/fans', `"/etc/fans" ${proof}`)).toEqual(['/etc/fans'])
    expect(edited('sudo vi ~/fans', `"/home/ops/fans" ${proof}`)).toEqual(['~/fans'])
    expect(edited('vim a fans', `"fans" ${proof}`)).toEqual(['/srv/rack/fans'])
    expect(edited('vim fans', `"/tmp/other" ${proof}`)).toEqual(['/tmp/other'])
    expect(edited('cd /etc && vim fans', `"fans" ${proof}`)).toEqual(['/etc/fans'])
    expect(edited('vim /etc/observatory/fans', `"<atory/fans" ${proof}`)).toEqual(['/etc/observatory/fans'])
    expect(edited('sudoedit /etc/fans.conf', `"/var/tmp/fansX8bLq2Zk.conf" ${proof}`)).toEqual([
      '/etc/fans.conf',
    ])
    const refused = { output: 'sudoedit: /etc/fans.conf unchanged' }
    expect(
      edited('sudoedit /etc/fans.conf', `"/var/tmp/fansX8bLq2Zk.conf" ${proof}`, ['speed=3'], refused),
    ).toEqual([])
  })

  it('need a message that vouches for each byte', () => {
    for (const message of [
      '"fans" 1L, 9B written',
      '"fans" 2L, 8B written',
      '"fans" 1L, 8B appended',
      '"fans" [converted] 1L, 8B written',
      '"fans" 1L, 8B',
      '"fans" E212: Can\'t open file for writing',
    ])
      expect(edited('vim fans', message), message).toEqual([])
    expect(edited('vim fans', '"fans" [noeol] 1L, 7B written')).toEqual(['/srv/rack/fans'])
    expect(edited('vim fans', '"fans" 1L, 8C written')).toEqual(['/srv/rack/fans'])
  })

  it('are not looked for behind other programs', () => {
    for (const command of ['less fans', 'ssh mast vim fans', 'git commit', 'if true; then vim fans; fi'])
      expect(edited(command, `"fans" ${proof}`), command).toEqual([])
  })
})
