import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { maxFolders, toAdded, type Bookmarks } from '../../../../../shared/intake/bookmarks/link.ts'
import { maybeBookmarks } from '../../../../../shared/intake/bookmarks/read.ts'

const start =
  '<!DOCTYPE NETSCAPE-Bookmark-file-1>\n<META HTTP-EQUIV="Content-Type" CONTENT="text/html; charset=UTF-8">\n<TITLE>Bookmarks</TITLE>\n<H1>Bookmarks</H1>\n<DL><p>\n'
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
function read(text: string): Bookmarks {
  const found = maybeBookmarks('marks.html', bytesOf(text))
  if (!found) throw new Error('not known as bookmarks')
  if (!found.ok) throw new Error(found.sentence)
  return found
}
const list = (body: string): Bookmarks => read(`${start}${body}</DL><p>\n`)
const a = (address: string, title = 't', more = ''): string =>
  `<DT><A HREF="${address}" ${more}>${title}</A>\n`

describe('bookmarks as HTML', () => {
  test('keep title, address, folders, tags, moment, word and description', () => {
    const { links } = list(
      `<DT><H3>Rack</H3>\n<DL><p>\n${a('https://a.example.org/', 'UPS &amp; PDU', 'ADD_DATE="1717400001" TAGS="power, rack,power" SHORTCUTURL="ups"')}<DD>Read before\nthe battery goes\n</DL><p>\n${a('https://b.example.org/')}`,
    )
    expect(links).toEqual([
      {
        title: 'UPS & PDU',
        address: 'https://a.example.org/',
        folders: ['Rack'],
        tags: ['power', 'rack'],
        added: '2024-06-03T07:33:21.000+00:00',
        note: 'Read before\nthe battery goes',
        shortcut: 'ups',
      },
      {
        title: 't',
        address: 'https://b.example.org/',
        folders: [],
        tags: [],
        added: null,
        note: '',
        shortcut: '',
      },
    ])
  })
  test('give a description to its link and never to the next folder', () => {
    const { links } = list(
      `${a('https://a.example.org/')}<DD>mine<HR>\n<DT><H3>F</H3>\n<DD>of the folder\n<DL><p>\n${a('https://b.example.org/')}</DL><p>\n`,
    )
    expect(links.map(({ note, folders }) => [note, folders])).toEqual([
      ['mine', []],
      ['', ['F']],
    ])
  })
  test('skip separators, also on the line of the next link', () => {
    expect(
      list(`<HR>    ${a('https://a.example.org/')}<HR>${a('https://b.example.org/')}`).links,
    ).toHaveLength(2)
  })
  test('take addresses as they stand where any & is bare, and unescape them where all are escaped', () => {
    const bare = list(a('https://a.example.org/?a=1&copy=2&lt;') + a('https://a.example.org/?x&amp;y')).links
    expect(bare.map(({ address }) => address)).toEqual([
      'https://a.example.org/?a=1&copy=2&lt;',
      'https://a.example.org/?x&amp;y',
    ])
    const escaped = list(a('https://a.example.org/?a=1&amp;copy=2') + a('https://a.example.org/?q=%22')).links
    expect(escaped.map(({ address }) => address)).toEqual([
      'https://a.example.org/?a=1&copy=2',
      'https://a.example.org/?q=%22',
    ])
  })
  test('leave out what leads to no page, and say how much', () => {
    const { links, notes } = list(
      `${a('javascript:canary()')}${a(' JavaScript:canary()')}${a('data:text/html,canary')}${a('place:sort=8')}${a('')}${a('https://a.example.org/')}`,
    )
    expect(links.map(({ address }) => address)).toEqual(['https://a.example.org/'])
    expect(notes).toEqual([
      '5 links were left out, because they lead to no page on the web (2 javascript:, 1 data:, 1 place:, 1 without an address).',
    ])
  })
  test('are refused in a sentence where folders nest without end, or nothing is in them', () => {
    const deep = `${start}${'<DT><H3>f</H3>\n<DL><p>\n'.repeat(maxFolders + 1)}${a('https://a.example.org/')}`
    const endless = `${start}${'<DT><H3>f</H3>\n<DL><p>\n'.repeat(5000)}`
    for (const text of [deep, endless])
      expect(maybeBookmarks('m.html', bytesOf(text))).toMatchObject({ ok: false, code: 'broken' })
    expect(maybeBookmarks('m.html', bytesOf(start))).toMatchObject({ ok: false, code: 'empty' })
  })
  test('come in ten thousand at a time, fifty folders deep, within seconds', () => {
    const each = Array.from({ length: 200 }, (_, i) =>
      a(`https://a.example.org/${i}`, `Page ${i}`, 'ADD_DATE="1717400001"'),
    ).join('')
    const body = Array.from({ length: 50 }, (_, i) => `<DT><H3>Level ${i}</H3>\n<DL><p>\n${each}`).join('')
    const begun = performance.now()
    const { links } = list(`${body}${'</DL><p>\n'.repeat(50)}`)
    expect(performance.now() - begun).toBeLessThan(10_000)
    expect(links).toHaveLength(10_000)
    expect(links[0]!.folders).toEqual(['Level 0'])
    expect(links.at(-1)!.folders).toEqual(Array.from({ length: 50 }, (_, i) => `Level ${i}`))
  })
  test('that are any bytes behind their beginning give links or a sentence', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (rest) => {
        const found = maybeBookmarks('m.html', bytesOf(start + rest))!
        if (!found.ok) expect(found.sentence).toContain('“m.html”')
        else
          for (const { address, title } of found.links)
            expect(title !== '' && /^https?:/.test(address)).toBe(true)
      }),
    )
  })
})

