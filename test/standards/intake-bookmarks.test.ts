/**
 * Bookmarks exported by Chromium and Firefox, beside the JSON that the same browsers keep of them: what both say must be the
 * same. The times in the HTML are whole seconds, those in the JSON microseconds.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { maybeBookmarks } from '../../shared/intake/bookmarks/read.ts'
import type { BookmarkedLink, Bookmarks } from '../../shared/intake/bookmarks/link.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const folder = join(standards, 'bookmarks')
const isThere = existsSync(folder)

function read(name: string): Bookmarks {
  const found = maybeBookmarks(name, readFileSync(join(folder, name)))
  if (!found?.ok) throw new Error(found?.sentence ?? `${name} is not known as bookmarks`)
  return found
}
const inSeconds = (links: readonly BookmarkedLink[]): BookmarkedLink[] =>
  links.map((link) => ({
    ...link,
    added: (link.added?.replace(/\.\d{3}/, '.000') ?? null) as BookmarkedLink['added'],
  }))

describe('real exports of browsers (skipped where they are not at hand)', () => {
  test.skipIf(!isThere).each([
    ['chromium156-export.html', 'chromium156-profile-Bookmarks.json'],
    ['firefox153esr-export.html', 'firefox153esr-backup.json'],
  ])('%s says what %s says', (html, json) => {
    expect(inSeconds(read(html).links)).toEqual(inSeconds(read(json).links))
    expect(read(html).links).toHaveLength(4)
    expect(read(html).notes).toEqual([])
  })
  test.skipIf(!isThere)('keep nested folders, tags, dates, words and signs', () => {
    expect(read('firefox153esr-export.html').links).toMatchObject([
      {
        title: 'Tips & tricks <raid> "md0" é 日本',
        address: 'https://www.debian.org/doc/manuals/debian-reference/ch09.en.html?a=1&b=2',
        folders: ['Server lab'],
        tags: ['raid', 'storage'],
        added: '2024-06-03T07:33:21.000+00:00',
      },
      { folders: ['Server lab', 'Firmware'], address: 'https://example.org/bmc.pdf' },
      { folders: ['Server lab', 'Firmware'], address: 'https://example.org/bmc.pdf#page=7' },
      { folders: ['Bookmarks Toolbar'], shortcut: 'nut' },
    ])
    expect(read('chromium156-export.html').links[0]).toMatchObject({
      address: 'https://www.debian.org/doc/manuals/debian-reference/ch09.en.html?a=1&b=2',
      folders: ['Bookmarks bar', 'Server lab'],
    })
  })
  test.skipIf(!isThere)('are read the same before and after a browser took them in', () => {
    expect(read('firefox153esr-import-input.html').links).toEqual(read('firefox153esr-export.html').links)
  })
  test.skipIf(!isThere)('need no lists around them', () => {
    expect(read('firefox-fixture-singleframe.html').links).toMatchObject([
      { title: 'Mozilla', address: 'http://www.mozilla.org/', folders: ['Subtitle'] },
    ])
  })
})
