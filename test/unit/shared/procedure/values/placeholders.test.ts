import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseMarkdown } from '../../../../../shared/markdown/parse.ts'
import { wordsOf } from '../../../../../shared/markdown/words.ts'
import { serialiseMarkdown } from '../../../../../shared/export/serialise.ts'
import { findOccurrences } from '../../../../../shared/procedure/values/occurrences.ts'
import {
  escapePlaceholders,
  fillPlaceholders,
  isPlaceholderName,
  needsEscape,
  placeholdersIn,
  putPlaceholder,
  renamePlaceholder,
  toFilled,
  toFilledRange,
  toPlaceholder,
  toPlaceholderName,
  toSource,
  toSourceRange,
  withoutPlaceholders,
} from '../../../../../shared/procedure/values/placeholders.ts'
import { valueTypes } from '../../../../../shared/procedure/values/types.ts'
import { wordsOf as shellWordsOf } from '../../../../../shared/shell/commands.ts'

const none = new Map<string, string>()
const name = fc.constantFrom('host', 'new-host', 'a', 'größe', 'disk_2')
const value = fc.constantFrom('192.0.2.10', '', '⁅', '⁅host⁆', 'a b', 'x')
/** Texts with much of the syntax in them, whole and broken. */
const text = fc
  .array(
    fc.oneof(
      fc.constantFrom('⁅', '⁆', '⁅⁅', '⁅host⁆', '⁅new-host⁆', '⁅a b⁆', '192.0.2.10', ' ', '\n', '`', '😀'),
      fc.string({ maxLength: 4 }),
    ),
  )
  .map((parts) => parts.join(''))
const values = fc.array(fc.tuple(name, value)).map((pairs) => new Map(pairs))

describe('placeholders', () => {
  it('are found in text order with their places', () => {
    expect(placeholdersIn('ping ⁅host⁆ # 😀 ⁅größe⁆')).toEqual([
      { start: 5, end: 11, name: 'host' },
      { start: 17, end: 24, name: 'größe' },
    ])
  })

  it.each(['⁅⁆', '⁅ host⁆', '⁅2nd⁆', '⁅a b⁆', '⁅⁅host⁆', '⁅host', 'host⁆', `⁅${'a'.repeat(41)}⁆`])(
    'are not seen in %s',
    (broken) => {
      expect(placeholdersIn(broken)).toEqual([])
    },
  )

  it('stand behind a sign that was doubled', () => {
    expect(placeholdersIn('⁅⁅⁅host⁆')).toEqual([{ start: 2, end: 8, name: 'host' }])
    expect(fillPlaceholders('⁅⁅⁅host⁆', new Map([['host', 'gate']])).text).toBe('⁅gate')
  })

  it('keep what has no value and name it once', () => {
    expect(fillPlaceholders('⁅a⁆ ⁅b⁆ ⁅a⁆', new Map([['b', '1']]))).toMatchObject({
      text: '⁅a⁆ 1 ⁅a⁆',
      missing: ['a'],
    })
  })

  it('do not join with a sign that stood alone before them', () => {
    const made = putPlaceholder('⁅192.0.2.10', [{ start: 1, end: 11 }], 'host')
    expect(fillPlaceholders(made, new Map([['host', '192.0.2.10']])).text).toBe('⁅192.0.2.10')
    expect(() => putPlaceholder('⁅⁅a', [{ start: 1, end: 3 }], 'host')).toThrow(RangeError)
  })

  it('are not looked for in the values', () => {
    expect(
      fillPlaceholders(
        '⁅a⁆⁅b⁆',
        new Map([
          ['a', '⁅b⁆'],
          ['b', '⁅⁅'],
        ]),
      ).text,
    ).toBe('⁅b⁆⁅⁅')
  })

  it('are words of a command as the shell reads it, and nothing to Markdown', () => {
    expect(shellWordsOf('scp -P ⁅port⁆ ⁅user⁆@⁅host⁆:/srv .').map((word) => word.value)).toEqual([
      'scp',
      '-P',
      '⁅port⁆',
      '⁅user⁆@⁅host⁆:/srv',
      '.',
    ])
    const markdown = 'Log in to **⁅new_host⁆** at ⁅disk_2⁆, then `ping ⁅host⁆`.\n'
    expect(wordsOf(parseMarkdown(markdown)).trim()).toBe(
      'Log in to ⁅new_host⁆ at ⁅disk_2⁆, then ping ⁅host⁆.',
    )
    expect(placeholdersIn(serialiseMarkdown(parseMarkdown(markdown)))).toHaveLength(3)
  })

  it('take names that people give', () => {
    expect(toPlaceholderName('New host')).toBe('new-host')
    expect(toPlaceholderName(' 2nd Disk (SSD) ')).toBe('nd-disk-ssd')
    expect(toPlaceholderName('!')).toBe('')
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (words) => {
        const made = toPlaceholderName(words)
        expect(made === '' || isPlaceholderName(made)).toBe(true)
        if (isPlaceholderName(made)) expect(placeholdersIn(toPlaceholder(made))).toHaveLength(1)
      }),
    )
  })

  it('refuse a name that is none', () => {
    expect(() => toPlaceholder('a b')).toThrow(RangeError)
    expect(() =>
      putPlaceholder(
        'abc',
        [
          { start: 2, end: 3 },
          { start: 0, end: 1 },
        ],
        'a',
      ),
    ).toThrow(RangeError)
  })
})

