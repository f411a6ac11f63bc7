import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  blobText,
  contentOf,
  diffOf,
  diffText,
  fileText,
  maybeTextShape,
  withContent,
} from '../../../../../shared/journal/files/content.ts'
import { languageOfFile } from '../../../../../shared/journal/files/languages.ts'
import { toStorableText } from '../../../../../shared/lab/text.ts'
import { parseMarkdown } from '../../../../../shared/markdown/parse.ts'

const line = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.stringMatching(/^[ \t]{0,4}[`~]{1,6}[a-z ]{0,3}$/),
  fc.constantFrom(
    '',
    '- a',
    '    code',
    '# head',
    '> quoted',
    '<pre>',
    '\ufeff',
    '\u2028',
    '\\',
    '\u001b[1m',
    '\f',
  ),
)
const text = fc
  .tuple(fc.array(line, { maxLength: 12 }), fc.constantFrom('\n', '\r\n'), fc.boolean())
  .map(([lines, end, isEnded]) => {
    // What `line` holds must not bring line ends of its own.
    const clean = lines.map((one) =>
      one.replace(/[\r\n\0]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, ''),
    )
    return clean.join(end) + (isEnded && clean.length > 0 ? end : '')
  })
const path = fc.constantFrom('/etc/hosts', '/srv/a.sh', '~/notes.md', 'x', '/etc/logger.d/`.conf')

describe('a content as the text of an entry', () => {
  it('comes back byte for byte, through what the store allows of a text', () => {
    fc.assert(
      fc.property(text, path, (content, at) => {
        const shape = maybeTextShape(content)!
        const stored = fileText(content, at)
        expect(toStorableText(stored)).toBe(stored)
        expect(contentOf(stored, { ...shape, blob: null })).toBe(content)
      }),
      { numRuns: 2000 },
    )
  })

  it('is one fence and nothing else to a reader of Markdown', () => {
    fc.assert(
      fc.property(text, path, (content, at) => {
        const [code, ...more] = parseMarkdown(fileText(content, at)).children
        expect(more).toEqual([])
        const lines = content.replace(/\r\n/g, '\n')
        expect(code).toMatchObject({ type: 'code', value: lines.endsWith('\n') ? lines.slice(0, -1) : lines })
      }),
      { numRuns: 1000 },
    )
  })

  it('comes back from between other words', () => {
    fc.assert(
      fc.property(text, (content) => {
        const before = withContent('The logger, before the change:', 'old\n', '/etc/logger.conf')
        const next = withContent(`${before}\n\nSee \`\`\` above.`, content, '/etc/logger.conf')
        expect(contentOf(next, { ...maybeTextShape(content)!, blob: null })).toBe(content)
        expect(next.startsWith('The logger, before the change:\n\n```')).toBe(true)
        expect(next.endsWith('\n\nSee ``` above.')).toBe(true)
      }),
    )
  })

  it('is refused where bytes would not come back', () => {
    for (const content of ['a\0b', 'a\r', 'a\rb\n', 'a\r\nb\n', 'a\nb\r\n', '\r\r\n', '\ud800', 'x\udc00y'])
      expect(maybeTextShape(content), JSON.stringify(content)).toBeUndefined()
    expect(() => fileText('a\r', 'x')).toThrow(RangeError)
    expect(maybeTextShape('')).toEqual({ endsWithNewline: false, lineEnds: 'lf' })
    expect(maybeTextShape('\r\n')).toEqual({ endsWithNewline: true, lineEnds: 'crlf' })
  })

  it('is read from fences that a person made', () => {
    const lf = { endsWithNewline: true, lineEnds: 'lf', blob: null } as const
    expect(contentOf('   ~~~~ ini\n   a\n     b\n ~~~\n   ~~~~\nmore', lf)).toBe('a\n  b\n~~~\n')
    expect(contentOf('```\nnever closed', lf)).toBe('never closed\n')
    expect(contentOf('```\n```', lf)).toBe('')
    expect(contentOf('```\n\n```', lf)).toBe('\n')
    expect(contentOf('``` a`b\nno fence', lf)).toBeUndefined()
    expect(contentOf('    ```\ncode by indent', lf)).toBeUndefined()
    expect(contentOf(blobText, { ...lf, blob: 'a'.repeat(64) })).toBeUndefined()
  })

  it('keeps a diff as it is', () => {
    const diff = '--- a\n+++ b\n@@ -1 +1 @@\n-```\n+````\n\\ No newline at end of file\n'
    expect(diffOf(diffText(diff))).toBe(diff)
    expect(diffText(diff).startsWith('`````diff\n')).toBe(true)
    expect(diffOf('no fence')).toBeUndefined()
  })
})

describe('the language of a file', () => {
  it('is told by its name, its place, its first line and its ending', () => {
    const told = (at: string, content = ''): string => languageOfFile(at, content)
    expect(told('/srv/rack/Makefile')).toBe('makefile')
    expect(told('/etc/ssh/sshd_config.d/10-keys.conf')).toBe('sshconfig')
    expect(told('/etc/nginx/sites-enabled/logger')).toBe('nginx')
    expect(told('/etc/systemd/system/logger.service')).toBe('ini')
    expect(told('/etc/fstab')).toBe('fstab')
    expect(told('/usr/local/bin/read-vane', '#!/usr/bin/env python3\n')).toBe('python')
    expect(told('/usr/local/bin/read-vane', '#! /bin/sh -e\n')).toBe('sh')
    expect(told('/usr/local/bin/read.txt', '#!/usr/bin/env -S perl -w\n')).toBe('perl')
    expect(told('/srv/logger.YML')).toBe('yaml')
    expect(told('/srv/constructor')).toBe('')
    expect(told('.json')).toBe('')
    expect(told('/srv/x.unknown', '#!/opt/unheard-of\n')).toBe('')
  })
})
