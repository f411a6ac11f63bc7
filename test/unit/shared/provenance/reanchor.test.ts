import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Range } from '../../../../shared/lab/model.ts'
import { alignTexts } from '../../../../shared/provenance/alignment/alignTexts.ts'
import { LEAST_SCORE, LEAST_SCORE_ALIGNED, reanchor } from '../../../../shared/provenance/reanchor.ts'
import { makeSelector } from '../../../../shared/provenance/selectors.ts'

/** Paragraphs of the observatory's own, all different. */
const paragraphs = [
  'The logger writes one line a minute to the card, and the card is read out on Sundays.',
  'When the fan of the upper rack stops, the readings of the third probe drift by two degrees.',
  'Take the dome key from the hook behind the door before you climb to the mast.',
  'Set the clock of the logger by the time server; it must not be off by more than a second.',
  'Write the date of the readings on the card with a soft pencil, never on its contacts.',
]
const text = paragraphs.join('\n\n')
const rangeOf = (whole: string, words: string): Range => {
  const start = whole.indexOf(words)
  return { start, end: start + words.length }
}
const wordsAt = (whole: string, found: ReturnType<typeof reanchor>): string | null =>
  found && whole.slice(found.range.start, found.range.end)
const find = (words: string, now: string, then = text) =>
  reanchor(now, makeSelector(then, rangeOf(then, words)))

describe('a carried stretch in a text that changed', () => {
  it('is where it was in the same text, with the highest score, also where the words stand often', () => {
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.integer({ min: 1, max: 120 }), (start, length) => {
        const range = { start, end: Math.min(text.length, start + length) }
        expect(reanchor(text, makeSelector(text, range))).toEqual({ range, score: 1 })
      }),
    )
  })

  it('is found wherever its paragraph was moved to', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(paragraphs, { minLength: 3 }), fc.nat(4), (order, which) => {
        const words = paragraphs[which]!.slice(4, 60)
        const now = order.join('\n\n')
        const place = now.includes(words) ? rangeOf(now, words) : null
        expect(find(words, now)?.range ?? null).toEqual(place)
      }),
    )
  })

  it('is found where words of it were replaced, with edges where the words around it go on', () => {
    const now = text.replace('dome key from the hook', 'key of the dome from the peg')
    const found = find('Take the dome key from the hook behind the door', now)
    expect(wordsAt(now, found)).toBe('Take the key of the dome from the peg behind the door')
    expect(found!.score).toBeGreaterThanOrEqual(LEAST_SCORE)
    expect(found!.score).toBeLessThan(1)
  })

  it('is found where its first or its last word was replaced', () => {
    const first = text.replace('Take the dome key', 'Fetch the dome key')
    expect(wordsAt(first, find('Take the dome key from the hook', first))).toBe(
      'Fetch the dome key from the hook',
    )
    const last = text.replace('to the mast', 'to the platform')
    expect(wordsAt(last, find('before you climb to the mast', last))).toBe('before you climb to the platform')
  })

  it('is not taken for another one that stands in its place, nor for its like elsewhere', () => {
    expect(find('the third probe', text.replace('the third probe', 'our old cable'))).toBe(null)
    expect(find(paragraphs[2]!, paragraphs.toSpliced(2, 1).join('\n\n'))).toBe(null)
    expect(find('key', 'A key opens it.')).toBe(null)
  })

  it('is told apart from its like by what stood around it, however far away, else by its very position alone', () => {
    const step = 'Press the button.\nWait for the lamp.\nPress the button.\n'
    const then = `First the pump.\n${step.repeat(3)}Then the valve.\n${step.repeat(3)}`
    const third = then.indexOf('Wait', then.indexOf('valve'))
    const selector = makeSelector(then, { start: third, end: third + 18 })
    expect(reanchor(`Note.\n${then}`, selector)?.range.start).toBe(third + 6)
    const alike = step.repeat(60)
    const within = makeSelector(alike, { start: 1800, end: 1817 })
    expect(reanchor(alike, within)?.range.start).toBe(1800)
    expect(reanchor(step.slice(0, 18) + alike, within)).toBe(null)
  })

  it('is found again when signs alone were carried only between all that stood around them', () => {
    const then = 'first\n----\nsecond part\n----\nthird part\n'
    const rule = makeSelector(then, { start: 23, end: 27 })
    expect(reanchor(`${then}----\n`, rule)?.range).toEqual({ start: 23, end: 27 })
    expect(reanchor(then.replace('third part', 'another'), rule)).toBe(null)
  })

  it('is found however long it is, with much put in between, and by lines where words would be too many', () => {
    const line = (i: number): string =>
      `${i}. Read probe ${i * 7} of shelf ${i % 9} and note ${i * i} in the book.\n`
    const long = Array.from({ length: 900 }, (_, i) => line(i)).join('')
    const range = { start: long.indexOf(line(100)), end: long.indexOf(line(700)) - 1 }
    const changed = long
      .replace(line(300), `${line(300)}Then rest a while, and look at the sky.\n`.repeat(3))
      .replace(line(650), '')
    const now = `A page more at the start.\n${changed}`
    const found = reanchor(now, makeSelector(long, range))
    expect(found?.range).toEqual({ start: now.indexOf(line(100)), end: now.indexOf(line(700)) - 1 })
    expect(found!.score).toBeGreaterThan(0.9)
  })

  it('gives nothing for words that a text of anything else does not hold', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 400 }), (other) => {
        expect(find('the readings of the third probe drift by two degrees', other)).toBe(null)
      }),
    )
  })
})

