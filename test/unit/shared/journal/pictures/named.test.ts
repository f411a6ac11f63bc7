import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { picturesIn, toPictureMarkdown } from '../../../../../shared/journal/pictures/named.ts'
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

  test('an address in a code block or in words is none', () => {
    expect(picturesIn(`\`\`\`\n![x](sha256:${sha256})\n\`\`\`\n\nsha256:${sha256}`)).toEqual([])
  })
})
