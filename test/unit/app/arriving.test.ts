import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { beforeEach, describe, expect, it } from 'vitest'
import { arrivedOf } from '../../../app/arriving.ts'

const link = 'stillroom:add?address=https%3A%2F%2Fmast.example.org%2F&title=Fans'
let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillroom-words-'))
  writeFileSync(join(folder, 'fans 3.html'), 'Rack')
})
const sentences = async (...words: string[]): Promise<string[]> =>
  (await arrivedOf({ words, folder })).map((one) => (one.kind === 'refused' ? one.sentence : one.kind))

describe('what arrives', () => {
  it('is what the words name, in their order: files by any of their names, and pages', async () => {
    const path = join(folder, 'fans 3.html')
    const words = ['fans 3.html', link, path, pathToFileURL(path).href]
    const file = { name: 'fans 3.html', size: 4, modifiedMs: expect.any(Number) as number }
    const alone = { kind: 'file', file, place: { kind: 'alone', path } }
    expect(await arrivedOf({ words, folder })).toEqual([
      alone,
      { kind: 'handed over', address: 'https://mast.example.org/', title: 'Fans', selection: '' },
      alone,
      alone,
    ])
  })

  it('is of a folder every file in it and below it, but nothing hidden and nothing behind a link', async () => {
    for (const inner of ['a', 'a/b', '.git']) mkdirSync(join(folder, inner))
    for (const inner of ['a/b/c.md', '.git/config', '.env']) writeFileSync(join(folder, inner), 'x')
    symlinkSync('/etc', join(folder, 'etc'))
    symlinkSync('/etc/hostname', join(folder, 'hostname'))
    const arrived = await arrivedOf({ words: [folder], folder: '/' })
    expect(arrived.map((one) => one.kind === 'file' && one.file.name)).toEqual([
      `${basename(folder)}/a/b/c.md`,
      `${basename(folder)}/fans 3.html`,
    ])
    expect(arrived[0]).toMatchObject({ place: { kind: 'inside', folder, name: 'a/b/c.md' } })
  })

  it('is a sentence for every word that names nothing that can be taken', async () => {
    execFileSync('mkfifo', [join(folder, 'pipe')])
    writeFileSync(join(folder, 'large'), '')
    truncateSync(join(folder, 'large'), 600 * 1024 * 1024)
    const said = await sentences(
      'missing.html',
      'pipe',
      'large',
      'https://mast.example.org/',
      'file://192.0.2.7/share/x.html',
      'file:///%',
      'stillroom:remove?all',
      '\0',
    )
    expect(said).toHaveLength(8)
    for (const sentence of said) expect(sentence).toMatch(/^(“|A link)[^]+\.$/)
    expect(said[0]).toContain('is not there any more')
    expect(said[1]).toContain('neither a file nor a folder')
    expect(said[2]).toContain('629.2 MB')
    expect(said[4]).toContain('does not name a file of this machine')
  })

  it('is at most so many things, and one sentence about the rest', async () => {
    const many = await arrivedOf({ words: Array.from({ length: 600 }, () => link), folder })
    expect(many).toHaveLength(501)
    expect(many[500]).toMatchObject({
      kind: 'refused',
      sentence: expect.stringContaining('100 more') as string,
    })
    const inner = join(folder, 'many')
    mkdirSync(inner)
    for (let at = 0; at < 20; at++) writeFileSync(join(inner, `${at}.md`), 'x')
    const some = await arrivedOf({ words: [link, inner], folder }, 10)
    expect(some.filter((one) => one.kind === 'file')).toHaveLength(9)
    expect(some.at(-1)).toMatchObject({
      kind: 'refused',
      sentence: expect.stringContaining('more than 5000') as string,
    })
  })
})
