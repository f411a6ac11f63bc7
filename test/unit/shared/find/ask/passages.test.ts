import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toPassages } from '../../../../../shared/find/ask/passages.ts'
import type { AskThing } from '../../../../../shared/find/ask/thing.ts'

function thingOf(thing: AskThing['thing'], ...texts: string[]): AskThing {
  return {
    ...{ id: 'a', thing, kind: null, title: '', way: [], moment: null, procedure: null },
    texts: texts.map((text) => ({ node: null, part: null, text })),
  }
}

const wordsOf = (thing: AskThing): string[] =>
  toPassages(thing).map(({ pieces }) =>
    pieces.map(({ text, start, end }) => text.slice(start, end)).join('|'),
  )

describe('passages', () => {
  it('of a source are its paragraphs, each with the heading above it', () => {
    const source = thingOf('source', '# Roof\n\nIt opens\nslowly.\n\n## Cable\nIt is red.\n')
    expect(wordsOf(source)).toEqual(['It opens\nslowly.', 'It is red.'])
    expect(toPassages(source).map(({ heading }) => heading)).toEqual(['Roof', 'Cable'])
  })

  it('keep what stands between fences together, with the line that leads to it', () => {
    const text = 'Open it:\n\n```sh\nroof open\n\n# wait\nroof state\n```\n\nThen look.'
    expect(wordsOf(thingOf('source', text))).toEqual([
      'Open it:\n\n```sh\nroof open\n\n# wait\nroof state\n```',
      'Then look.',
    ])
  })

  it('of a step are all its parts as one', () => {
    expect(wordsOf(thingOf('step', 'Open it.\n\nSlowly.', 'It is open.'))).toEqual([
      'Open it.\n\nSlowly.|It is open.',
    ])
  })

  it('of whatever text lie in it in order and leave out no word but headings', () => {
    const line = fc.constantFrom('', '# head', 'word other', 'ends:', '```', '~~~', '- item', '    code')
    fc.assert(
      fc.property(fc.array(line, { maxLength: 24 }), (lines) => {
        const text = lines.join('\n')
        let end = 0
        const shown = toPassages(thingOf('source', text)).flatMap(({ pieces }) => {
          for (const piece of pieces) {
            expect(piece.start).toBeGreaterThanOrEqual(end)
            end = piece.end
          }
          return pieces.map((piece) => text.slice(piece.start, piece.end))
        })
        const count = (words: string): number => words.split('word other').length - 1
        expect(count(shown.join('\n'))).toBe(count(text))
      }),
    )
  })
})