describe('laws of placeholders', () => {
  it('escaping and filling give the text back, and leave nothing to be seen', () => {
    fc.assert(
      fc.property(text, values, (any, filling) => {
        const escaped = escapePlaceholders(any)
        expect(placeholdersIn(escaped)).toEqual([])
        expect(fillPlaceholders(escaped, filling).text).toBe(any)
        expect(needsEscape(any) || fillPlaceholders(any, filling).text === any).toBe(true)
      }),
    )
  })

  it('making a parameter of occurrences and filling with the same value changes nothing', () => {
    fc.assert(
      fc.property(
        text,
        fc.constantFrom('192.0.2.10', 'x', ' ', '😀', '⁅', 'st'),
        fc.constantFrom(...valueTypes),
        (any, one, type) => {
          const ranges = findOccurrences(any, one, type).filter((found) => found.standing !== 'other writing')
          const made = putPlaceholder(any, ranges, 'fresh')
          const carried = new Map([['fresh', one]])
          expect(withoutPlaceholders(made, carried).text).toBe(fillPlaceholders(any, none).text)
        },
      ),
    )
  })

  it('pieces cover both texts without gaps', () => {
    fc.assert(
      fc.property(text, values, (any, filling) => {
        const filled = fillPlaceholders(any, filling)
        let [source, target] = [0, 0]
        for (const piece of filled.pieces) {
          expect([piece.source.start, piece.filled.start]).toEqual([source, target])
          if (piece.kind === 'text')
            expect(any.slice(piece.source.start, piece.source.end)).toBe(
              filled.text.slice(piece.filled.start, piece.filled.end),
            )
          ;[source, target] = [piece.source.end, piece.filled.end]
        }
        expect([source, target]).toEqual([any.length, filled.text.length])
      }),
    )
  })

  it('places map there and back, exactly outside of placeholders and to their edges within', () => {
    fc.assert(
      fc.property(text, values, fc.nat(), (any, filling, pick) => {
        const filled = fillPlaceholders(any, filling)
        const at = pick % (any.length + 1)
        for (const side of [-1, 1] as const) {
          const there = toFilled(filled, at, side)
          expect(there).toBeGreaterThanOrEqual(0)
          expect(there).toBeLessThanOrEqual(filled.text.length)
          const piece = filled.pieces.find(
            (one) => one.source.start < at && at < one.source.end && one.kind !== 'text',
          )
          const wanted = piece ? (side < 0 ? piece.source.start : piece.source.end) : at
          // Where values are empty several places of the source fall together; both sides then enclose the place.
          const [low, high] = [toSource(filled, there, -1), toSource(filled, there, 1)]
          expect(low <= wanted && wanted <= high).toBe(true)
          if (![...filling.values()].includes('')) expect([low, high]).toEqual([wanted, wanted])
        }
      }),
    )
  })

  it('ranges widen to whole placeholders, and never lose a character', () => {
    fc.assert(
      fc.property(text, values, fc.nat(), fc.nat(), (any, filling, a, b) => {
        const filled = fillPlaceholders(any, filling)
        const [start, end] = [a % (any.length + 1), b % (any.length + 1)].sort((x, y) => x - y) as [
          number,
          number,
        ]
        const back = toSourceRange(filled, toFilledRange(filled, { start, end }))
        expect(back.start).toBeLessThanOrEqual(start)
        expect(back.end).toBeGreaterThanOrEqual(end)
      }),
    )
  })

  it('renaming there and back changes nothing', () => {
    fc.assert(
      fc.property(text, (any) => {
        expect(renamePlaceholder(renamePlaceholder(any, 'host', 'fresh'), 'fresh', 'host')).toBe(any)
      }),
    )
  })
})
