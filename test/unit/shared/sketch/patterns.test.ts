import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseMarkdown } from '../../../../shared/markdown/parse.ts'
import { sketchPatterns, toFence } from '../../../../shared/sketch/patterns.ts'
import { toPrepared } from '../../../../shared/sketch/prepare.ts'

describe('patterns', () => {
  test('are one of each kind, in a menu’s order, each with an example address at most (RFC 5737)', () => {
    expect(sketchPatterns.map(({ word }) => word)).toEqual([
      'Network sketch',
      'Decision tree',
      'Mind map',
      'Sequence',
    ])
    for (const { text } of sketchPatterns)
      for (const [address] of text.matchAll(/\d+\.\d+\.\d+\.\d+/gu)) expect(address).toMatch(/^192\.0\.2\./u)
  })

  test('a block of Markdown holds its text whole, whatever fences stand in it', () => {
    const lines = fc.array(fc.constantFrom('graph TD', '```', '````', '  ```x', 'a --> b', '~~~', ''), {
      minLength: 1,
    })
    fc.assert(
      fc.property(lines, (some) => {
        const text = some.join('\n')
        const { children } = parseMarkdown(toFence(text))
        expect(children).toHaveLength(1)
        expect(children[0]).toMatchObject({ type: 'code', lang: 'mermaid', value: text })
      }),
    )
  })
})

describe('the text for the library', () => {
  test('leaves out comments but no directives, and knows the way back to the written lines', () => {
    const { text, lineOf } = toPrepared(
      '\r\n%% a remark\nflowchart LR\n  %% another\n%%{init: {}}%%\n a --> b',
    )
    expect(text).toBe('flowchart LR\n%%{init: {}}%%\n a --> b')
    expect([1, 2, 3, 99].map(lineOf)).toEqual([3, 5, 6, 6])
  })

  test('every line that is kept leads back to itself', () => {
    const lines = fc.array(fc.constantFrom('a', '  b', '%% c', '', '%%{x}%%'))
    fc.assert(
      fc.property(lines, (some) => {
        const written = some.join('\n')
        const { text, lineOf } = toPrepared(written)
        if (text === '') return
        text.split('\n').forEach((line, i) => expect(written.split('\n')[lineOf(i + 1) - 1]).toBe(line))
      }),
    )
  })
})
