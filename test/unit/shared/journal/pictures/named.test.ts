import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { describingOf, picturesIn, toPictureMarkdown } from '../../../../../shared/journal/pictures/named.ts'
import { applyReplacements } from '../../../../../shared/journal/tidy/edits.ts'
import { blobsNamedIn } from '../../../../../shared/lab/text.ts'
import { hostileMarkdown } from '../../markdown/hostile.ts'

const sha256 = '0f'.repeat(32)

describe('kept pictures in a text', () => {
  test('what is written of a picture is read back, whatever its description and its file are called', () => {
    fc.assert(
      fc.property(fc.oneof(hostileMarkdown, fc.string()), fc.string(), (description, name) => {
        const plain = (text: string): string => text.replace(/\s+/gu, ' ').replaceAll('\0', '\ufffd').trim()
        const markdown = toPictureMarkdown({ sha256, description, name })
        expect(picturesIn(markdown)).toEqual([{ sha256, description: plain(description), name: plain(name) }])
        expect(blobsNamedIn(markdown)).toContain(sha256)
      }),
    )
  })

  test('one of them gets another description, and nothing else of the text changes', () => {
    const any = fc.oneof(hostileMarkdown, fc.string())
    const named = fc.record({ sha256: fc.constantFrom(sha256, 'a1'.repeat(32)), description: any, name: any })
    fc.assert(
      fc.property(fc.array(named, { minLength: 1, maxLength: 4 }), fc.nat(), any, (pictures, n, words) => {
        const at = n % pictures.length
        const text = pictures.map((one) => `Seen *here*: ${toPictureMarkdown(one)}.`).join('\n\n')
        const before = picturesIn(text)
        const description = words.replaceAll('\0', '')
        const replacement = describingOf(text, at, description)!
        const after = applyReplacements(text, [replacement])
        const plain = description.replace(/\s+/gu, ' ').trim()
        expect(picturesIn(after)).toEqual(
          before.map((one, i) => (i === at ? { ...one, description: plain } : one)),
        )
        expect(after.replace(/!\[.*?\]\(sha256.*$/gmu, '')).toBe(text.replace(/!\[.*?\]\(sha256.*$/gmu, ''))
        expect(describingOf(text, pictures.length, description)).toBe(null)
      }),
    )
  })

  test('only the words between the brackets are replaced where that can be told', () => {
    const text = `Up there: ![old [words]](sha256:${sha256} "IMG_1.jpg") and on.`
    expect(describingOf(text, 0, 'The vane')).toEqual({ from: 12, to: 23, insert: 'The vane' })
  })

  test('an address in a code block or in words is none', () => {
    expect(picturesIn(`\`\`\`\n![x](sha256:${sha256})\n\`\`\`\n\nsha256:${sha256}`)).toEqual([])
  })
})
