import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { serialiseMarkdown } from '../../../../../shared/export/serialise.ts'
import { parseMarkdown } from '../../../../../shared/markdown/parse.ts'
import { plainWords } from '../../../../../shared/markdown/words.ts'
import { countProse } from '../../../../../shared/procedure/ease/counts.ts'
import {
  missingIn,
  signalWordFor,
  signalWordMeanings,
  signalWords,
  type Caution,
} from '../../../../../shared/safety/signal-words/caution.ts'
import {
  cautionFromMarkdown,
  cautionToMarkdown,
  signalWordOf,
} from '../../../../../shared/safety/signal-words/markdown.ts'
import { findReadyCautions, readyCautions } from '../../../../../shared/safety/signal-words/ready-texts.ts'

const mains: Caution = {
  signal: 'warning',
  hazard: 'Mains voltage stands on the terminals.',
  consequence: 'A shock can kill.',
  avoidance: '- Pull the plug.\n- Wait.',
}

describe('a caution as Markdown', () => {
  it('reads as Markdown by itself', () => {
    expect(cautionToMarkdown(mains)).toBe(
      '**Warning:** Mains voltage stands on the terminals.\n\n*If not avoided:* A shock can kill.\n\n*To avoid it:*\n\n- Pull the plug.\n- Wait.',
    )
  })

  it.each<[string, Caution['signal'], string]>([
    ['**Notice:** Keep the old one.', 'notice', 'Keep the old one.'],
    ['**Warning**: Hot.', 'warning', 'Hot.'],
    ['__Danger!__ Live.', 'danger', 'Live.'],
    ['CAUTION: Sharp.', 'caution', 'Sharp.'],
    ['Warning! Hot.', 'warning', 'Hot.'],
    ['Keep the old one.', null, 'Keep the old one.'],
    ['Warning signs hang there.', null, 'Warning signs hang there.'],
    ['**Remember:** Hot.', null, '**Remember:** Hot.'],
    ['', null, ''],
    ['**Notice:**', 'notice', ''],
  ])('%j is read with its signal word and its hazard', (text, signal, hazard) => {
    expect(cautionFromMarkdown(text)).toEqual({ signal, hazard, consequence: '', avoidance: '' })
    expect(signalWordOf(text)).toBe(signal)
  })

  it('keeps both texts of a part that is named twice', () => {
    expect(cautionFromMarkdown('A\n\n*To avoid it:* B\n\n*To avoid it:* C').avoidance).toBe('B\n\nC')
  })

  it('survives being parsed and written by a Markdown library', () => {
    const text = cautionToMarkdown(mains)
    expect(cautionFromMarkdown(serialiseMarkdown(parseMarkdown(text)))).toEqual(mains)
  })

  const plain = fc.constantFrom(
    '',
    'Hot.',
    'A *b* c.',
    '- one\n- two',
    '1. one',
    '> said',
    'Two\n\nparagraphs',
    '`rm -rf`',
    'a\nb',
    '```\ncode\n```',
    '⁅host⁆ is live',
    'Warning: no',
    '**Danger:** x',
    '*If* not',
  )
  const caution = fc.record({
    signal: fc.constantFrom(null, ...signalWords),
    hazard: plain,
    consequence: plain,
    avoidance: plain,
  })

  it('that is written and read again is the same', () => {
    fc.assert(
      fc.property(caution, (any) => {
        // Without a signal word, a hazard that begins like one is escaped.
        fc.pre(any.signal !== null || signalWordOf(any.hazard) === null)
        expect(cautionFromMarkdown(cautionToMarkdown(any))).toEqual(any)
      }),
    )
  })

  it('read from any text and written again is read as the same, from then on without a change', () => {
    const piece = fc.oneof(
      plain,
      fc.constantFrom('*If not avoided:* ', '*To avoid it:*', '**Warning:** ', '\n\n', '\n', ' ', '\\', '* '),
      fc.string({ maxLength: 5 }),
    )
    const text = fc.array(piece, { maxLength: 8 }).map((parts) => parts.join(''))
    fc.assert(
      fc.property(text, (any) => {
        const once = cautionToMarkdown(cautionFromMarkdown(any))
        const twice = cautionToMarkdown(cautionFromMarkdown(once))
        expect(cautionToMarkdown(cautionFromMarkdown(twice))).toBe(twice)
        expect(signalWordOf(once)).toBe(signalWordOf(any))
      }),
    )
  })
})

describe('signal words', () => {
  it('are chosen by the worst that can happen, and lost data is never more than a notice', () => {
    expect(signalWordFor({ worst: 'death or serious injury', ifNotAvoided: 'will' })).toBe('danger')
    expect(signalWordFor({ worst: 'death or serious injury', ifNotAvoided: 'could' })).toBe('warning')
    expect(signalWordFor({ worst: 'minor or moderate injury', ifNotAvoided: 'will' })).toBe('caution')
    expect(signalWordFor({ worst: 'loss of data, equipment or service', ifNotAvoided: 'will' })).toBe(
      'notice',
    )
  })

  it('say what a caution lacks', () => {
    expect(missingIn({ signal: null, hazard: 'Hot.', consequence: ' ', avoidance: '' })).toEqual([
      'signal',
      'consequence',
      'avoidance',
    ])
    expect(missingIn(mains)).toEqual([])
  })
})

describe('ready cautions', () => {
  it('are at least twenty, with ids and titles of their own, about people and about things', () => {
    expect(readyCautions.length).toBeGreaterThanOrEqual(20)
    expect(new Set(readyCautions.map(({ id }) => id)).size).toBe(readyCautions.length)
    expect(new Set(readyCautions.map(({ title }) => title)).size).toBe(readyCautions.length)
    expect(new Set(readyCautions.map(({ caution }) => caution.signal))).toEqual(new Set(signalWords))
  })

  it.each(readyCautions.map((ready) => [ready.title, ready] as const))(
    '%s: lacks nothing, and its signal word follows from its harm',
    (_, ready) => {
      expect(missingIn(ready.caution)).toEqual([])
      expect(ready.caution.signal).toBe(signalWordFor(ready.harm))
      expect(ready.why).toContain(ready.caution.signal)
      expect(cautionFromMarkdown(cautionToMarkdown(ready.caution))).toEqual(ready.caution)
      // Local codes come first wherever people can be hurt, and the text itself says to whom it defers where it can kill.
      if (signalWordMeanings[ready.caution.signal!].about === 'people')
        expect(ready.defersTo).toMatch(/local|maker/i)
      if (ready.harm.worst === 'death or serious injury')
        expect(plainWords(cautionToMarkdown(ready.caution))).toMatch(
          /local|licensed|maker|fire service|trained/i,
        )
      expect(countProse(cautionToMarkdown(ready.caution)).longest).toBeLessThanOrEqual(40)
    },
  )

  it.each([
    ['ssh', 'lockout-ssh'],
    ['mains', 'mains-inside'],
    ['ups batt', 'ups-batteries'],
    ['wipe', 'wipe-disk'],
    ['laser', 'laser-optics'],
    ['rack', 'rack-tipping'],
    ['capacitor', 'power-supply-capacitors'],
    ['firmware', 'firmware-update'],
  ])('%s finds %s', (query, id) => {
    expect(findReadyCautions(query).map((ready) => ready.id)).toContain(id)
    expect(findReadyCautions('')).toHaveLength(readyCautions.length)
    expect(findReadyCautions('xyzzy')).toEqual([])
  })
})
