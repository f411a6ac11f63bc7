import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareSteps, positionAfter } from '../../../../shared/lab/acts.ts'
import type { ProcedureId, StepId } from '../../../../shared/lab/ids.ts'
import type { Step } from '../../../../shared/lab/model.ts'

const procedure = 'p' as ProcedureId
const stepAt = (id: StepId, position: string): Step => ({
  ...{ id, procedure, position },
  ...{ level: 'step', place: null, pointOfNoReturn: false },
})
const natural = fc.nat({ max: 997 })
const moves = fc.array(fc.record({ isNew: fc.boolean(), which: natural, to: natural }), { maxLength: 60 })

describe('positions of steps', () => {
  it('give the order of a plain array over any insertions and moves', () => {
    fc.assert(
      fc.property(moves, (list) => {
        let steps: Step[] = []
        const plain: StepId[] = []
        for (const [i, { isNew, which, to }] of list.entries()) {
          const moving = isNew ? undefined : steps[which % Math.max(1, steps.length)]
          const after = to % 4 === 0 ? null : (steps[to % Math.max(1, steps.length)] ?? null)
          const id = moving?.id ?? (`${997 - i}`.padStart(4, '0') as StepId)
          const position = positionAfter(steps, after, moving)
          steps = [...steps.filter((step) => step.id !== id), stepAt(id, position)]
          if (after?.id !== id) {
            if (moving) plain.splice(plain.indexOf(id), 1)
            plain.splice(after ? plain.indexOf(after.id) + 1 : 0, 0, id)
          }
        }
        expect([...steps].sort(compareSteps).map(({ id }) => id)).toEqual(plain)
      }),
      { numRuns: 300 },
    )
  })

  it('that two windows made equal stand in one order, and a step set behind them comes before the next', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(['a', 'b', 'c', 'd', 'e'], { minLength: 5 }), natural, (ids, n) => {
        const places = ['a0', 'a0', 'a0', 'a1', 'a1']
        const steps = ids.map((id, i): Step => stepAt(id as StepId, places[i]!))
        const order = (list: readonly Step[]) => [...list].sort(compareSteps).map(({ id }) => id)
        expect(order([...steps].reverse())).toEqual(order(steps))
        const after = steps[n % 5]!
        const added = stepAt('zz' as StepId, positionAfter(steps, after))
        const all = order([...steps, added])
        expect(all.filter((id) => id !== 'zz')).toEqual(order(steps))
        expect(all.indexOf(added.id)).toBe(after.position === 'a0' ? 3 : 5)
      }),
    )
  })
})
