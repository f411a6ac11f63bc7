/** The laws of tidying, on raw typing of all kinds. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { doubtsOf } from '../../../../../shared/journal/tidy/doubts.ts'
import { applyEdits, tidy } from '../../../../../shared/journal/tidy/tidy.ts'
import { tidyOnce } from '../../../../../shared/journal/tidy/tidy.ts'
import { anything, raw, type Raw } from './raw.ts'

const runs = Number(process.env['FC_RUNS'] ?? 400)

/** Whether a line is the one wanted, with its prompt or without it. */
const isLine = (line: string, wanted: string): boolean =>
  line === wanted ||
  (line.endsWith(wanted) && /^\S.*[$#%] $/u.test(line.slice(0, line.length - wanted.length))) ||
  line === `$ ${wanted}` ||
  line === `# ${wanted}`

/** The first wanted line that does not stand whole and in order. */
function firstLost(text: string, wanted: readonly string[]): string | undefined {
  const lines = text.split('\n')
  let at = 0
  return wanted.find((one) => {
    while (at < lines.length && !isLine(lines[at]!, one)) at += 1
    at += 1
    return at > lines.length
  })
}

const withSubset = fc.tuple(raw, fc.infiniteStream(fc.boolean())).map(([text, coins]) => ({ ...text, coins }))

describe('tidying', () => {
  it('finds in the raw texts of these tests what must survive', () => {
    fc.assert(
      fc.property(raw, ({ text, machine }: Raw) => {
        expect(firstLost(text, machine)).toBeUndefined()
      }),
    )
  })

  it('keeps every line of commands and answers whole and in order, whichever edits are taken', () => {
    fc.assert(
      fc.property(withSubset, ({ text, machine, coins }) => {
        const { text: all, edits } = tidy(text)
        expect(firstLost(all, machine)).toBeUndefined()
        const some = edits.filter(() => coins.next().value)
        expect(firstLost(applyEdits(text, some), machine)).toBeUndefined()
      }),
      { numRuns: runs },
    )
  })

  it('changes nothing on a second pass, without giving up on the first', () => {
    fc.assert(
      fc.property(raw, ({ text }) => {
        expect(tidyOnce(tidyOnce(text).text).edits).toEqual([])
      }),
      { numRuns: runs },
    )
  })

  it('changes nothing on a second pass of any text', () => {
    fc.assert(
      fc.property(anything, (text) => {
        expect(tidy(tidy(text).text).edits).toEqual([])
      }),
      { numRuns: runs },
    )
  })

  it('says what it was unsure of, and changes no character of that', () => {
    expect(doubtsOf('Seen there:\n\nfan    12   ok\nWe go on.').map(({ text }) => text)).toEqual([
      'fan    12   ok',
    ])
    let count = 0
    fc.assert(
      fc.property(withSubset, ({ text, coins }) => {
        const { edits } = tidy(text)
        const after = applyEdits(
          text,
          edits.filter(() => coins.next().value),
        ).split('\n')
        const before = text.split('\n')
        for (const { first, last } of doubtsOf(text))
          for (const line of before.slice(first, last + 1).filter((one) => one.trim() !== '')) {
            count += 1
            expect(after).toContain(line)
          }
      }),
      { numRuns: runs },
    )
    expect(count).toBeGreaterThan(20)
  })

  it('says the same of the same text', () => {
    fc.assert(
      fc.property(anything, (text) => {
        expect(tidy(text)).toEqual(tidy(text))
      }),
    )
  })

  it('gives edits that are in order, do not cross, and make the text that it gives', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          anything,
          raw.map(({ text }) => text),
        ),
        (text) => {
          const tidied = tidy(text)
          expect(applyEdits(text, tidied.edits)).toBe(tidied.text)
          expect(applyEdits(text, [...tidied.edits].reverse())).toBe(tidied.text)
          for (const { replacements } of tidied.edits)
            for (const { from, to, insert } of replacements) expect(text.slice(from, to)).not.toBe(insert)
        },
      ),
      { numRuns: runs },
    )
  })
})
