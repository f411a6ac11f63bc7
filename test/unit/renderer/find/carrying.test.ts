import { describe, expect, it, test } from 'vitest'
import { whyNotTo } from '../../../../renderer/find/carrying.ts'
import { paragraphAround } from '../../../../renderer/find/paragraph.ts'
import type { Fragment } from '../../../../shared/distil/fragment.ts'
import type { LandingPlace } from '../../../../shared/distil/landing.ts'
import type { PartId, StepId } from '../../../../shared/lab/ids.ts'

const part = 'part' as PartId
const step = 'step' as StepId
const of = (kind: 'source' | 'entry' | 'part'): Pick<Fragment, 'origin' | 'node'> =>
  ({
    origin:
      kind === 'entry'
        ? { kind, entryKind: 'action' }
        : kind === 'part'
          ? { kind, partKind: 'do' }
          : { kind },
    node: { kind: kind === 'source' ? 'capture' : kind, id: kind },
  }) as unknown as Pick<Fragment, 'origin' | 'node'>
const text = (id: string): LandingPlace => ({ at: 'text', part: id as PartId, step, kind: 'do', offset: 0 })
const why = (kind: 'source' | 'entry' | 'part', place: LandingPlace | null) =>
  whyNotTo(of(kind), place, () => step)

describe('what was found', () => {
  it('goes rightward alone', () => {
    expect(why('source', { at: 'journal' })).toBeNull()
    expect(why('entry', { at: 'journal' })).toMatch(/takes words from sources/)
    expect(why('part', { at: 'journal' })).toMatch(/takes words from sources/)
    for (const kind of ['source', 'entry'] as const) {
      expect(why(kind, text('other'))).toBeNull()
      expect(why(kind, { at: 'step', step })).toBeNull()
    }
    expect(why('part', text('other'))).toBeNull()
  })

  it('does not go to where it stands, nor nowhere', () => {
    expect(why('part', text(part))).toMatch(/already/)
    expect(why('part', { at: 'step', step })).toMatch(/already/)
    expect(why('part', { at: 'step', step: 'other' as StepId })).toBeNull()
    expect(why('source', null)).toMatch(/not writing anywhere/)
  })
})

test('the paragraph around words is taken, whole where it holds a block, and the line of a very long one', () => {
  const whole = 'First.\n\nSecond with **bold words** in\nit.\n\nThird.'
  const at = (words: string) => ({ start: whole.indexOf(words), end: whole.indexOf(words) + words.length })
  const cut = (text: string, range: { start: number; end: number }) => text.slice(range.start, range.end)
  expect(cut(whole, paragraphAround(whole, at('bold')))).toBe('Second with **bold words** in\nit.')
  expect(cut(whole, paragraphAround(whole, at('First')))).toBe('First.')
  expect(cut(whole, paragraphAround(whole, at('Third')))).toBe('Third.')
  const log = Array.from({ length: 200 }, (_, line) => `line ${line} of the log`).join('\n')
  const start = log.indexOf('line 77')
  expect(cut(log, paragraphAround(log, { start, end: start + 7 }))).toBe('line 77 of the log')
})
