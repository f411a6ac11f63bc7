import { createHash } from 'node:crypto'
import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { archiveName, ArchiveNames } from '../../../../shared/export/archive-names.ts'
import { MANIFEST, ownFilesOf, toManifest, type FilePart } from '../../../../shared/export/procedure-files.ts'
import { blobText, diffText, fileText } from '../../../../shared/journal/files/content.ts'
import { noFile } from '../../../../shared/journal/files/typed.ts'
import { maybeTree } from '../../../../shared/markdown/parse.ts'

const hostile = [
  '../../etc/passwd',
  '/../../../etc/shadow',
  '..\\..\\windows\\system32\\drivers\\etc\\hosts',
  'C:\\Windows\\win.ini',
  '\\\\server.example.org\\share\\x',
  '/etc/./nginx/../../../../root/.ssh/authorized_keys',
  '~/.bashrc',
  '~root/.profile',
  '/dev/con/aux.txt',
  '/etc/NUL',
  '/etc/trailing. . .',
  '/etc/two\nlines',
  '/etc/nul\0byte',
  '/etc/\u202etxt.exe',
  '-rf',
  '/',
  '..',
  '',
  '.',
  '//',
  '/etc/hosts/',
  'MANIFEST.md',
  '/manifest.MD',
  '__proto__',
  'constructor',
  `/${'a/'.repeat(200)}b`,
  `/etc/${'ü'.repeat(400)}.conf`,
  '/etc/\ud800half',
  '/etc/⁅host⁆.conf',
]
const paths = fc.oneof(
  fc.constantFrom(...hostile),
  fc
    .array(fc.constantFrom('..', '.', '', 'etc', 'Etc', 'hosts', 'con', 'a b', '\\', ':', '\0', '…'), {
      maxLength: 8,
    })
    .map((parts) => parts.join('/')),
  fc.string({ unit: 'binary', maxLength: 30 }),
)

