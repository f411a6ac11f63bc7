import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { pageIndexAt, pageWords } from '../../../../shared/sources/pages.ts'

const pages = [
  { start: 0, label: 'iv' },
  { start: 10, label: '1' },
  { start: 10, label: '2' },
  { start: 25, label: '3' },
]

describe('pageIndexAt', () => {
  it('is the last page that begins at or before the position, as a plain walk finds it', () => {
    const starts = fc.array(fc.nat(200), { maxLength: 30 }).map((all) => all.sort((a, b) => a - b))
    fc.assert(
      fc.property(starts, fc.nat(220), (all, position) => {
        const some = all.map((start, at) => ({ start, label: String(at + 1) }))
        let expected = -1
        some.forEach(({ start }, at) => {
          if (start <= position) expected = at
        })
        expect(pageIndexAt(some, position)).toBe(expected)
      }),
    )
  })

  it('goes by the label that is printed, and knows none without pages', () => {
    expect(pages[pageIndexAt(pages, 9)]?.label).toBe('iv')
    expect(pages[pageIndexAt(pages, 10)]?.label).toBe('2')
    expect(pageIndexAt([], 3)).toBe(-1)
  })
})

describe('pageWords', () => {
  it('names one page, a span, and several', () => {
    expect(pageWords(pages, [{ start: 26, end: 30 }])).toBe('page 3')
    expect(pageWords(pages, [{ start: 3, end: 26 }])).toBe('pages iv to 3')
    expect(
      pageWords(pages, [
        { start: 26, end: 30 },
        { start: 2, end: 4 },
      ]),
    ).toBe('pages iv and 3')
  })

  it('does not count a page that begins where the words end', () => {
    expect(pageWords(pages, [{ start: 12, end: 25 }])).toBe('page 2')
  })

  it('says nothing of documents without pages', () => {
    expect(pageWords([], [{ start: 1, end: 2 }])).toBeNull()
    expect(pageWords(pages, [])).toBeNull()
  })
})
