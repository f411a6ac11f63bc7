import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { slowdown } from '../../../bench/support/tags-speed.ts'
import { findKeyPhrases } from '../../../../shared/find/key-phrases.ts'
import { mostUsedTags, nearestTags } from '../../../../shared/find/plain-tags.ts'
import { suggestTags, type TagSuggestion } from '../../../../shared/find/suggest-tags.ts'
import {
  emptyTagModel,
  withTexts,
  withVerdict,
  type TaggedText,
  type TagModel,
} from '../../../../shared/find/tag-model.ts'
import { termsOfTag } from '../../../../shared/find/tag-names.ts'
import { toTermCounts } from '../../../../shared/find/tag-terms.ts'

const text = (id: string, title: string, body: string, ...tags: string[]): TaggedText => ({
  id,
  title,
  text: body,
  tags,
})
const learnt = [
  text(
    'a',
    'Clock of the weather logger',
    'The logger asks ntp.example.org for the time every hour.',
    'weather',
    'time',
  ),
  text(
    'b',
    'Time in the dome',
    'chrony keeps the dome computer within a millisecond; ntp is off.',
    'time',
    'dome',
  ),
  text(
    'c',
    'Rain gauge',
    'The rain gauge of the weather logger counts tips of its bucket.',
    'weather',
    'sensors',
  ),
  text(
    'd',
    'Disks of the rack',
    'Two disks in a mirror; smartctl -a /dev/sda reads their health.',
    'rack',
    'storage',
  ),
  text('e', 'Fans of the rack', 'The fans of the rack are cleaned each spring.', 'rack', 'upkeep'),
]
const model = withTexts(emptyTagModel, learnt)
const asked = { id: 'new', title: 'ntp drifts', text: 'ntp on the logger drifts; set the time by hand.' }

const ownOf = (suggestions: readonly TagSuggestion[]): string[] =>
  suggestions.filter(({ why }) => why.from === 'own tags').map(({ tag }) => tag)
const scoreOf = (of: TagModel, tag: string, wanted = asked): number =>
  suggestTags(of, wanted, { own: 99, phrases: 0 }).find((suggestion) => suggestion.tag === tag)?.score ?? 0

describe('suggested tags', () => {
  it('are no worse for a text that has some of its tags already', () => {
    const without = scoreOf(model, 'weather')
    const half = withTexts(model, [{ ...asked, tags: ['time'] }])
    expect(scoreOf(half, 'weather')).toBe(without)
    expect(ownOf(suggestTags(half, { ...asked, tags: ['time'] }))).not.toContain('time')
  })

  it('are the tags of the nearest texts first, with the texts that they are of', () => {
    const [first] = suggestTags(model, asked)
    expect(first).toMatchObject({
      tag: 'time',
      why: { from: 'own tags', near: ['a', 'b'], isNamed: true, used: 2, of: 5 },
    })
    expect(ownOf(suggestTags(model, asked)).indexOf('weather')).toBeLessThan(
      ownOf(suggestTags(model, asked)).indexOf('storage'),
    )
  })

  it('work from the first tagged text on', () => {
    const one = withTexts(emptyTagModel, learnt.slice(0, 1))
    expect(ownOf(suggestTags(one, asked))).toEqual(['time', 'weather'])
  })

  it('are key phrases of the text while nothing was tagged, and come after the own tags later', () => {
    expect(suggestTags(emptyTagModel, asked).map(({ tag, why }) => [tag, why.from])).toContainEqual([
      'ntp drifts',
      'text',
    ])
    const kinds = suggestTags(model, asked).map(({ why }) => why.from)
    expect(kinds).toContain('text')
    expect(kinds.lastIndexOf('own tags')).toBeLessThan(kinds.indexOf('text'))
  })

  it('suit a journal entry of one line and a project with an aim alike', () => {
    expect(suggestTags(model, { title: '', text: 'smartctl -a /dev/sda' })[0]).toMatchObject({
      why: { near: ['d'] },
    })
    expect(ownOf(suggestTags(model, { title: 'Quieter rack', text: 'Fewer fans.' }))[0]).toBe('rack')
  })

  it('are none for an empty text of an empty model', () => {
    expect(suggestTags(emptyTagModel, { title: '', text: '' })).toEqual([])
  })

  it('are never what the text has, whatever the case, nor what was refused for it', () => {
    const has = suggestTags(model, { ...asked, tags: ['Time'] }).map(({ tag }) => tag)
    expect(has).not.toContain('time')
    const refused = withVerdict(model, asked, { tag: 'time', score: 0.5 }, false)
    expect(suggestTags(refused, asked).map(({ tag }) => tag)).not.toContain('time')
    const phrase = withVerdict(model, asked, { tag: 'drifts', score: 2 }, false)
    expect(suggestTags(phrase, asked).map(({ tag }) => tag)).not.toContain('drifts')
  })

  it('do not take the text itself for its neighbour', () => {
    const again = suggestTags(model, { ...learnt[0]!, tags: [] })
    for (const { why } of again) if (why.from === 'own tags') expect(why.near).not.toContain('a')
  })

  it('stay as many as are wanted', () => {
    const some = suggestTags(model, asked, { own: 2, phrases: 1 })
    expect(some.map(({ why }) => why.from)).toEqual(['own tags', 'own tags', 'text'])
  })

  it('know a tag by its name with no text near', () => {
    const named = suggestTags(
      withTexts(emptyTagModel, [text('x', '', 'bucket', 'field/rain-gauge'), text('y', '', 'tip', 'dome')]),
      { title: '', text: 'A new gauge for the rain' },
    )
    expect(named[0]).toMatchObject({ tag: 'field/rain-gauge', why: { near: [], isNamed: true } })
  })

  it('slow down no worse than in proportion to the tagged texts', { timeout: 60_000 }, () => {
    expect(slowdown(200, 2000)).toBeLessThan(20)
  })
})

