import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareSteps, moveSteps, newStep, rowsUnder } from '../../../../shared/lab/acts.ts'
import type { ProcedureId } from '../../../../shared/lab/ids.ts'
import type { stepLevels } from '../../../../shared/lab/model.ts'
import { type Step } from '../../../../shared/lab/model.ts'
import { generateNKeysBetween } from 'fractional-indexing'
import { repeatableSurroundings } from '../../support/lab.ts'

const around = repeatableSurroundings()
const procedure = around.ids.make<ProcedureId>()

function rows(levels: readonly (typeof stepLevels)[number][]): Step[] {
  const positions = generateNKeysBetween(null, null, levels.length)
  return levels.map((level, i) => newStep(around, procedure, positions[i]!, level))
}

const order = (steps: readonly Step[]): string[] => [...steps].sort(compareSteps).map(({ id }) => id)

describe('moving several rows', () => {
  it('gives the order of a plain array, in one Change, and nothing where nothing moves', () => {
    fc.assert(
      fc.property(
        fc.array(fc.boolean(), { minLength: 1, maxLength: 60 }),
        fc.nat({ max: 60 }),
        (chosen, to) => {
          const steps = rows(chosen.map(() => 'step'))
          const moving = new Set(steps.filter((_, i) => chosen[i]).map(({ id }) => id))
          const after = to % (steps.length + 1) === 0 ? null : steps[(to % (steps.length + 1)) - 1]!
          const before = after ? order(steps).indexOf(after.id) + 1 : 0
          const ids = order(steps)
          const plain = [
            ...ids.slice(0, before).filter((id) => !moving.has(id as never)),
            ...ids.filter((id) => moving.has(id as never)),
            ...ids.slice(before).filter((id) => !moving.has(id as never)),
          ]
          const change = moveSteps(around, steps, moving, after)
          if (!change) {
            expect(plain).toEqual(ids)
            return
          }
          const moved = new Map(
            change.operations.map((operation) => {
              const { record } = operation as { readonly record: Step }
              return [record.id, record]
            }),
          )
          expect(new Set(moved.keys())).toEqual(moving)
          expect(order(steps.map((step) => moved.get(step.id) ?? step))).toEqual(plain)
        },
      ),
      { numRuns: 300 },
    )
  })
})

describe('the rows under a row', () => {
  it('are those that stand deeper, up to the next that does not', () => {
    const all = rows(['step', 'section', 'step', 'sub-step', 'sub-step', 'step', 'section', 'step'])
    const under = (at: number): number[] => rowsUnder(all, all[at]!).map((row) => all.indexOf(row))
    expect(under(0)).toEqual([0])
    expect(under(1)).toEqual([1, 2, 3, 4, 5])
    expect(under(2)).toEqual([2, 3, 4])
    expect(under(4)).toEqual([4])
    expect(under(6)).toEqual([6, 7])
  })
})
