import { gzipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { intakeAnyFile, type FileIntake } from '../../../../shared/intake/any-file.ts'
import { maxPictureBytes } from '../../../../shared/intake/limits.ts'
import { gif, jpeg, png, webp } from './pictures.ts'

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const kindOf = (intake: FileIntake): string => (intake.ok ? intake.kind : intake.code)
const bookmarks =
  '<!DOCTYPE NETSCAPE-Bookmark-file-1>\n<DL><p><DT><A HREF="https://docs.example.org/">Docs</A></DL>'

describe('a file', () => {
  test.each([
    ['a page', '<!doctype html><p>words', 'page'],
    ['bookmarks', bookmarks, 'bookmarks'],
    [
      'an archived page',
      'MIME-Version: 1.0\r\nContent-Type: multipart/related; boundary=b\r\n\r\n--b\r\nContent-Type: text/html\r\n\r\n<p>words\r\n--b--',
      'page',
    ],
    ['plain words', 'words', 'text'],
    ['a zip archive', 'PK\u0003\u0004words', 'not-text'],
    ['a drawing', '<?xml version="1.0"?><!-- dome --><svg xmlns="http://www.w3.org/2000/svg"/>', 'not-text'],
  ])('that is %s is taken for what it is, under a name that says nothing', async (_, text, kind) => {
    expect(kindOf(await intakeAnyFile('thing', bytesOf(text)))).toBe(kind)
  })
  test('is told by its bytes where they say more than its name', async () => {
    expect(kindOf(await intakeAnyFile('logger.html', bytesOf(bookmarks)))).toBe('bookmarks')
    expect(kindOf(await intakeAnyFile('logger.txt', png(3, 2)))).toBe('picture')
    expect(kindOf(await intakeAnyFile('logger.png', bytesOf('words')))).toBe('text')
  })
  test('of bookmarks gives all its links at once', async () => {
    expect(await intakeAnyFile('b.html', bytesOf(bookmarks))).toMatchObject({
      ok: true,
      kind: 'bookmarks',
      links: [{ title: 'Docs', address: 'https://docs.example.org/' }],
      notes: [],
    })
  })
})

describe('a picture', () => {
  test.each([
    ['png', png(3, 2)],
    ['jpeg', jpeg(3, 2)],
    ['gif', gif(3, 2)],
    ['webp', webp.lossless(3, 2)],
  ])('in %s comes with its name as title, its own media type and no text', async (format, bytes) => {
    expect(await intakeAnyFile('/srv/pictures/dome at night.jpg', bytes)).toEqual({
      ok: true,
      title: 'dome at night',
      address: null,
      kind: 'picture',
      text: '',
      mediaType: `image/${format}`,
      author: null,
      dated: null,
      saved: null,
      pages: [],
      notes: [],
    })
  })
  test('without a whole header is refused as broken', async () => {
    const intake = await intakeAnyFile('dome.png', png(3, 2).slice(0, 20))
    expect(intake).toMatchObject({ ok: false, code: 'broken' })
    expect(!intake.ok && intake.sentence).toContain('“dome.png” begins as a picture does')
  })
  test('that is too large is refused with its name, its size and the limit', async () => {
    const bytes = new Uint8Array(maxPictureBytes + 1)
    bytes.set(png(3, 2))
    const intake = await intakeAnyFile('sky.png', bytes)
    expect(!intake.ok && intake.sentence).toContain('“sky.png” has 32 MiB; up to 32 MiB')
  })
  test('that is a drawing with programs in it is refused by its kind, packed or not', async () => {
    const drawing = bytesOf('<svg xmlns="http://www.w3.org/2000/svg"><script>canary()</script></svg>')
    for (const [name, bytes] of [
      ['dome.svg', drawing],
      ['dome.svgz', gzipSync(drawing)],
    ] as const) {
      const intake = await intakeAnyFile(name, bytes)
      expect(intake).toMatchObject({ ok: false, code: 'not-text' })
      expect(!intake.ok && intake.sentence).toContain('is a drawing that can hold programs (SVG)')
    }
  })
})