describe('a carried stretch of a text that is known, in a text that changed', () => {
  const findKnown = (range: Range, then: string, now: string) =>
    reanchor(now, makeSelector(then, range), alignTexts(then, now))
  const findWords = (words: string, now: string, then = text) => findKnown(rangeOf(then, words), then, now)

  it('is where it was in the same text, with the highest score, also where the words stand often', () => {
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.integer({ min: 1, max: 120 }), (start, length) => {
        const range = { start, end: Math.min(text.length, start + length) }
        const isBlank = text.slice(range.start, range.end).trim() === ''
        expect(findKnown(range, text, text)).toEqual(isBlank ? null : { range, score: 1 })
      }),
    )
  })

  const step = 'Press the button.\nWait for the lamp.\n'
  const copies = step.repeat(60)
  const place = (copy: number): Range => ({ start: copy * step.length, end: copy * step.length + 17 })

  it('is the copy that was carried where its words stand often, with nothing around it that differs', () => {
    expect(reanchor(copies, makeSelector(copies, place(20)))?.range).toEqual(place(20))
    const now = `First the pump.\n${copies}`
    expect(reanchor(now, makeSelector(copies, place(20)))).toBe(null)
    const found = findKnown(place(20), copies, now)!
    expect(found.range).toEqual({ start: place(20).start + 16, end: place(20).end + 16 })
  })

  it('is gone where its copy was taken away, however many others are left', () => {
    const chapter = (name: string): string => `The ${name} is looked after.\nWrite the date on the card.\n`
    const then = ['mast', 'dome', 'rack'].map(chapter).join('\n')
    const now = [chapter('mast'), chapter('rack')].join('\n')
    const copy = then.indexOf('Write', then.indexOf('dome'))
    const range = { start: copy, end: copy + 27 }
    expect(findKnown(range, then, now)).toBe(null)
    const last = then.lastIndexOf('Write')
    expect(findKnown({ start: last, end: last + 27 }, then, now)?.range.start).toBe(now.lastIndexOf('Write'))
  })

  it('is found wherever its paragraph was moved to', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(paragraphs, { minLength: 3 }), fc.nat(4), (order, which) => {
        const now = order.join('\n\n')
        const there = now.includes(paragraphs[which]!) ? rangeOf(now, paragraphs[which]!) : null
        expect(findWords(paragraphs[which]!, now)?.range ?? null).toEqual(there)
      }),
    )
  })

  it('is not found in words that are others of the text of then, though they are the only ones of their kind', () => {
    const note = 'Write the date of the readings on the card.'
    const [then, now] = [`Mast.\n\n${note}\n\nDome.\n\n${note}\n`, `Mast.\n\nDome.\n\n${note}\n`]
    const last = { start: then.lastIndexOf(note), end: then.lastIndexOf(note) + note.length }
    expect(findKnown(rangeOf(then, note), then, now)).toBe(null)
    expect(findKnown(last, then, now)?.range).toEqual(rangeOf(now, note))
  })

  it('reaches over words put in the place of its first, inner and last ones', () => {
    const now = text
      .replace('Take the dome key', 'Fetch the dome key')
      .replace('from the hook', 'and the lamp from the peg')
      .replace('to the mast.', 'to the platform!')
    const found = findWords(paragraphs[2]!, now)
    expect(wordsAt(now, found)).toBe(
      'Fetch the dome key and the lamp from the peg behind the door before you climb to the platform!',
    )
    expect(found!.score).toBeGreaterThanOrEqual(LEAST_SCORE_ALIGNED)
    expect(found!.score).toBeLessThan(1)
  })

  it('is not taken for another one that stands in its place', () => {
    expect(findWords('the third probe', text.replace('the third probe', 'our old cable'))).toBe(null)
    const rewritten = paragraphs.toSpliced(
      2,
      1,
      'Nobody climbs when the wind is strong; look at the vane first.',
    )
    expect(findWords(paragraphs[2]!, rewritten.join('\n\n'))).toBe(null)
  })

  it('is looked for by its quote where the texts are too long to be laid side by side', () => {
    const long = 'The lamp is on and off and on again. '.repeat(40_000)
    const [then, now] = [`${long}\n${text}`, `${text}\n${long}`]
    const range = rangeOf(then, paragraphs[1]!)
    expect(alignTexts(then, now)).toBe(null)
    expect(wordsAt(now, findKnown(range, then, now))).toBe(paragraphs[1])
  })
})
