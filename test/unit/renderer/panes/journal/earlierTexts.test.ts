import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareWords, wordingsOf } from '../../../../../renderer/panes/journal/earlierTexts.ts'
import type { ChangeId, EntryId, RevisionId } from '../../../../../shared/lab/ids.ts'
import type { Revision } from '../../../../../shared/lab/model.ts'
import { toMoment } from '../../../../../shared/lab/moment.ts'
import { changeBetween } from '../../../../../shared/lab/text.ts'

const revisionsOf = (texts: readonly string[]): Revision[] =>
  texts.map((text, at) => ({
    id: `r${at}` as RevisionId,
    node: 'e' as EntryId,
    number: at + 1,
    from: at === 0 ? null : (`r${at - 1}` as RevisionId),
    changeSet: changeBetween(texts[at - 1] ?? '', text),
    restores: null,
    ended: false,
    moment: toMoment(at * 60_000, 60),
    change: `c${at}` as ChangeId,
    blobs: [],
  }))

describe('wordingsOf', () => {
  it('gives every wording that ever stood, with the moment from which it did', () => {
    const wordings = wordingsOf(revisionsOf(['one', 'one two', 'two']))
    expect(wordings.map(({ text }) => text)).toEqual(['one', 'one two', 'two'])
    expect(wordings.map(({ since }) => since.slice(11, 16))).toEqual(['01:00', '01:01', '01:02'])
  })

  it('passes over a revision that changed nothing', () => {
    expect(wordingsOf(revisionsOf(['one', 'one', 'two'])).map(({ text }) => text)).toEqual(['one', 'two'])
  })
})

describe('compareWords', () => {
  it('tells words that went from words that came', () => {
    expect(compareWords('stop the logger', 'stop the time service')).toEqual([
      { fate: 'kept', text: 'stop the ' },
      { fate: 'gone', text: 'logger' },
      { fate: 'new', text: 'time service' },
    ])
  })

  it('holds both texts whole, whatever they are', () => {
    const texts = fc.string({
      unit: fc.constantFrom('a', 'é', ' ', '\n', '`', '🔭', 'disk', '-'),
      maxLength: 60,
    })
    fc.assert(
      fc.property(texts, texts, (before, after) => {
        const runs = compareWords(before, after)
        const without = (fate: string) =>
          runs
            .filter((run) => run.fate !== fate)
            .map(({ text }) => text)
            .join('')
        expect(without('new')).toBe(before)
        expect(without('gone')).toBe(after)
      }),
    )
  })

  it('takes very different long texts as wholes instead of comparing for seconds', () => {
    const words = (seed: number) =>
      Array.from({ length: 6000 }, (_, at) => `w${(at * seed) % 9973}`).join(' ')
    const runs = compareWords(words(7), words(11))
    expect(runs.map(({ fate }) => fate)).toEqual(['gone', 'new'])
  })
})
