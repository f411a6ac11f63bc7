import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  isFunctionWord,
  LONGEST_TOKEN,
  termsOfWord,
  toStem,
  toTokens,
} from '../../../../shared/find/tokens.ts'

const written = (text: string): string[] => toTokens(text).map((token) => token.written)

describe('tokens', () => {
  it.each([
    ['/etc/network/interfaces', ['/etc/network/interfaces', 'etc', 'network', toStem('interfaces')]],
    ['--dry-run', ['--dry-run', 'dry', 'run']],
    ['eth0', ['eth0', 'eth']],
    ['foo_bar.service', ['foo_bar.service', 'foo', 'bar', toStem('service')]],
    ['2.38.1', ['2.38.1', '2.38']],
    ['v2.38.1', ['v2.38.1', '2.38']],
    ['NetworkManager', ['networkmanager', 'network', toStem('manager')]],
    ['192.0.2.10', ['192.0.2.10', '192.0', '192.0.2']],
    ['c++', ['c++']],
    ['443', ['443']],
  ])('keep %s whole and split it', (word, terms) => {
    const [token, ...more] = toTokens(`Look at ${word}, then go on.`).slice(2)
    expect(token!.written).toBe(word)
    expect(token!.terms).toEqual(terms)
    expect(more.map((other) => other.written)).toEqual(['then', 'go', 'on'])
  })

  it('leave punctuation, quotes and marks of Markdown out', () => {
    expect(
      written('# The **logger’s** "log" (see [the page](https://wx.example.org/log)); `ntpd -q`.'),
    ).toEqual(['The', 'logger', 'log', 'see', 'the', 'page', 'https://wx.example.org/log', 'ntpd', '-q'])
  })

  it('leave out runs that are no words', () => {
    expect(written(`key ${'x'.repeat(LONGEST_TOKEN + 1)} end`)).toEqual(['key', 'end'])
  })

  it('find words of other scripts, and compatibility forms as one word', () => {
    expect(written('Überwachung für 監視 и сеть')).toEqual(['Überwachung', 'für', '監視', 'и', 'сеть'])
    expect(termsOfWord('ﬁle')).toEqual(termsOfWord('file'))
  })

  it('stand where they say, in order and apart', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (text) => {
        let last = 0
        for (const { written: word, start, end, terms } of toTokens(text)) {
          expect(text.slice(start, end)).toBe(word)
          expect(start).toBeGreaterThanOrEqual(last)
          expect(terms.length).toBeGreaterThan(0)
          expect(new Set(terms).size).toBe(terms.length)
          last = end
        }
      }),
    )
  })

  it('take time in proportion to the text, whatever stands in it', () => {
    /** The shortest of five runs: whatever else the machine does only makes it longer. */
    const timeOf = (text: string): number => {
      const times = Array.from({ length: 5 }, () => {
        const start = performance.now()
        toTokens(text)
        return performance.now() - start
      })
      return Math.min(...times)
    }
    for (const piece of ['-', '/', '.', "'", '_a', '-- ', '#+']) {
      const ratio = timeOf(piece.repeat(100_000)) / Math.max(0.2, timeOf(piece.repeat(10_000)))
      expect(ratio, piece).toBeLessThan(50)
    }
  })
})

describe('stems', () => {
  it('make one of the forms of a word', () => {
    for (const [one, other] of [
      ['monitors', 'monitoring'],
      ['configuration', 'configurations'],
      ['server', 'servers'],
      ['libraries', 'library'],
    ] as const)
      expect(toStem(one), one).toBe(toStem(other))
  })

  it('leave short words and those of other alphabets alone', () => {
    for (const word of ['gas', 'dns', 'über', 'сервер', 'ipv6']) expect(toStem(word)).toBe(word)
  })

  it('are never shorter than three letters', () => {
    fc.assert(fc.property(fc.stringMatching(/^[a-z]{3,12}$/), (word) => toStem(word).length >= 3))
  })
})

it('function words are known in English and German', () => {
  expect(['the', 'with', 'und', 'nicht'].every(isFunctionWord)).toBe(true)
  expect(['network', 'c', 'zeit'].some(isFunctionWord)).toBe(false)
})
