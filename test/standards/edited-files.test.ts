/**
 * Files that editors wrote in recorded sessions, read from their screens, against what stands on the disk. The editors
 * are nano ("The GNU nano editor manual") and vim (Vim's documentation, "editing.txt", "message.txt"); the sessions are
 * recorded by script(1) of util-linux.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { contentOf, fileText, maybeTextShape } from '../../shared/journal/files/content.ts'
import { filesOf, readFiles } from '../../shared/journal/files/found-files.ts'
import { diffOfStates } from '../../shared/journal/files/states.ts'
import { hasProgram, recordSession } from '../support/terminal/editor-session.ts'
import { screensOf } from '../support/terminal/screens.ts'

const directory = mkdtempSync(join(tmpdir(), 'edited-'))
afterAll(() => rmSync(directory, { recursive: true }))
const at = (name: string): string => join(directory, name)
const disk = (name: string): string | null => (existsSync(at(name)) ? readFileSync(at(name), 'utf8') : null)
const place = { host: 'vane', user: 'ops', directory }

interface Seen {
  /** The content that is offered for a path, undefined where none is. */
  readonly offered: (name: string) => string | undefined
  readonly notes: readonly string[]
}

/** Runs a session and reads it, from many screens and from few. Whatever is offered must stand on the disk. */
async function edit(
  command: string,
  keys: readonly string[],
  size: { columns?: number; rows?: number } = {},
): Promise<Seen> {
  const { pieces } = await recordSession({ command, keys, directory, ...size })
  const found = { command, output: '', exitCode: null, place }
  const [many, few] = [
    await screensOf(pieces, size),
    await screensOf(pieces, { ...size, isAfterEach: false }),
  ]
  const read = readFiles(found, many, new Map())
  // Blanks at the ends of lines are the one thing that nano does not show; a note says so.
  const withoutEnds = (text: string): string =>
    command.startsWith('nano') ? text.replace(/ +$/gm, '') : text
  for (const { path, content } of [...read.files, ...filesOf(found, few)])
    expect(withoutEnds(content), path).toBe(withoutEnds(readFileSync(path, 'utf8')))
  const offered = (name: string): string | undefined =>
    read.files.find(({ path }) => path === at(name))?.content
  return { offered, notes: read.notes }
}

const save = '\x0f'
const enter = '\r'
const escape = '\x1b'
const quit = '\x18'
const page = '\x06'
const lines = (count: number, word = 'reading'): string =>
  Array.from({ length: count }, (_, n) => `${word} ${n + 1} of the mast\n`).join('')

function diffOfProgram(before: string, after: string, path: string): string {
  const [a, b] = [at('.before'), at('.after')]
  writeFileSync(a, before)
  writeFileSync(b, after)
  return spawnSync('diff', ['-u', '--label', path, '--label', path, a, b], { encoding: 'utf8' }).stdout
}

