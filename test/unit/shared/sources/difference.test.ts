import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  compareTexts,
  foldKept,
  textOf,
  usualLimits,
  type Difference,
} from '../../../../shared/sources/difference.ts'

const line = fc.constantFrom(
  '',
  'wind from west',
  'wind from east',
  'the mast leans',
  'a b c',
  '\u{1f300} gust',
  '– x',
)
const someText = fc
  .tuple(fc.array(line, { maxLength: 12 }), fc.boolean())
  .map(([lines, ends]) => lines.join('\n') + (ends ? '\n' : ''))
const anyText = fc.oneof(someText, fc.string({ unit: 'binary', maxLength: 40 }))
const tight = fc.constantFrom(
  usualLimits,
  { lineEdits: 1, wordEdits: 1000, words: 1000 },
  { lineEdits: 1000, wordEdits: 1, words: 1000 },
  { lineEdits: 1000, wordEdits: 1000, words: 3 },
)

const runsOf = ({ blocks }: Difference) =>
  blocks.flatMap((block) => (block.kind === 'changed' ? block.runs : []))

describe('compareTexts', () => {
  it('gives back both texts, whatever the limits are', () => {
    fc.assert(
      fc.property(anyText, anyText, tight, (older, newer, limits) => {
        const difference = compareTexts(older, newer, limits)
        expect(textOf(difference, 'older')).toBe(older)
        expect(textOf(difference, 'newer')).toBe(newer)
      }),
      { numRuns: 500 },
    )
  })

  it('finds nothing between equal texts, and something between others', () => {
    fc.assert(
      fc.property(anyText, anyText, tight, (older, newer, limits) => {
        expect(compareTexts(older, older, limits).changes).toBe(0)
        expect(compareTexts(older, newer, limits).changes === 0).toBe(older === newer)
      }),
    )
  })

  it('keeps as many lines as the longest common subsequence has', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), fc.array(line, { maxLength: 8 }), (a, b) => {
        const [older, newer] = [a, b].map((lines) => lines.map((one) => `${one}\n`).join('')) as [
          string,
          string,
        ]
        const kept = compareTexts(older, newer).blocks.reduce(
          (sum, block) => sum + (block.kind === 'kept' ? block.lines : 0),
          0,
        )
        expect(kept).toBe(commonLength(a, b))
      }),
    )
  })

  it('says which words of a line went and which came', () => {
    const before = 'Set the fan to 40 % and wait ten minutes before the lid is closed.\n'
    const after = 'Set the fan to 55 % and wait ten minutes before the lid is closed again.\n'
    expect(runsOf(compareTexts(before, after)).filter(({ fate }) => fate !== 'kept')).toEqual([
      { fate: 'gone', text: '40' },
      { fate: 'come', text: '55' },
      { fate: 'come', text: ' again' },
    ])
  })

  it('puts neighbouring words together instead of taking turns', () => {
    const fates = runsOf(
      compareTexts(
        'Please open the north valve slowly and read the gauge.\n',
        'Please shut both south valves slowly and read the gauge.\n',
      ),
    ).map(({ fate }) => fate)
    expect(fates).toEqual(['kept', 'gone', 'come', 'kept'])
  })

  it('sets wordings that have little in common against each other as wholes', () => {
    const runs = runsOf(compareTexts('alpha beta gamma delta\n', 'one two gamma three four five six seven\n'))
    expect(runs.map(({ fate }) => fate)).toEqual(['gone', 'come'])
  })

  it('falls back to lines where a place changed too much, and says so', () => {
    const before = Array.from({ length: 60 }, (_, at) => `word${at} same`).join(' ')
    const after = Array.from({ length: 60 }, (_, at) => `other${at} same`).join(' ')
    const { blocks } = compareTexts(before, after, { ...usualLimits, wordEdits: 10 })
    expect(blocks).toEqual([
      {
        kind: 'changed',
        isByLines: true,
        runs: [
          { fate: 'gone', text: before },
          { fate: 'come', text: after },
        ],
      },
    ])
  })

  it('keeps what stands before and behind also where the lines cannot be compared, and says so', () => {
    const of = (middle: string) =>
      `head\n${Array.from({ length: 50 }, (_, at) => `${middle} ${at}\n`).join('')}foot\n`
    const difference = compareTexts(of('a'), of('b'), { ...usualLimits, lineEdits: 5 })
    expect(difference.isCoarse).toBe(true)
    expect(difference.blocks.map(({ kind }) => kind)).toEqual(['kept', 'changed', 'kept'])
  })

  it('compares two unlike texts of a megabyte within seconds', () => {
    const of = (seed: number) =>
      Array.from(
        { length: 20_000 },
        (_, at) => `line ${(at * 7919 * seed) % 104_729} of the long log ${seed}\n`,
      ).join('')
    const [older, newer] = [of(3), of(5)]
    const begun = performance.now()
    const difference = compareTexts(older, newer)
    expect(performance.now() - begun).toBeLessThan(15_000)
    expect(textOf(difference, 'newer')).toBe(newer)
  })
})

describe('foldKept', () => {
  it('loses no word and folds only what is far from a change', () => {
    fc.assert(
      fc.property(fc.nat(20), fc.nat(20), (before, behind) => {
        const around = (middle: string) =>
          `${'same\n'.repeat(before)}${middle}\n${'same too\n'.repeat(behind)}`
        const difference = compareTexts(around('old'), around('new'))
        const shown = foldKept(difference.blocks)
        const words = shown.map((block) => (block.kind === 'changed' ? 'new\n' : block.text))
        expect(words.join('')).toBe(around('new'))
        for (const block of shown) if (block.kind === 'folded') expect(block.lines).toBeGreaterThanOrEqual(4)
        expect(shown.filter(({ kind }) => kind === 'folded').length).toBe(
          (before >= 7 ? 1 : 0) + (behind >= 7 ? 1 : 0),
        )
      }),
    )
  })
})

/** Length of the longest common subsequence, by the textbook's table. */
function commonLength(a: readonly string[], b: readonly string[]): number {
  const table = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0))
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      table[i]![j] =
        a[i] === b[j] ? table[i + 1]![j + 1]! + 1 : Math.max(table[i + 1]![j]!, table[i]![j + 1]!)
  return table[0]![0]!
}
