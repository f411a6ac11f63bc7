import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alignTexts, MOST_LENGTH } from '../../../../../shared/provenance/alignment/alignTexts.ts'
import { inOrder, type Anchor } from '../../../../../shared/provenance/alignment/anchors.ts'
import { none, type TextAlignment } from '../../../../../shared/provenance/alignment/partners.ts'

const words = ['probe', 'rack', 'fan', 'dome', 'key', 'logger', 'card', '----', '`', '.', '2', 'ü']
const blanks = [' ', '\n', '\n\n']
const texts = fc
  .array(fc.tuple(fc.constantFrom(...words), fc.constantFrom(...blanks)), { maxLength: 60 })
  .map((pairs) => pairs.flat().join(''))

/** A text of so many lines of the logger, every one of which stands once. */
const lines = (count: number, offset = 0): string[] =>
  Array.from(
    { length: count },
    (_, i) => `${i + offset}. The logger read ${i * 7 + offset} at probe ${i % 9}.`,
  )

function wordsOf(text: string, { starts, ends }: TextAlignment['older'], token: number): string {
  return text.slice(starts[token], ends[token])
}

/** The older text's tokens that have partners, in the words of both texts. */
function pairsOf(older: string, newer: string): { alignment: TextAlignment; pairs: [string, string][] } {
  const alignment = alignTexts(older, newer)!
  const pairs = [...alignment.partners].flatMap((to, from): [string, string][] =>
    to === none ? [] : [[wordsOf(older, alignment.older, from), wordsOf(newer, alignment.newer, to)]],
  )
  return { alignment, pairs }
}

describe('the alignment of two texts', () => {
  it('pairs only equal words, each with one, and says the same from both sides', () => {
    fc.assert(
      fc.property(texts, texts, (older, newer) => {
        const { alignment, pairs } = pairsOf(older, newer)
        for (const [there, here] of pairs) expect(here).toBe(there)
        alignment.partners.forEach((to, from) => {
          if (to !== none) expect(alignment.origins[to]).toBe(from)
        })
        const count = (side: Int32Array): number => side.filter((token) => token !== none).length
        expect(count(alignment.origins)).toBe(count(alignment.partners))
      }),
    )
  })

  it('keeps the order of all but what was moved', () => {
    fc.assert(
      fc.property(texts, texts, (older, newer) => {
        const { alignment } = pairsOf(older, newer)
        const inPlace = [...alignment.partners].filter((to, from) => to !== none && !alignment.moved[from])
        expect(inPlace).toEqual([...inPlace].sort((a, b) => a - b))
      }),
    )
  })

  it('pairs every word of a text with itself, however often it stands there', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const { partners } = alignTexts(text, text)!
        expect([...partners]).toEqual([...partners.keys()])
      }),
    )
    const long = 'Press the button.\n'.repeat(20_000)
    const { partners, isComplete } = alignTexts(long, long)!
    expect(isComplete).toBe(true)
    expect(partners.every((to, from) => to === from)).toBe(true)
  })

  it('pairs all that is left of long texts from which lines were taken away and to which others were added', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(399), { maxLength: 40 }), fc.nat(399), (taken, at) => {
        const gone = new Set(taken)
        const kept = lines(400).filter((_, i) => !gone.has(i))
        const added = 'Somebody wrote quite another thing in between here, in the evening.'
        const older = lines(400).join('\n')
        const { alignment } = pairsOf(older, kept.toSpliced(Math.min(at, kept.length), 0, added).join('\n'))
        lines(400).forEach((line, i) => {
          if (gone.has(i)) return
          const start = older.indexOf(line)
          const { starts, ends } = alignment.older
          for (let token = 0; token < starts.length; token++)
            if (starts[token]! >= start && ends[token]! <= start + line.length)
              expect(alignment.partners[token]).not.toBe(none)
        })
      }),
      { numRuns: 15 },
    )
  })

  it('finds paragraphs that were moved', () => {
    const [first, second] = [lines(30).join('\n'), lines(40, 1000).join('\n')]
    const { alignment } = pairsOf(`${first}\n\n${second}`, `${second}\n\n${first}`)
    expect(alignment.partners.every((to) => to !== none)).toBe(true)
    expect(alignment.moved.some((moved) => moved === 1)).toBe(true)
  })

  it('takes no word for another by chance in a stretch that was written anew', () => {
    const [first, last] = ['The clock is set every Sunday.', 'The dome is closed before rain.']
    const older = `${first}\n\nTake the key of the upper rack, and lay the probe beside the fan of the mast.\n\n${last}`
    const newer = `${first}\n\nA volunteer who comes for the first time is shown around; nobody needs to know our rules by heart, and everyone signs the long list.\n\n${last}`
    const { pairs } = pairsOf(older, newer)
    expect(pairs.map(([there]) => there).join(' ')).toBe(
      'The clock is set every Sunday . . The dome is closed before rain .',
    )
  })

  it('says where it gave up, and gives nothing for texts that are too long', () => {
    const one = Array.from({ length: 4000 }, (_, i) => words[(i * i) % 7]).join(' ')
    const other = Array.from({ length: 4000 }, (_, i) => words[(i * i * i + 3) % 8]).join(' ')
    expect(alignTexts(`fan ${one}`, `dome ${other}`)!.isComplete).toBe(false)
    const half = 'x '.repeat(MOST_LENGTH / 4)
    expect(alignTexts(half, half)!.isComplete).toBe(true)
    expect(alignTexts(half, `${half}y`)).toBe(null)
  })

  it('lays two texts of a megabyte side by side without keeping anybody waiting', () => {
    const older = lines(24_000)
    const newer = older.flatMap((line, i) =>
      i % 50 === 0 ? [] : i % 70 === 0 ? [line, `${line} Twice.`] : line,
    )
    const begun = performance.now()
    const alignment = alignTexts(older.join('\n'), newer.join('\n'))!
    expect(performance.now() - begun).toBeLessThan(6000)
    expect(older.join('\n').length).toBeGreaterThan(900_000)
    expect(alignment.isComplete).toBe(true)
  })
})

describe('anchors that cross each other', () => {
  it('give way to those that weigh most together, as trying all of them finds', () => {
    const anchors = fc
      .uniqueArray(fc.nat(9), { maxLength: 8 })
      .chain((places) =>
        fc.tuple(
          fc.constant(places),
          fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 8, maxLength: 8 }),
        ),
      )
      .map(([places, weights]) =>
        places.map((to, from): Anchor => ({ from, to, length: 1, weight: weights[from]! })),
      )
    fc.assert(
      fc.property(anchors, (all) => {
        const chain = inOrder(all, { start: 0, end: 10 })
        chain.slice(1).forEach(({ from, to }, i) => {
          expect(from).toBeGreaterThan(chain[i]!.from)
          expect(to).toBeGreaterThan(chain[i]!.to)
        })
        expect(weigh(chain)).toBe(heaviest(all))
      }),
    )
  })

  const weigh = (anchors: readonly Anchor[]): number => anchors.reduce((sum, { weight }) => sum + weight, 0)

  /** Of all subsets. */
  function heaviest(anchors: readonly Anchor[]): number {
    let most = 0
    for (let chosen = 0; chosen < 2 ** anchors.length; chosen++) {
      const subset = anchors.filter((_, i) => chosen & (1 << i))
      if (subset.every(({ to }, i) => i === 0 || subset[i - 1]!.to < to)) most = Math.max(most, weigh(subset))
    }
    return most
  }
})