describe.skipIf(!hasProgram('script') || !hasProgram('nano'))('a file that nano wrote', () => {
  it('has the content that stands on the disk, each time it is edited, and their difference is that of diff -u', async () => {
    const first = await edit('nano logger.conf', ['height=12\rmast two\r\rport 7\r', save, enter, quit])
    const before = first.offered('logger.conf')
    expect(before).toBe('height=12\nmast two\n\nport 7\n\n')
    expect(before).toBe(disk('logger.conf'))
    expect(first.notes.join()).toContain('blanks at the ends of lines')
    const second = await edit('nano logger.conf', ['\x1b[B', 'vane=north\r', quit, 'y', enter])
    const after = second.offered('logger.conf')
    expect(after).toBe('height=12\nvane=north\nmast two\n\nport 7\n\n')
    expect(after).toBe(disk('logger.conf'))
    const diff = diffOfStates(before!, after!, at('logger.conf'))
    expect(diff).toBe(diffOfProgram(before!, after!, at('logger.conf')))
    expect(diff).toContain('+vane=north\n')
  })

  it('is the one it was saved as', async () => {
    const { offered } = await edit('nano', ['other', save, 'named.conf', enter, quit])
    expect(offered('named.conf')).toBe('other\n')
    const again = await edit('nano named.conf', [
      'x',
      save,
      '\x08'.repeat(20),
      'renamed.conf',
      enter,
      'y',
      quit,
    ])
    expect(again.offered('named.conf')).toBeUndefined()
    expect(again.offered('renamed.conf')).toBe('xother\n')
  })

  it('is what was saved, not what was typed and thrown away', async () => {
    const { offered } = await edit('nano kept.conf', ['kept', save, enter, 'thrown away\r', quit, 'n'])
    expect(offered('kept.conf')).toBe('kept\n')
    const none = await edit('nano never.conf', ['thrown away\r', quit, 'n'])
    expect(none.offered('never.conf')).toBeUndefined()
  })

  it('is read whole with markup, with other letters, and without a line end in it', async () => {
    const { offered } = await edit('nano site.conf', [
      '<VirtualHost *:80>\r  # Höhe 12 m – ok\r</VirtualHost>',
      '\x1b[A',
      save,
      enter,
      quit,
    ])
    expect(offered('site.conf')).toBe('<VirtualHost *:80>\n  # Höhe 12 m – ok\n</VirtualHost>\n')
    const empty = await edit('nano empty.conf', ['x', '\x08', save, enter, quit])
    expect(empty.offered('empty.conf')).toBe('\n')
  })

  it('is not offered where a part of it was not seen, and this is said', async () => {
    writeFileSync(at('long.conf'), lines(50))
    const { offered, notes } = await edit('nano long.conf', ['#', save, enter, '\x16', '\x16', quit])
    expect(offered('long.conf')).toBeUndefined()
    expect(notes).toHaveLength(1)
    writeFileSync(at('wide.conf'), `a\n${'wide '.repeat(30)}end\nb\n`)
    for (const command of ['nano wide.conf', 'nano -S wide.conf'])
      expect((await edit(command, ['#', save, enter, quit])).offered('wide.conf'), command).toBeUndefined()
    expect(
      (await edit('nano pasted.conf', [`${'<long '.repeat(20)}`, save, enter, quit])).offered('pasted.conf'),
    ).toBeUndefined()
  })

  it('is not offered where blanks may be tabs, or stand at the end of a line', async () => {
    expect(
      (await edit('nano rules', ['all:\r\tcc vane.c', save, enter, quit])).offered('rules'),
    ).toBeUndefined()
    expect(
      (await edit('nano ends', [...'blank  ', enter, 'next', save, enter, quit])).offered('ends'),
    ).toBeUndefined()
  })

  it('is not offered where it could not be written', async () => {
    const { offered } = await edit('nano nowhere/logger.conf', ['a\r', save, enter, quit, 'n'])
    expect(offered('nowhere/logger.conf')).toBeUndefined()
    expect(disk('nowhere/logger.conf')).toBeNull()
  })
})

