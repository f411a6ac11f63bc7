/**
 * Pages captured by Chromium as MHTML (RFC 2557), beside the same pages as HTML files; and the odd files of Chromium's own
 * web tests (third_party/blink/web_tests/mhtml), which say how browsers take broken ones.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { intakeAnyFile } from '../../shared/intake/any-file.ts'
import { intakeHtml } from '../../shared/intake/html.ts'
import type { TakenIn } from '../../shared/intake/taken.ts'
import { intakeWebArchive } from '../../shared/intake/web-archive.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import { wordsOf } from '../../shared/markdown/words.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const folder = join(standards, 'html-mhtml')
const isThere = existsSync(folder)
const read = (path: string): Uint8Array => readFileSync(join(folder, path))

const captures = [
  ['debian-handbook-advanced-administration', 'debian-handbook-advanced-administration'],
  ['debian-handbook-sect.backup', 'debian-handbook-sect.backup'],
  ['debian-handbook-sect.hotplug', 'debian-handbook-sect.hotplug'],
  ['debian-reference-ch09', 'debian-reference-ch09.en'],
] as const

async function page(path: string): Promise<TakenIn> {
  const intake = await intakeWebArchive(path, read(path))
  if (!intake.ok) throw new Error(intake.sentence)
  return intake
}

/** Words of all blocks of one kind, white space taken together. */
function blocks(markdown: string, type: 'code' | 'heading' | 'table'): string[] {
  const found: string[] = []
  visit(parseMarkdown(markdown), type, (node) => {
    found.push(node.type === 'code' ? node.value : wordsOf(node).replace(/\s+/g, ' ').trim())
  })
  return found
}

describe('captures of Chromium (skipped where they are not at hand)', () => {
  test.skipIf(!isThere).each(captures)('%s says what the page itself says', async (capture, name) => {
    const taken = await page(`${capture}.mhtml`)
    const twin = intakeHtml(`${name}.html`, read(`pages/${name}.html`))
    if (!twin.ok) throw new Error(twin.sentence)
    expect(taken.title).toBe(twin.title)
    // Captured from files, so the address is the one that the page itself names.
    expect(taken.address).toBe(twin.address)
    expect(taken.saved).toMatch(/^2026-11-25T06:\d\d:\d\d\.000\+00:00$/)
    for (const type of ['code', 'heading', 'table'] as const)
      expect(blocks(taken.text, type)).toEqual(blocks(twin.text, type))
    const words = (text: string): string[] => wordsOf(parseMarkdown(text)).split(/\s+/).filter(Boolean)
    expect(words(taken.text)).toEqual(words(twin.text))
  })
})

describe("files of Chromium's web tests (skipped where they are not at hand)", () => {
  test.skipIf(!isThere)(
    'whose boundary is broken are refused in a sentence, or read as far as they go',
    async () => {
      const intake = await intakeAnyFile('bad.mht', read('chromium-web_tests/invalid-bad-boundary.mht'))
      expect(intake).toMatchObject({ ok: false, code: 'broken' })
      expect(!intake.ok && intake.sentence).toContain('“bad.mht” ')
    },
  )
  test.skipIf(!isThere)('that hold only a picture and no footer are refused in a sentence', async () => {
    const intake = await intakeAnyFile('red.mht', read('chromium-web_tests/malformed_mhtml_no_footer.mht'))
    expect(!intake.ok && intake.sentence).toContain('holds no page, only what belonged to one')
  })
  test.skipIf(!isThere)(
    'with parts within parts are read by their first page, picture included',
    async () => {
      const taken = await page('chromium-web_tests/multi_frames_ie.abridged.mht')
      expect(taken.title).toBe('A page that contains multiple nested frames')
      expect(taken.address).toBe('http://localhost/top_frame.html')
      expect(taken.saved).toBe('2011-05-18T16:50:17.000-07:00')
      expect(taken.text).toContain('This page contains several frames.')
      expect(taken.text).toMatch(/And a red square:[\\\s]+!\[\]\(data:image\/png;base64,/)
      expect(taken.notes).toEqual(['It was read as windows-1252.', 'Left out: 3 embedded pages.'])
    },
  )
})
