import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  AFTER_BLANK,
  linesOf,
  signsOfRows,
  WITHIN_WORD,
  type LineRun,
} from '../../../../renderer/printing/lines.ts'

const written = (runs: readonly LineRun[]): string =>
  runs
    .map((run) =>
      run.kind === 'blanks'
        ? run.text
        : run.pieces.map((piece) => (piece.kind === 'text' ? piece.text : `⁅${piece.name}⁆`)).join(''),
    )
    .join('')

describe('the lines of a command for paper', () => {
  const texts = fc
    .array(fc.constantFrom('a', '--b', ' ', '  ', '\t', '\n', '⁅host⁆', '/', '"x y"'), { maxLength: 30 })
    .map((pieces) => pieces.join(''))
  it('hold every character of it, blanks at the start and several in a row among them', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const lines = linesOf(text).map(written)
        expect(lines.join('\n')).toBe(text.replace(/\n$/, ''))
      }),
    )
  })
  it('are words and blanks in turn, and a placeholder stays one with the letters around it', () => {
    fc.assert(
      fc.property(texts, (text) => {
        for (const runs of linesOf(text))
          for (const [i, run] of runs.entries()) expect(run.kind).not.toBe(runs[i + 1]?.kind)
      }),
    )
    expect(linesOf('scp root@⁅host⁆:/etc .')[0]).toEqual([
      { kind: 'word', pieces: [{ kind: 'text', text: 'scp' }] },
      { kind: 'blanks', text: ' ' },
      {
        kind: 'word',
        pieces: [
          { kind: 'text', text: 'root@' },
          { kind: 'placeholder', name: 'host' },
          { kind: 'text', text: ':/etc' },
        ],
      },
      { kind: 'blanks', text: ' ' },
      { kind: 'word', pieces: [{ kind: 'text', text: '.' }] },
    ])
  })
  it('show a doubled sign as one', () => {
    expect(linesOf('echo ⁅⁅x').map(written)).toEqual(['echo ⁅x'])
  })
})

describe('the signs at the ends of rows', () => {
  it('are none for one row, and tell a blank from the middle of a word', () => {
    expect(signsOfRows(1, [])).toEqual([])
    expect(signsOfRows(3, [])).toEqual([AFTER_BLANK, AFTER_BLANK])
    expect(signsOfRows(5, [{ first: 1, rows: 3 }])).toEqual([
      AFTER_BLANK,
      WITHIN_WORD,
      WITHIN_WORD,
      AFTER_BLANK,
    ])
  })
})
