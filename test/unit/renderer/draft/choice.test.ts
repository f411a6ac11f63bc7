import { describe, expect, it } from 'vitest'
import { choiceFrom, choose, moveTo } from '../../../../renderer/draft/choice.ts'
import { isTicked, rowsLeft, withTaken, withTick } from '../../../../renderer/draft/ticks.ts'
import type { DraftItem } from '../../../../renderer/draft/model.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'

const order = ['a', 'b', 'c', 'd', 'e'] as unknown as EntryId[]
const [a, b, c, d, e] = order

describe('choosing entries', () => {
  it('begins with all from an entry on, or with none', () => {
    expect([...choiceFrom(order, c!).chosen]).toEqual([c, d, e])
    expect(choiceFrom(order, null)).toEqual({ chosen: new Set(), at: 0, anchor: 0 })
  })

  it('takes one, or all up to it as the first one is', () => {
    const one = choose(choiceFrom(order, null), order, 1, false)
    const range = choose(one, order, 3, true)
    expect([...range.chosen]).toEqual([b, c, d])
    const less = choose(choose(range, order, 2, false), order, 3, true)
    expect([...less.chosen]).toEqual([b])
    expect([...choose(moveTo(less, 0), order, 0, false).chosen].sort()).toEqual([a, b])
  })
})

describe('the ticks of proposed steps', () => {
  const sure = { id: '1', doubt: null } as DraftItem
  const doubtful = { id: '2', doubt: 'outcome unknown' } as DraftItem

  it('stand where there is no doubt, until the person says otherwise', () => {
    expect([sure, doubtful].map((row) => isTicked(row, new Map()))).toEqual([true, false])
    const ticks = withTick(doubtful, withTick(sure, new Map()))
    expect([sure, doubtful].map((row) => isTicked(row, ticks))).toEqual([false, true])
  })

  it('go with what was taken, until the draft knows of it', () => {
    const rows = [sure, doubtful]
    const under = withTaken(new Map(), [sure], null)
    expect(rowsLeft(rows, under, 9)).toEqual([doubtful])
    expect(rowsLeft(rows, withTaken(under, [sure], 10), 9)).toEqual([doubtful])
    expect(rowsLeft(rows, withTaken(under, [sure], 10), 10)).toEqual(rows)
    expect(rowsLeft(rows, withTaken(under, [sure], undefined), 9)).toEqual(rows)
  })
})