describe('what a person said to a suggestion', () => {
  const others = fc.record({
    id: fc.constantFrom('f', 'g', 'h', 'i'),
    title: fc.constant(''),
    text: fc.constantFrom('ntp drifts', 'the logger in the rain', 'time by hand', 'disks', ''),
  })
  const verdict = fc.record({
    of: others,
    tag: fc.constantFrom('time', 'weather', 'rack'),
    score: fc.double({ min: 0.01, max: 1, noNaN: true }),
    isAccepted: fc.boolean(),
  })
  const note = (
    so: TagModel,
    { of, tag, score, isAccepted }: typeof verdict extends fc.Arbitrary<infer V> ? V : never,
  ) => withVerdict(so, of, { tag, score }, isAccepted)

  it('lowers a refused tag, never below absent, and leaves the other tags as they were', () => {
    fc.assert(
      fc.property(fc.array(verdict, { maxLength: 6 }), verdict, (before, { of, tag, score }) => {
        const so = before.filter((other) => other.of.id !== of.id || other.tag !== tag).reduce(note, model)
        const refused = withVerdict(so, of, { tag, score }, false)
        expect(scoreOf(refused, tag)).toBeLessThanOrEqual(scoreOf(so, tag))
        expect(scoreOf(refused, tag)).toBeGreaterThanOrEqual(0)
        for (const other of model.uses.keys())
          if (other !== tag) expect(scoreOf(refused, other)).toBe(scoreOf(so, other))
      }),
    )
  })

  it('never lowers an accepted tag', () => {
    fc.assert(
      fc.property(fc.array(verdict, { maxLength: 6 }), verdict, (before, { of, tag, score }) => {
        const so = before.filter((other) => other.of.id !== of.id || other.tag !== tag).reduce(note, model)
        expect(scoreOf(withVerdict(so, of, { tag, score }, true), tag)).toBeGreaterThanOrEqual(
          scoreOf(so, tag) - 1e-12,
        )
      }),
    )
  })

  it('puts a tag that is refused again and again behind others, and lets it come back when it is accepted', () => {
    const near = (at: number) => ({ id: `n${at}`, title: 'ntp', text: `ntp of the logger, ${at}` })
    let so = model
    for (let at = 0; at < 16; at++) so = withVerdict(so, near(at), { tag: 'time', score: 0.6 }, false)
    expect(ownOf(suggestTags(model, asked))[0]).toBe('time')
    expect(ownOf(suggestTags(so, asked))[0]).not.toBe('time')
    const low = scoreOf(so, 'time')
    // Its name stands in the text: that much speaks for it still.
    expect(low).toBeGreaterThan(0)
    for (let at = 16; at < 40; at++) {
      so = withTexts(so, [{ ...near(at), tags: ['time'] }])
      so = withVerdict(so, near(at), { tag: 'time', score: 0.3 }, true)
    }
    expect(scoreOf(so, 'time')).toBeGreaterThan(low)
    expect(ownOf(suggestTags(so, asked))[0]).toBe('time')
  })

  it('no longer counts where the text has the refused tag after all', () => {
    const thought = text('f', '', 'ntp drifts again', 'time')
    const tagged = withTexts(model, [thought])
    expect(scoreOf(withVerdict(tagged, thought, { tag: 'time', score: 0.5 }, false), 'time')).toBe(
      scoreOf(tagged, 'time'),
    )
  })
})

describe('key phrases', () => {
  it('are words that stand often, of several words where those stand together, and none within another', () => {
    const found = findKeyPhrases(
      model,
      {
        title: 'Packet capture',
        text: 'A packet capture on eth0. The packet capture shows the lost replies.',
      },
      5,
    ).map(({ phrase }) => phrase)
    expect(found[0]).toBe('packet capture')
    expect(found).toContain('eth0')
    expect(found).not.toContain('packet')
  })

  it('do not reach over punctuation, nor start or end with a word that joins others', () => {
    const found = findKeyPhrases(
      emptyTagModel,
      { title: '', text: 'Dome, shutter. The dome, shutter of the dome' },
      9,
    )
    expect(found.map(({ phrase }) => phrase).sort()).toEqual(['dome', 'shutter'])
  })

  it('prefer words that the other texts do not have', () => {
    const [first] = findKeyPhrases(model, { title: '', text: 'logger anemometer' }, 2)
    expect(first!.phrase).toBe('anemometer')
  })
})

describe('the plain ways', () => {
  it('give the most used tags, and those of the nearest texts before them', () => {
    expect(mostUsedTags(model).slice(0, 3)).toEqual(['rack', 'time', 'weather'])
    expect(nearestTags(model, toTermCounts({ title: '', text: 'chrony' }))).toEqual([
      'dome',
      'time',
      'rack',
      'weather',
      'sensors',
      'storage',
      'upkeep',
    ])
  })
})

it('the name of a tag is its last part', () => {
  expect(termsOfTag('works-with::mail')).toEqual(['mail'])
  expect(termsOfTag('net/time-sync')).toEqual(['time', 'sync'])
  expect(termsOfTag('c++')).toEqual(['c++'])
  expect(termsOfTag('::')).toEqual([])
})
