/** Rows in blocks: all of them, in order, and a change reaches the blocks beside it alone. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { blocksOf, type BlockRow } from '../../../../../renderer/panes/procedure/blocks.ts'
import type { StepId } from '../../../../../shared/lab/ids.ts'
import type { StepLevel } from '../../../../../shared/lab/model.ts'

const rowsArb = fc.uniqueArray(
  fc.record({
    id: fc.uuid({ version: 7 }),
    level: fc.constantFrom<StepLevel>('section', 'step', 'step', 'step', 'sub-step'),
  }),
  { selector: ({ id }) => id, maxLength: 150 },
)
const toRows = (made: readonly { id: string; level: StepLevel }[]): BlockRow[] =>
  made.map(({ id, level }) => ({ step: { id: id as StepId, level } }))
const idsOf = (rows: readonly BlockRow[]): string => rows.map(({ step }) => step.id).join(' ')

describe('blocks of rows', () => {
  test('hold every row once, in order, each block under a key of its own', () => {
    fc.assert(
      fc.property(rowsArb, (made) => {
        const rows = toRows(made)
        const blocks = blocksOf(rows)
        expect(blocks.flatMap((block) => block.rows)).toEqual(rows)
        expect(new Set(blocks.map(({ key }) => key)).size).toBe(blocks.length)
        for (const { rows: inBlock, start } of blocks) expect(rows[start]).toBe(inBlock[0])
      }),
    )
  })

  test('begin at every section and never between a heading and the row below it', () => {
    fc.assert(
      fc.property(rowsArb, (made) => {
        for (const { rows } of blocksOf(toRows(made))) {
          expect(rows.slice(1).every(({ step }) => step.level !== 'section')).toBe(true)
        }
        const blocks = blocksOf(toRows(made))
        const ends = blocks.slice(0, -1).map(({ rows }) => rows.at(-1)!.step.level)
        blocks.slice(1).forEach(({ rows }, i) => {
          if (rows[0]!.step.level !== 'section') expect(ends[i]).not.toBe('section')
        })
      }),
    )
  })

  test('stay as they are, but for two at the most, when one row goes', () => {
    fc.assert(
      fc.property(rowsArb, fc.nat(), (made, n) => {
        fc.pre(made.length > 0)
        const rows = toRows(made)
        const at = n % rows.length
        const before = new Map(blocksOf(rows).map(({ key, rows: held }) => [key, idsOf(held)]))
        const after = blocksOf(rows.filter((_, i) => i !== at))
        const changed = after.filter(({ key, rows: held }) => before.get(key) !== idsOf(held))
        expect(changed.length).toBeLessThanOrEqual(2)
      }),
    )
  })

  test('hold some five rows on the average, whatever the ids', () => {
    const made = Array.from({ length: 5000 }, (_, i) => ({
      id: `0192f0c4-0000-7000-8000-${i.toString(16).padStart(12, '0')}`,
      level: 'step' as const,
    }))
    const count = blocksOf(toRows(made)).length
    expect(count).toBeGreaterThan(5000 / 7)
    expect(count).toBeLessThan(5000 / 4)
  })
})
