import { describe, expect, it } from 'vitest'
import { wholeRange } from '../../../../../renderer/panes/sources/picking.ts'
import { blocksOf } from '../../../../../renderer/panes/sources/reading/looks.ts'
import { parseNow } from '../../../../../renderer/panes/sources/reading/parsing.ts'

/** What is carried when the words from `from` to `to` are selected in a text whose signs are hidden. */
function carried(text: string, from: string, to: string): string {
  const range = { start: text.indexOf(from), end: text.indexOf(to) + to.length }
  const { start, end } = wholeRange(text, range, blocksOf(parseNow(text)))
  return text.slice(start, end)
}

describe('what is carried out of a text that is read without its signs', () => {
  const text =
    'Never **less than** 8.\n\n```sh\nls\n\ncat x\n```\n\nAnd [the table](https://mast.example.org/t) too.\n'

  it('is what was selected, where that cuts nothing in two', () => {
    expect(carried(text, 'less', 'less')).toBe('less')
    expect(carried(text, 'Never', '8')).toBe('Never **less than** 8')
    expect(carried(text, 'cat', 'cat x')).toBe('cat x')
  })

  it('takes in a formatted piece, a link or a code block as a whole', () => {
    expect(carried(text, 'Never', 'less')).toBe('Never **less than**')
    expect(carried(text, 'And', 'the table')).toBe('And [the table](https://mast.example.org/t)')
    expect(carried(text, 'cat', 'And')).toBe('```sh\nls\n\ncat x\n```\n\nAnd')
  })
})