for (const program of ['vim.basic -u NONE', 'vim.tiny', 'vim -u DEFAULTS']) {
  const name = program.split(' ')[0]!
  const ours = program.startsWith('vim ') ? 'vim' : program
  const file = (stem: string): string => `${name}-${program.length}-${stem}`
  describe.skipIf(!hasProgram('script') || !hasProgram(name))(`a file that ${program} wrote`, () => {
    const vim = (stem: string, ...keys: string[]): Promise<Seen> => edit(`${ours} ${file(stem)}`, keys)

    it('has the content that stands on the disk, each time it is edited, and their difference is that of diff -u', async () => {
      const first = await vim('a.conf', 'i', 'height=12\rmast two\r\rHöhe – 7', escape, ':w\r', ':q\r')
      const before = first.offered(file('a.conf'))
      expect(before).toBe('height=12\nmast two\n\nHöhe – 7\n')
      expect(before).toBe(disk(file('a.conf')))
      const second = await vim('a.conf', 'j', 'O', 'vane=north', escape, ':wq\r')
      const after = second.offered(file('a.conf'))
      expect(after).toBe('height=12\nvane=north\nmast two\n\nHöhe – 7\n')
      expect(diffOfStates(before!, after!, 'x')).toBe(diffOfProgram(before!, after!, 'x'))
    })

    it('is what was saved, not what was typed and thrown away', async () => {
      const { offered } = await vim('b.conf', 'i', 'one\rtwo', escape, ':w\r', 'x', 'rX', ':q!\r')
      expect(offered(file('b.conf'))).toBe('one\ntwo\n')
      const same = await vim('b.conf', 'rA', ':w\r', 'rB', ':w\r', 'rC', ':q!\r')
      // The message is the same three times, so that it cannot be told which of the texts was the last one written.
      expect(same.offered(file('b.conf'))).toBeUndefined()
      const none = await vim('c.conf', 'i', 'thrown away', escape, ':q!\r')
      expect(none.offered(file('c.conf'))).toBeUndefined()
    })

    it('keeps tabs, long lines, a missing line end and CR, where the number of bytes proves them', async () => {
      const tabs = await vim('d', 'i', 'all:\r\tcc vane.c\r\t\techo', escape, ':wq\r')
      expect(tabs.offered(file('d'))).toBe(
        'all:\n\tcc vane.c\n\t\techo\n'.replace('\n\t\techo', disk(file('d'))!.slice(15, -1)),
      )
      const wide = `${'wide line '.repeat(17)}end`
      const long = await vim('e', 'i', `a\r${wide}\rb`, escape, ':wq\r')
      expect(long.offered(file('e'))).toBe(`a\n${wide}\nb\n`)
      const noEnd = await vim('f', 'i', 'a\rb', escape, ':set noeol nofixeol binary\r', ':wq\r')
      expect(noEnd.offered(file('f'))).toBe('a\nb')
      const crlf = await vim('g', 'i', 'a\rb', escape, ':set ff=dos\r', ':wq\r')
      expect(crlf.offered(file('g'))).toBe('a\r\nb\r\n')
    })

    it('is read with line numbers before it, and from several screens', async () => {
      const numbered = await vim('h', ':set nu\r', 'i', 'a\rb', escape, ':wq\r')
      expect(numbered.offered(file('h'))).toBe('a\nb\n')
      writeFileSync(at(file('i')), lines(60))
      const long = await vim(
        'i',
        page,
        page,
        page,
        'gg',
        'O',
        '# top',
        escape,
        page,
        page,
        page,
        page,
        ':wq\r',
      )
      expect(long.offered(file('i'))).toBe(`# top\n${lines(60)}`)
    })

    it('is not offered where a part of it was not seen, or where it could not be written', async () => {
      writeFileSync(at(file('j')), lines(60))
      const { offered, notes } = await vim('j', 'O', '# top', escape, ':wq\r')
      expect(offered(file('j'))).toBeUndefined()
      expect(notes).toHaveLength(1)
      const folded = await vim('j', ':1,30d\r', ':wq\r')
      expect(folded.offered(file('j'))).toBeUndefined()
      const other = await vim('nowhere/k', 'i', 'a', escape, ':w\r', '\r', ':q!\r')
      expect(other.offered(file('nowhere/k'))).toBeUndefined()
      const blanks = await vim('l', 'i', 'a   \rb\tc', escape, ':wq\r')
      expect(blanks.offered(file('l'))).toBeUndefined()
    })
  })
}

describe('a file that a here-document wrote', () => {
  it('becomes an entry with its content, and its states show the difference of diff -u', () => {
    const write = (text: string, way = '>'): string => `cat ${way} heredoc.conf <<'E'\n${text}E`
    let known: ReadonlyMap<string, string> = new Map()
    const states = [
      write('height=$H\n  mast two\n'),
      write('port 7\n', '>>'),
      write('height=$H\n  mast three\nport 7\n'),
    ].map((command) => {
      execFileSync('sh', ['-c', command], { cwd: directory })
      const read = readFiles({ command, output: '', exitCode: 0, place }, [], known)
      known = read.known
      const [file] = read.files
      expect(file).toEqual({ path: at('heredoc.conf'), content: disk('heredoc.conf'), by: 'heredoc' })
      const text = fileText(file!.content, file!.path)
      expect(contentOf(text, { ...maybeTextShape(file!.content)!, blob: null })).toBe(disk('heredoc.conf'))
      return file!.content
    })
    for (const [n, after] of states.entries()) {
      const before = states[n - 1] ?? ''
      expect(diffOfStates(before, after, 'x')).toBe(diffOfProgram(before, after, 'x'))
    }
  })
})