describe('the name of a file in an archive', () => {
  it('follows its path without the root', () => {
    expect(archiveName('/etc/nginx/nginx.conf')).toBe('etc/nginx/nginx.conf')
    expect(archiveName('/etc/./nginx/../hosts')).toBe('etc/hosts')
    expect(archiveName('/home/orla/.bashrc')).toBe('home/orla/.bashrc')
  })
  it('leads out of no folder, whatever the path is, and can be a name anywhere', () => {
    fc.assert(
      fc.property(paths, (path) => {
        const name = new ArchiveNames([]).take(path)
        expect(name).not.toMatch(/^[/\\~]|\\|^[A-Za-z]:/)
        for (const part of name.split('/')) {
          expect(['', '.', '..']).not.toContain(part)
          // eslint-disable-next-line no-control-regex -- control characters are what is looked for
          expect(part).not.toMatch(/[<>:"|?*\u0000-\u001f\u202a-\u202e]|[. ]$/)
          expect(part).not.toMatch(/^(?:con|nul|aux|prn)(?:\.|$)/i)
          expect(Buffer.byteLength(part)).toBeLessThanOrEqual(200)
        }
        expect(name.split('/').length).toBeLessThanOrEqual(40)
      }),
      { numRuns: 500 },
    )
  })
  it('is another one for each file, also where capitals make no difference, and no folder of another', () => {
    fc.assert(
      fc.property(fc.array(paths, { maxLength: 20 }), (given) => {
        const names = new ArchiveNames([MANIFEST])
        const taken = [MANIFEST, ...given.map((path) => names.take(path))].map((name) =>
          name.normalize('NFKC').toLowerCase(),
        )
        expect(new Set(taken).size).toBe(taken.length)
        for (const one of taken) expect(taken.some((other) => other.startsWith(`${one}/`))).toBe(false)
      }),
      { numRuns: 300 },
    )
  })
})

const sha256 = (bytes: Uint8Array): Promise<string> =>
  Promise.resolve(createHash('sha256').update(bytes).digest('hex'))

function part(path: string, content: string, more: Partial<FilePart> = {}): FilePart {
  return { where: 'step 1', file: { ...noFile, path }, text: fileText(content, path), bytes: null, ...more }
}

describe('the files of a procedure', () => {
  it('are unpacked byte for byte under their own folder, however hostile their paths', async () => {
    const { files } = await ownFilesOf(
      hostile.map((path, i) => part(path, `content ${i}\n`)),
      new Map(),
      sha256,
    )
    expect(files).toHaveLength(hostile.length)
    const tree = Object.fromEntries(files.map(({ name, bytes }) => [name, bytes]))
    const zip = zipSync(tree)
    expect(Object.keys(unzipSync(zip)).sort()).toEqual(files.map(({ name }) => name).sort())
    const folder = mkdtempSync(join(tmpdir(), 'stillroom-files-'))
    const inner = join(folder, 'inner')
    writeFileSync(join(folder, 'files.zip'), zip)
    execFileSync('python3', ['-m', 'zipfile', '-e', join(folder, 'files.zip'), inner])
    for (const [i, { name }] of files.entries())
      expect(readFileSync(join(inner, name), 'utf8')).toBe(`content ${i}\n`)
    expect(readdirSync(folder).sort()).toEqual(['files.zip', 'inner'])
    expect(existsSync(join(dirname(folder), 'etc'))).toBe(false)
  })
  it('have their values filled in, and what still waits for one is said', async () => {
    const parts = [part('/etc/⁅host⁆.conf', 'name ⁅host⁆\nkey ⁅key⁆\nsign ⁅⁅x\n')]
    const own = await ownFilesOf(parts, new Map([['host', 'logger']]), sha256)
    const [file] = own.files
    expect(file!.name).toBe('etc/logger.conf')
    expect(new TextDecoder().decode(file!.bytes)).toBe('name logger\nkey ⁅key⁆\nsign ⁅x\n')
    expect(toManifest('A title', own)).toContain('etc/logger.conf still waits for key.')
  })
  it('keep line ends, differences get an ending, and bytes that are no text come from where they are kept', async () => {
    const windows = 'one\r\ntwo'
    const bytes = new Uint8Array([0, 255, 7])
    const own = await ownFilesOf(
      [
        part('/srv/a.txt', windows, {
          file: { ...noFile, path: '/srv/a.txt', endsWithNewline: false, lineEnds: 'crlf' },
        }),
        part('/etc/hosts', '', {
          file: { ...noFile, path: '/etc/hosts', form: 'diff' },
          text: diffText('--- a\n+++ b\n@@ -1 +1 @@\n-x\n+y\n'),
        }),
        part('/etc/hosts', 'again\n'),
        part('/srv/logo.bin', '', {
          file: { ...noFile, path: '/srv/logo.bin', blob: 'a' },
          text: blobText,
          bytes,
        }),
        part('/srv/gone.bin', '', {
          where: 'step 9',
          file: { ...noFile, path: '/srv/gone.bin', blob: 'b' },
          text: blobText,
        }),
        part('/srv/empty', '', { text: 'No fence.' }),
      ],
      new Map(),
      sha256,
    )
    expect(own.files.map(({ name }) => name)).toEqual([
      'srv/a.txt',
      'etc/hosts.diff',
      'etc/hosts',
      'srv/logo.bin',
    ])
    expect(new TextDecoder().decode(own.files[0]!.bytes)).toBe(windows)
    expect(own.files[3]!.bytes).toEqual(bytes)
    const manifest = toManifest('A | title', own)
    expect(manifest).toContain('/srv/gone.bin of step 9 was left out: its bytes are not kept any more.')
    expect(manifest).toContain('/srv/empty of step 1 was left out: it holds no content.')
    expect(manifest).toContain('ends in .diff')
    for (const { sha256: sum } of own.files) expect(manifest).toContain(sum)
  })
  it('stand in a manifest whose table holds, whatever the paths hold', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(paths, { minLength: 1, maxLength: 6 }), async (given) => {
        const own = await ownFilesOf(
          given.map((path) =>
            part(path, 'x\n', { file: { ...noFile, path, owner: 'root|`a`', mode: '0644' } }),
          ),
          new Map(),
          sha256,
        )
        const table = maybeTree(toManifest('Title', own))!.children.find(({ type }) => type === 'table')
        const rows = table?.type === 'table' ? table.children : []
        expect(rows).toHaveLength(given.length + 1)
        for (const row of rows) expect(row.children).toHaveLength(6)
      }),
      { numRuns: 150 },
    )
  })
})
