import { Text } from '@codemirror/state'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  linesOfEdit,
  offerFor,
  replacementsFor,
  toChanges,
} from '../../../../../../renderer/panes/journal/tidying/proposals.ts'
import { applyEdits, applyReplacements } from '../../../../../../shared/journal/tidy/tidy.ts'

const raw = [
  '##Wind mast',
  'Wnet up  the mast and looked at the vane.',
  'root@gate:~# ls -l /srv',
  'total recieve  12',
  '',
  '* grease it',
  '* look agian tomorrow',
].join('\n')

describe('what is offered for a text', () => {
  test('each edit shows the lines before and after, and what it does in words', () => {
    const { proposals } = offerFor(raw)
    expect(proposals.length).toBeGreaterThan(1)
    for (const { edit, lines } of proposals) {
      expect(edit.says).toMatch(/\p{L}/u)
      expect(lines.some(({ fate }) => fate === 'new' || fate === 'gone')).toBe(true)
    }
    expect(proposals.flatMap(({ lines }) => lines)).toContainEqual({ fate: 'new', text: '## Wind mast' })
  })

  test('a long run of unchanged lines is a number', () => {
    const text = ['$ seq 30', ...Array.from({ length: 30 }, (_, at) => String(at + 1))].join('\n')
    const lines = offerFor(text).proposals.flatMap((one) => one.lines)
    const shown = lines.filter(({ fate }) => fate !== 'folded')
    expect(lines.some((line) => line.fate === 'folded' && line.count > 20)).toBe(true)
    expect(shown.length).toBeLessThan(12)
  })

  test('spelling is asked of sentences, never of what a command answered', () => {
    const { words } = offerFor(raw)
    const named = words.map(({ word }) => word)
    expect(named).toContain('Wnet')
    expect(named).toContain('agian')
    expect(named).not.toContain('recieve')
    for (const { word, from, to } of words) expect(raw.slice(from, to)).toBe(word)
  })

  test('a word is spelt otherwise wherever it stands, together with the edits or without', () => {
    const offer = offerFor(raw)
    const spelt = new Map([
      ['Wnet', 'Went'],
      ['agian', 'again'],
    ])
    const alone = applyReplacements(raw, replacementsFor(offer, [], spelt))
    expect(alone).toBe(raw.replace('Wnet', 'Went').replace('agian', 'again'))
    const all = applyReplacements(
      raw,
      replacementsFor(
        offer,
        offer.proposals.map(({ edit }) => edit),
        spelt,
      ),
    )
    expect(all).toContain('Went up the mast')
    expect(all).toContain('look again tomorrow')
    expect(all).toContain('total recieve  12')
  })

  test('as a change set it gives the same text as the edits themselves, whichever are taken', () => {
    const line = fc.constantFrom(
      '##Head',
      '$ ls',
      'a  b',
      '* one',
      '- two',
      '',
      'I saw  it and left.',
      'Nov 25 23:25:54 gate x: y',
      '[ ] do',
      '```',
      'Title',
      '=====',
    )
    fc.assert(
      fc.property(fc.array(line, { maxLength: 14 }), fc.infiniteStream(fc.boolean()), (parts, choice) => {
        const text = parts.join('\n')
        const edits = offerFor(text).proposals.map(({ edit }) => edit)
        const taken = edits.filter(() => choice.next().value)
        const replacements = replacementsFor(offerFor(text), taken, new Map())
        const changes = toChanges(replacements, text.length)
        expect(changes.apply(toText(text)).toString()).toBe(applyEdits(text, taken))
        for (const edit of taken)
          expect(linesOfEdit(text, edit).some(({ fate }) => fate === 'new' || fate === 'gone')).toBe(true)
      }),
      { numRuns: 120 },
    )
  })
})

function toText(text: string) {
  return Text.of(text.split('\n'))
}
