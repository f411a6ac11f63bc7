import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fromSavedTagModel, toSavedTagModel } from '../../../../shared/find/saved-tag-model.ts'
import { suggestTags } from '../../../../shared/find/suggest-tags.ts'
import {
  emptyTagModel,
  withoutTexts,
  withoutVerdict,
  withTexts,
  withVerdict,
  type TaggedText,
  type TagModel,
} from '../../../../shared/find/tag-model.ts'
import { MOST_TERMS, toTermCounts } from '../../../../shared/find/tag-terms.ts'

const words = ['dome', 'logger', 'rack', 'ntp', 'eth0', 'shutter', '/etc/ntp.conf', 'wind', 'gauge', 'disk']
const sentence = fc.array(fc.constantFrom(...words), { maxLength: 8 }).map((some) => some.join(' '))
const taggedText = (id: string): fc.Arbitrary<TaggedText> =>
  fc.record({
    id: fc.constant(id),
    title: sentence,
    text: sentence,
    address: fc.constantFrom(null, 'https://wx.example.org/logger/setup.html'),
    tags: fc.array(fc.constantFrom('weather', 'rack', 'time', 'storage', 'dome'), {
      minLength: 1,
      maxLength: 3,
    }),
  })
const texts = fc
  .integer({ min: 1, max: 12 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, at) => taggedText(`text-${at}`))))
const said = fc.array(
  fc.record({
    at: fc.nat(11),
    tag: fc.constantFrom('weather', 'time', 'unknown'),
    score: fc.double({ min: 0, max: 1, noNaN: true }),
    isAccepted: fc.boolean(),
  }),
  { maxLength: 30 },
)

function learn(model: TagModel, items: readonly TaggedText[]): TagModel {
  return items.reduce((so, text) => withTexts(so, [text]), model)
}

const asked = { title: 'The logger', text: 'The wind gauge of the logger lost its time: ntp on eth0' }

