import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareVersions, type Stated } from '../../../../shared/procedure/versions/compare.ts'
import { wordsOfDifference } from '../../../../shared/procedure/versions/words.ts'
import { textOf } from '../../../../shared/sources/difference.ts'
import { procedureOf, type StepTexts } from './support/records.ts'

function stated(steps: readonly StepTexts[]): Stated {
  const { records, texts } = procedureOf(steps)
  const parts = records.parts.map((part) => ({ part, text: texts.get(part.id)! }))
  return { place: null, steps: records.steps, parts, parameters: [] }
}

const withText = (one: Stated, step: number, text: string): Stated => ({
  ...one,
  parts: one.parts.map((each) => (each.part.step === one.steps[step]!.id ? { ...each, text } : each)),
})

const older = stated([
  { do: 'Stop the logger.' },
  { do: 'Copy the root.' },
  { do: 'Start the logger.' },
  { do: 'Look.' },
])

describe('two versions', () => {
  it('that are equal differ in nothing', () => {
    const difference = compareVersions(older, older)
    expect(difference.isSame).toBe(true)
    expect(wordsOfDifference(difference)).toBe('Nothing changed')
  })

  it('show what was changed, added, removed and moved, by the ids of steps', () => {
    const added = stated([{ do: 'Wait.' }])
    const changed = withText(older, 1, 'Copy the whole root.')
    const [first, second, third, fourth] = changed.steps
    const newer: Stated = {
      ...changed,
      steps: [second!, third!, { ...fourth!, position: 'Z0' }, { ...added.steps[0]!, position: 'b0' }],
      parts: [...changed.parts.filter(({ part }) => part.step !== first!.id), ...added.parts],
    }
    const difference = compareVersions(older, newer)
    expect(difference.rows.map(({ fate, isMoved }) => (isMoved ? `${fate}, moved` : fate))).toEqual([
      'removed',
      'kept, moved',
      'changed',
      'kept',
      'added',
    ])
    expect(wordsOfDifference(difference)).toBe('1 step changed, 1 added, 1 removed, 1 moved')
    const { words } = difference.rows.find(({ fate }) => fate === 'changed')!.parts[0]!
    expect([textOf(words, 'older'), textOf(words, 'newer')]).toEqual([
      'Copy the root.',
      'Copy the whole root.',
    ])
  })

  it('call only as many steps moved as must be, and none where steps went or came', () => {
    const ids = older.steps.map(({ id }) => id)
    fc.assert(
      fc.property(fc.shuffledSubarray(ids, { minLength: 0 }), (order) => {
        const steps = order.map((id, n) => ({
          ...older.steps.find((one) => one.id === id)!,
          position: `c${n}`,
        }))
        const parts = older.parts.filter(({ part }) => order.some((id) => id === part.step))
        const { rows } = compareVersions(older, { ...older, steps, parts })
        expect(rows.filter(({ fate }) => fate === 'removed')).toHaveLength(ids.length - order.length)
        const places = order.map((id) => ids.indexOf(id))
        expect(rows.filter(({ isMoved }) => isMoved)).toHaveLength(order.length - longestRising(places))
      }),
    )
  })
})

function longestRising(places: readonly number[]): number {
  const best = places.map(() => 1)
  places.forEach((place, n) => {
    for (let m = 0; m < n; m++) if (places[m]! < place) best[n] = Math.max(best[n]!, best[m]! + 1)
  })
  return Math.max(0, ...best)
}
