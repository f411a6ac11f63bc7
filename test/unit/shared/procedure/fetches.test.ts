import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Fetch } from '../../../../shared/lab/model.ts'
import type { WantedFetch } from '../../../../shared/procedure/fetches/fetchList.ts'
import { readSum, sumLine } from '../../../../shared/procedure/fetches/sum.ts'
import {
  countOfFetched,
  factsOfFetch,
  fileNameOf,
  groupsOf,
  toFetchMarkdown,
  toFetchText,
  toListed,
  toSumsFile,
} from '../../../../shared/procedure/fetches/written.ts'
import { maybeTree } from '../../../../shared/markdown/parse.ts'

const digits = fc.stringMatching(/^[0-9a-f]{64}$/)
/** Names that a file can have on Linux. */
const fileNames = fc
  .string({
    unit: fc.constantFrom('a', 'B', ' ', '.', '-', '*', '\\', '\n', '\r', 'é', '(', ')', '='),
    minLength: 1,
    maxLength: 12,
  })
  .filter((name) => !/^\.{1,2}$/.test(name))

describe('a SHA-256 as it is typed', () => {
  it('is 64 hexadecimal digits in either case, with blanks around them, and nothing is none', () => {
    fc.assert(
      fc.property(digits, fc.constantFrom('', ' ', '\n', '\t'), (sum, blank) => {
        const read = { ok: true, sha256: sum, name: null }
        expect(readSum(`${blank}${sum}${blank}`)).toEqual(read)
        expect(readSum(sum.toUpperCase())).toEqual(read)
        expect(readSum(`sha256:${sum}`)).toEqual(read)
      }),
    )
    expect(readSum('  ')).toEqual({ ok: true, sha256: null, name: null })
  })
  it('is read from a line as sha256sum writes it, whatever the file is called', () => {
    fc.assert(
      fc.property(digits, fileNames, (sum, name) => {
        fc.pre(name.trim() === name && name !== '' && !name.startsWith('*'))
        expect(readSum(sumLine(sum, name))).toEqual({ ok: true, sha256: sum, name })
      }),
    )
  })
  it('is read from a line with the name of the algorithm, and from one of the binary form', () => {
    const sum = 'a'.repeat(64)
    expect(readSum(`SHA256 (a file (1).iso) = ${sum}`)).toEqual({
      ok: true,
      sha256: sum,
      name: 'a file (1).iso',
    })
    expect(readSum(`${sum} *image.iso`)).toEqual({ ok: true, sha256: sum, name: 'image.iso' })
  })
  it.each([
    ['a'.repeat(63), /63 digits. A SHA-256 has 64/],
    ['a', /1 digit\. A SHA-256 has 64/],
    ['a'.repeat(40), /40 digits are a SHA-1/],
    [`${'b'.repeat(32)}  image.iso`, /32 digits are an MD5/],
    ['a'.repeat(128), /a SHA-512/],
    [`${'a'.repeat(63)}g`, /“g” is no hexadecimal digit/],
    [`${'a'.repeat(63)}😀`, /“😀” is no hexadecimal digit/],
    [`${'a'.repeat(31)} ${'a'.repeat(32)}`, /A blank is no hexadecimal digit/],
    [`${'a'.repeat(64)}  one\n${'a'.repeat(64)}  two`, /several lines/],
  ])('is refused with what is wrong: %s', (typed, sentence) => {
    const read = readSum(typed)
    expect(read.ok ? null : read.sentence).toMatch(sentence)
  })
})

function item(
  kind: WantedFetch['kind'],
  name: string | null,
  record: Partial<Fetch> | null = null,
): WantedFetch {
  return {
    ...{ item: `${kind} ${name}`, kind, name, versions: [], tools: ['curl'], hasSum: true, wanted: [] },
    record: record && ({ fetched: null, sha256: null, ...record } as Fetch),
  }
}

describe('the name of a fetched file', () => {
  it.each([
    ['https://example.org/pub/image%201.iso?mirror=1#top', 'image 1.iso'],
    ['https://example.org/pub/', null],
    ['https://example.org', null],
    ['example.org/tools/logger.tar.gz', 'logger.tar.gz'],
    ['store.home.arpa:/srv/images/pi.img', 'pi.img'],
    ['https://example.org/a%2Fb', null],
    ['https://example.org/%2e%2e', null],
    ['https://example.org/100%', null],
    ['https://example.org/⁅version⁆.tar.gz', null],
    ['https://example.org/$name.tar.gz', null],
  ])('of %s is %s', (name, expected) => {
    expect(fileNameOf({ kind: 'download', name })).toBe(expected)
  })
  it('is not known of packages, images and what no command names', () => {
    expect(fileNameOf({ kind: 'package', name: 'nginx' })).toBeNull()
    expect(fileNameOf({ kind: 'image', name: 'registry.example.org/a/b' })).toBeNull()
    expect(fileNameOf({ kind: 'download', name: null })).toBeNull()
  })
})

