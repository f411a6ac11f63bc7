import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { contentOf, diffOf } from '../../../../../shared/journal/files/content.ts'
import { statesOfPath } from '../../../../../shared/journal/files/states.ts'
import { fileFromDrop, fileFromPaste, filesFromDiff } from '../../../../../shared/journal/files/taken.ts'
import { unifiedDiff } from '../../../../../shared/journal/files/unified.ts'

const digest = 'c'.repeat(64)
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text)

describe('a dropped file', () => {
  it('comes back byte for byte, as text or as bytes', () => {
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 40 }),
      fc
        .array(fc.constantFrom('a', '\n', '\r\n', '\r', '\ufeff', 'ä', '\0', '`````'), { maxLength: 12 })
        .map((parts) => utf8(parts.join(''))),
    )
    fc.assert(
      fc.property(bytes, (original) => {
        const taken = fileFromDrop('/srv/x', original, digest)
        const content = contentOf(taken.text, taken.state)
        const back = taken.state.blob === null ? utf8(content!) : taken.bytes!
        expect(Array.from(back)).toEqual(Array.from(original))
        expect(taken.state.blob === null).toBe(taken.bytes === null)
      }),
      { numRuns: 2000 },
    )
  })

  it('is text where it can be, with a byte order mark and CR LF', () => {
    expect(fileFromDrop('/srv/x', utf8('\ufeffa\r\n'), digest)).toEqual({
      text: '```\n\ufeffa\n```',
      state: expect.objectContaining({ lineEnds: 'crlf', endsWithNewline: true, blob: null }) as unknown,
      bytes: null,
    })
    for (const none of [utf8('a\0b'), utf8('a\r\nb\n'), Uint8Array.of(0xff, 0xfe, 0x41)])
      expect(fileFromDrop('/srv/x', none, digest).state.blob).toBe(digest)
    expect(fileFromPaste('/srv/x', 'a\rb')).toBeUndefined()
    expect(fileFromPaste('/srv/x', 'a')?.state).toMatchObject({ endsWithNewline: false, form: 'content' })
  })
})

describe('a pasted diff', () => {
  const [before, after] = ['height=12\nmast\n', 'height=13\nmast']
  it('is one entry for each file, with its path, and applies to the state before', () => {
    const diff = `diff --git a/etc/x b/etc/x\n${unifiedDiff(before, after, 'a/etc/x\t2026-03-02', 'b/etc/x')}${unifiedDiff('', 'n\n', '/dev/null', 'b/new')}`
    const taken = filesFromDiff(diff)!
    expect(taken.map(({ state }) => [state.path, state.form, state.endsWithNewline])).toEqual([
      ['etc/x', 'diff', false],
      ['new', 'diff', true],
    ])
    const first = fileFromPaste('etc/x', before)!
    expect(statesOfPath([first, taken[0]!])[1]).toEqual({ ok: true, value: after })
  })

  it('of a file with CR keeps it, however it was pasted', () => {
    const crlf = (text: string): string => text.replace(/\n/g, '\r\n')
    const diff = unifiedDiff(crlf(before), crlf(after), '/etc/x')
    for (const pasted of [diff, crlf(diff.replace(/\r/g, ''))]) {
      const [taken] = filesFromDiff(pasted)!
      expect(diffOf(taken!.text)).not.toContain('\r')
      if (pasted === diff)
        expect(statesOfPath([fileFromPaste('/etc/x', crlf(before))!, taken!])[1]).toEqual({
          ok: true,
          value: crlf(after),
        })
    }
  })

  it('is not seen in other texts', () => {
    for (const text of [
      '',
      '--- a\n+++ b\n',
      '--- a\n\nwords\n+++ b',
      '- a\n+ b',
      '--- a\n+++ b\n@@ -1,3 +1 @@\n-a\n',
    ])
      expect(filesFromDiff(text)).toBeUndefined()
  })
})
