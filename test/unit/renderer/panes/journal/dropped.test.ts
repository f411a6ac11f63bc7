import { parseMarkdown } from '../../../../../shared/markdown/parse.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  fencedBlock,
  infoOfFile,
  markdownOfDrop,
  megabytes,
  textOfBytes,
} from '../../../../../renderer/panes/journal/dropped.ts'

const dropOf = (data: Readonly<Record<string, string>>, title: string | null = null) =>
  markdownOfDrop(
    (type) => data[type] ?? '',
    () => title,
  )

describe('markdownOfDrop', () => {
  it('makes a link with the words that it had where it came from', () => {
    const link = { 'text/uri-list': 'https://docs.example.org/time', 'text/plain': 'ignored' }
    expect(dropOf(link, 'Time [draft]')).toBe('[Time \\[draft\\]](<https://docs.example.org/time>)')
    expect(dropOf(link)).toBe('<https://docs.example.org/time>')
  })

  it('takes several addresses line by line and passes over remarks (RFC 2483 §5)', () => {
    const list = { 'text/uri-list': '# two\r\nhttps://a.example.org/\r\nhttps://b.example.org/\r\n' }
    expect(dropOf(list, 'Title')).toBe('<https://a.example.org/>\n<https://b.example.org/>')
  })

  it('takes an address that it does not know for plain text', () => {
    expect(dropOf({ 'text/uri-list': 'javascript:alert(1)', 'text/plain': 'the words' })).toBe('the words')
  })

  it('finds nothing where nothing is', () => {
    expect(dropOf({})).toBeNull()
  })

  it('gives links that CommonMark reads as the same address, whatever the title', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), fc.webUrl({ withFragments: true }), (title, address) => {
        const expected = new URL(address).href
        const made = dropOf({ 'text/uri-list': address }, title)!
        const found = JSON.stringify(parseMarkdown(made))
        expect(found).toContain('"type":"link"')
        expect(found).toContain(`"url":${JSON.stringify(expected)}`)
      }),
    )
  })
})

describe('fencedBlock', () => {
  it('is read by CommonMark as one code block with exactly that text', () => {
    const texts = fc.string({
      unit: fc.constantFrom('`', '```', '~', '\n', ' ', 'a', '>', '🔭'),
      maxLength: 40,
    })
    fc.assert(
      fc.property(texts, (text) => {
        const { children } = parseMarkdown(fencedBlock(text, 'conf'))
        expect(children).toHaveLength(1)
        const [block] = children
        const value = block?.type === 'code' ? block.value : null
        expect(value).toBe(text.endsWith('\n') ? text.slice(0, -1) : text)
      }),
    )
  })
})

describe('files', () => {
  it('are text when they are UTF-8 without U+0000', () => {
    expect(textOfBytes(new TextEncoder().encode('Wetter: 4 °C'))).toBe('Wetter: 4 °C')
    expect(textOfBytes(Uint8Array.of(0x61, 0x00, 0x62))).toBeNull()
    expect(textOfBytes(Uint8Array.of(0xff, 0xfe, 0x41))).toBeNull()
  })

  it('name their language by their ending, or none', () => {
    expect(infoOfFile('logger.CONF')).toBe('conf')
    expect(infoOfFile('boot.log')).toBe('')
    expect(infoOfFile('sh')).toBe('')
  })

  it('are measured in words a person reads', () => {
    expect(megabytes(3_240_000)).toBe('3.2 MB')
  })
})