describe('the list', () => {
  const sha256 = 'c'.repeat(64)
  const items = [
    item('download', 'https://example.org/a.iso', {
      fetched: '2026-05-01T10:00:00.000+00:00' as never,
      sha256,
    }),
    item('package', 'smartmontools'),
    { ...item('package', 'nginx'), versions: ['1.24'], tools: ['apt', 'apt-get'] },
    item('index', null),
  ]
  const listed = toListed(items, () => 'Step 3')
  it('stands by kind, packages first, and says how much of it is fetched', () => {
    expect(groupsOf(items).map(({ label, items: own }) => [label, own.length])).toEqual([
      ['Packages', 2],
      ['Downloads', 1],
      ['Indexes', 1],
    ])
    expect(countOfFetched(listed)).toBe('1 of 4 fetched')
    expect(factsOfFetch(items[2]!)).toBe('version 1.24, with apt and apt-get')
  })
  it('as a text has a line for each item with its box', () => {
    const lines = toFetchText(listed).split('\n')
    expect(lines.filter((line) => /^\[[x ]\] /.test(line))).toHaveLength(4)
    expect(lines.find((line) => line.startsWith('[x]'))).toContain(`https://example.org/a.iso`)
    expect(toFetchText(listed)).toContain(sha256)
  })
  it('as Markdown is read back as task lists with the same ticks, whatever the names hold', () => {
    const names = fc.string({
      unit: fc.constantFrom('a', '`', '*', '[', '\n', ' ', '<', '|', '_'),
      minLength: 1,
      maxLength: 8,
    })
    fc.assert(
      fc.property(fc.array(fc.tuple(names, fc.boolean()), { minLength: 1, maxLength: 5 }), (given) => {
        fc.pre(given.every(([name]) => name.trim() !== ''))
        const own = given.map(([name, isFetched]) =>
          item('package', name, { fetched: isFetched ? ('2026' as never) : null }),
        )
        const tree = maybeTree(
          toFetchMarkdown(
            'A title',
            toListed(own, () => 'Step 1'),
          ),
        )!
        const list = tree.children.find((node) => node.type === 'list')!
        expect(list.children.map(({ checked }) => checked)).toEqual(given.map(([, isFetched]) => isFetched))
        const names = list.children.map(
          ({ children: [words] }) =>
            words?.type === 'paragraph' &&
            words.children[0]?.type === 'inlineCode' &&
            words.children[0].value,
        )
        expect(names).toEqual(given.map(([name]) => name.replace(/\s+/g, ' ').trim()))
      }),
      { numRuns: 60 },
    )
  })
})

describe('the file of sums', () => {
  it('says what it leaves out: what has no file’s name, and a name that stands in it already', () => {
    const sha256 = 'd'.repeat(64)
    const items = [
      item('download', 'https://example.org/a.iso', { sha256 }),
      item('download', 'https://example.net/a.iso', { sha256 }),
      item('package', 'nginx', { sha256 }),
      item('download', 'https://example.org/b.iso'),
    ]
    const sums = toSumsFile(items)
    expect(sums.text).toBe(`${sha256}  a.iso\n`)
    expect(sums.leftOut.map(({ item: { name }, why }) => [name, why])).toEqual([
      ['https://example.net/a.iso', 'name taken'],
      ['nginx', 'no name'],
    ])
  })
  it('is accepted by sha256sum -c beside the files, also where names need escapes, and refused once a file differs', () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillroom-sums-'))
    const names = ['image 1.iso', 'a\\b', '-n', 'two\nlines', '*star', 'schön.iso']
    const items = names.map((name) => {
      writeFileSync(join(folder, name), name)
      const sha256 = createHash('sha256').update(name).digest('hex')
      return item('download', `https://example.org/pub/${encodeURIComponent(name)}`, { sha256 })
    })
    const sums = toSumsFile(items)
    expect(sums.count).toBe(names.length)
    writeFileSync(join(folder, 'SHA256SUMS'), sums.text)
    const check = () =>
      execFileSync('sha256sum', ['-c', '--strict', 'SHA256SUMS'], {
        cwd: folder,
        encoding: 'utf8',
        stdio: 'pipe',
      })
    expect(check().match(/: OK$/gm)).toHaveLength(names.length)
    writeFileSync(join(folder, '-n'), 'another')
    expect(check).toThrow(/FAILED|did NOT match/)
  })
})