describe('a tag model', () => {
  it('is the same whatever was learnt first, and so are its suggestions, to the last bit', () => {
    fc.assert(
      fc.property(
        texts.chain((items) =>
          fc.tuple(fc.constant(items), fc.shuffledSubarray(items, { minLength: items.length })),
        ),
        ([items, mixed]) => {
          const one = learn(emptyTagModel, items)
          const other = learn(emptyTagModel, mixed)
          expect(other).toEqual(one)
          expect(withTexts(emptyTagModel, mixed)).toEqual(one)
          expect(JSON.stringify(toSavedTagModel(other))).toBe(JSON.stringify(toSavedTagModel(one)))
          expect(suggestTags(other, asked)).toEqual(suggestTags(one, asked))
        },
      ),
    )
  })

  it('is the same whatever verdict came first', () => {
    fc.assert(
      fc.property(texts, said, (items, verdicts) => {
        const unique = [
          ...new Map(verdicts.map((verdict) => [`${verdict.at} ${verdict.tag}`, verdict])).values(),
        ]
        const note = (model: TagModel, list: typeof unique): TagModel =>
          list.reduce(
            (so, { at, isAccepted, ...suggestion }) =>
              withVerdict(so, items[at % items.length]!, suggestion, isAccepted),
            model,
          )
        const once = unique.filter(
          ({ at, tag }, place) =>
            unique.findIndex(
              (other) => other.tag === tag && other.at % items.length === at % items.length,
            ) === place,
        )
        const first = learn(note(emptyTagModel, once), items)
        const last = note(learn(emptyTagModel, items), [...once].reverse())
        expect(last).toEqual(first)
        expect(suggestTags(last, asked)).toEqual(suggestTags(first, asked))
      }),
    )
  })

  it('adds many verdicts up in one order, so that not even the last bit depends on which came first', () => {
    const judged = Array.from({ length: 30 }, (_, at) => ({
      id: `judged-${at}`,
      title: '',
      text: words.slice(at % 7, (at % 7) + 1 + (at % 4)).join(' '),
      score: ((at * 37) % 101) / 101,
    }))
    const known = withTexts(emptyTagModel, [{ ...asked, id: 'a', tags: ['time'] }])
    const scoreAfter = (list: typeof judged): number => {
      const model = list.reduce(
        (so, one) => withVerdict(so, one, { tag: 'time', score: one.score }, false),
        known,
      )
      return suggestTags(model, asked)[0]!.score
    }
    fc.assert(
      fc.property(fc.shuffledSubarray(judged, { minLength: judged.length }), (mixed) => {
        expect(scoreAfter(mixed)).toBe(scoreAfter(judged))
      }),
    )
  })

  it('is as before when what was added is taken away', () => {
    fc.assert(
      fc.property(texts, taggedText('text-x'), fc.boolean(), (items, text, isAccepted) => {
        const before = learn(emptyTagModel, items)
        expect(withoutTexts(withTexts(before, [text]), [text.id])).toEqual(before)
        expect(withTexts(withTexts(before, [text]), [{ ...text, tags: [] }])).toEqual(before)
        const suggestion = { tag: 'rack', score: 0.5 }
        expect(withoutVerdict(withVerdict(before, text, suggestion, isAccepted), text.id, 'rack')).toEqual(
          before,
        )
        expect(
          withoutTexts(
            before,
            items.map(({ id }) => id),
          ),
        ).toEqual(emptyTagModel)
      }),
    )
  })

  it('has only the last of what was learnt of one text', () => {
    fc.assert(
      fc.property(texts, taggedText('text-0'), (items, again) => {
        const [, ...others] = items
        expect(withTexts(withTexts(emptyTagModel, items), [again])).toEqual(
          withTexts(emptyTagModel, [again, ...others]),
        )
      }),
    )
  })

  it('leaves the model that it was made from as it was', () => {
    fc.assert(
      fc.property(texts, taggedText('text-0'), (items, again) => {
        const before = withTexts(emptyTagModel, items)
        const kept = JSON.stringify(toSavedTagModel(before))
        const holders = structuredClone(before.holders)
        withoutTexts(
          withTexts(before, [again]),
          items.map(({ id }) => id),
        )
        withVerdict(before, again, { tag: 'rack', score: 1 }, false)
        expect(JSON.stringify(toSavedTagModel(before))).toBe(kept)
        expect(before.holders).toEqual(holders)
      }),
    )
  })

  it('comes back whole from its stored form', () => {
    fc.assert(
      fc.property(texts, said, (items, verdicts) => {
        const model = verdicts.reduce(
          (so, { at, isAccepted, ...suggestion }) =>
            withVerdict(so, items[at % items.length]!, suggestion, isAccepted),
          withTexts(emptyTagModel, items),
        )
        const read = fromSavedTagModel(JSON.parse(JSON.stringify(toSavedTagModel(model))))
        expect(read).toEqual({ ok: true, model })
      }),
    )
  })

  it.each([
    null,
    7,
    {},
    { version: 2, texts: [], verdicts: [] },
    { version: 1, texts: [{ id: 'a' }], verdicts: [] },
  ])('is not made of %j', (saved) => {
    expect(fromSavedTagModel(saved)).toMatchObject({ ok: false, code: 'not-a-tag-model' })
  })
})

describe('the terms of a text', () => {
  it('count the title more than the text, and the words of the address', () => {
    const terms = new Map(
      toTermCounts({ title: 'ntp', text: 'disk', address: 'https://www.example.org/rack/a.html' }),
    )
    expect(terms.get('ntp')).toBeGreaterThan(terms.get('disk')!)
    expect(terms.get('rack')).toBe(1)
    expect([...terms.keys()].filter((term) => ['www', 'org', 'html', 'https'].includes(term))).toEqual([])
  })

  it('are few for a very long text, and those that stand there most', () => {
    const rare = Array.from({ length: 1000 }, (_, at) => `word${at}`).join(' ')
    const terms = toTermCounts({ title: '', text: `${rare} ${'dome '.repeat(5)}` })
    expect(terms).toHaveLength(MOST_TERMS)
    expect(new Map(terms).get('dome')).toBe(5)
  })
})