describe('bookmarks as JSON', () => {
  test('that are cut off are refused in a sentence', () => {
    expect(maybeBookmarks('Bookmarks', bytesOf('{"roots": {"bookmark_bar": {'))).toMatchObject({
      ok: false,
      code: 'broken',
    })
  })
  test('of older backups keep tags that are folders of their own, and descriptions', () => {
    const link = { type: 'text/x-moz-place', uri: 'https://a.example.org/', title: 'A' }
    const described = { ...link, annos: [{ name: 'bookmarkProperties/description', value: 'read it' }] }
    const folder = (fields: object, children: object[]): object => ({
      type: 'text/x-moz-place-container',
      ...fields,
      children,
    })
    const root = folder({}, [
      folder({ root: 'bookmarksMenuFolder' }, [described]),
      folder({ root: 'tagsFolder' }, [folder({ title: 'rack' }, [link])]),
    ])
    expect(read(JSON.stringify(root)).links).toMatchObject([{ tags: ['rack'], note: 'read it', folders: [] }])
  })
  test('that nest without end are refused in a sentence', () => {
    let node: object = { type: 'url', url: 'https://a.example.org/' }
    for (let i = 0; i < 500; i += 1) node = { type: 'folder', name: 'f', children: [node] }
    const text = JSON.stringify({ roots: { bookmark_bar: node } })
    expect(maybeBookmarks('Bookmarks', bytesOf(text))).toMatchObject({ ok: false, code: 'broken' })
  })
})

describe('other files', () => {
  test.each(['<!doctype html><p>x', '{"name": 1}', 'words', ''])('that begin %j are no bookmarks', (text) => {
    expect(maybeBookmarks('x', bytesOf(text))).toBeUndefined()
  })
})

describe('a count of time', () => {
  test.each([
    [1717400001, '2024-06-03T07:33:21.000+00:00'],
    ['1717400001', '2024-06-03T07:33:21.000+00:00'],
    [1717400001234, '2024-06-03T07:33:21.234+00:00'],
    [1717400001234567, '2024-06-03T07:33:21.234+00:00'],
    ['13440061668260142', '2026-11-25T06:27:48.260+00:00'],
    [0, null],
    ['', null],
    ['soon', null],
    [-5, null],
    [Number.NaN, null],
    [undefined, null],
  ])('%s is %s', (count, moment) => {
    expect(toAdded(count)).toBe(moment)
  })
})
