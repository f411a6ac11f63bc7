import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ByteReader, ByteWriter } from '../../../../../shared/find/index/bytes.ts'
import { Dictionary, writeDictionary } from '../../../../../shared/find/index/dictionary.ts'
import { findNearWords } from '../../../../../shared/find/index/near-words.ts'

const words = fc.string({ unit: fc.constantFrom(...'abcde/é\u{1F5A5}'), maxLength: 8 })
const sorted = (strings: readonly string[]): string[] =>
  [...new Set(strings)].sort((one, other) => (one < other ? -1 : 1))

function dictionaryOf(strings: readonly string[]): Dictionary {
  const into = new ByteWriter()
  writeDictionary(strings, into)
  return new Dictionary(into.done())
}

describe('numbers', () => {
  it('are read as they were written, one behind the other', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(0xffffffff)), (numbers) => {
        const into = new ByteWriter(1)
        for (const number of numbers) into.number(number)
        const reader = new ByteReader(into.done())
        expect(numbers.map(() => reader.number())).toEqual(numbers)
      }),
    )
  })
})

describe('a dictionary', () => {
  it('gives back every string, finds it, and finds no other', () => {
    fc.assert(
      fc.property(fc.array(words, { maxLength: 200 }), words, (strings, other) => {
        const all = sorted(strings)
        const dictionary = dictionaryOf(all)
        expect([...dictionary]).toEqual(all)
        expect(all.map((_, at) => dictionary.get(at))).toEqual(all)
        expect(all.map((string) => dictionary.find(string))).toEqual(all.map((_, at) => at))
        expect(dictionary.find(other)).toBe(all.indexOf(other))
      }),
    )
  })

  it('knows where the strings with a beginning stand', () => {
    fc.assert(
      fc.property(fc.array(words, { maxLength: 200 }), words, (strings, beginning) => {
        const all = sorted(strings)
        const [start, end] = dictionaryOf(all).range(beginning)
        expect(all.slice(start, end)).toEqual(all.filter((string) => string.startsWith(beginning)))
      }),
    )
  })
})

/** Optimal string alignment, written down as the recurrence stands in the literature. */
function distance(one: string, other: string): number {
  const known = new Map<string, number>()
  const of = (i: number, j: number): number => {
    if (i === 0 || j === 0) return i + j
    const key = `${i} ${j}`
    const before = known.get(key)
    if (before !== undefined) return before
    let least = Math.min(
      of(i - 1, j) + 1,
      of(i, j - 1) + 1,
      of(i - 1, j - 1) + (one[i - 1] === other[j - 1] ? 0 : 1),
    )
    if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1])
      least = Math.min(least, of(i - 2, j - 2) + 1)
    known.set(key, least)
    return least
  }
  return of(one.length, other.length)
}

describe('near words', () => {
  const letters = fc.string({ unit: fc.constantFrom(...'abc'), minLength: 4, maxLength: 9 })
  const lists = fc.array(fc.string({ unit: fc.constantFrom(...'abc'), maxLength: 11 }), { maxLength: 150 })

  it('are those within the distance, and no others', () => {
    fc.assert(
      fc.property(lists, letters, fc.constantFrom(1, 2), (strings, word, most) => {
        const all = sorted(strings)
        const found = findNearWords(dictionaryOf(all), word, most, false)
        const wanted = all
          .map((string, at) => ({ at, distance: distance(word, string) }))
          .filter((near) => near.distance > 0 && near.distance <= most)
        expect(found).toEqual(wanted)
      }),
    )
  })

  it('of a beginning are those that are near, or of which a beginning as long or longer is', () => {
    fc.assert(
      fc.property(lists, letters, fc.constantFrom(1, 2), (strings, word, most) => {
        const all = sorted(strings)
        const found = findNearWords(dictionaryOf(all), word, most, true)
        const nearest = (string: string): number =>
          Math.min(
            distance(word, string),
            ...[0, 1, 2].flatMap((more) =>
              string.length < word.length + more ? [] : [distance(word, string.slice(0, word.length + more))],
            ),
          )
        const wanted = all
          .map((string, at) => ({ at, distance: nearest(string) }))
          .filter((near) => near.distance > 0 && near.distance <= most)
        expect(found).toEqual(wanted)
      }),
    )
  })

  it('are words of letters', () => {
    const all = sorted(['eth0', 'ethx', 'etha', 'et-h', 'ether'])
    const found = findNearWords(dictionaryOf(all), 'ethe', 1, false)
    expect(found.map(({ at }) => all[at])).toEqual(['etha', 'ether', 'ethx'])
  })
})
