import { describe, expect, it } from 'vitest'
import type { CoverageModel, MissingItem } from '../../../../renderer/coverage/model.ts'
import { rowBehind, rowsOf } from '../../../../renderer/coverage/rows.ts'
import { whyListed, whyUnsure } from '../../../../renderer/coverage/words.ts'

const item = (id: string): MissingItem => ({ id }) as MissingItem
const model = {
  missing: [item('a'), item('b')],
  unsure: [item('c')],
  unproven: [],
  leftOut: [],
} as unknown as CoverageModel
const rows = (dealt: [string, number | null][], sequence = 5): string[] =>
  [...rowsOf(model, new Map(dealt), sequence).values()].flat().map(({ key }) => key)

describe('the rows of what is missing', () => {
  it('lack what is being dealt with, until the list knows how that ended', () => {
    expect(rows([])).toEqual(['open a', 'open b', 'open c'])
    expect(rows([['open a', null]])).toEqual(['open b', 'open c'])
    expect(rows([['open a', 6]])).toEqual(['open b', 'open c'])
    // Undone since: the list is right again.
    expect(rows([['open a', 6]], 6)).toEqual(['open a', 'open b', 'open c'])
  })

  it('give the keyboard to the next of their list, else to the one before', () => {
    const all = [...rowsOf(model, new Map(), 5).values()].flat()
    expect(rowBehind(all, 'open a')).toBe('open b')
    expect(rowBehind(all, 'open b')).toBe('open a')
    expect(rowBehind(all, 'open c')).toBe('open b')
    expect(rowBehind(all.slice(0, 1), 'open a')).toBeNull()
  })

  it('say the two reasons that tell most, and what is not known', () => {
    expect(whyListed({ reasons: ['pair', 'fix', 'untouched'] })).toBe(
      'A step holds its other half. It ended a problem.',
    )
    expect(whyListed({ reasons: [] })).toBe('')
    expect(whyUnsure({ outcome: 'succeeded', effect: 'unknown' })).toBe('What it does is unknown.')
  })
})
