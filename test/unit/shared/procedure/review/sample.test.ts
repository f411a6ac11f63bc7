import { beforeAll, describe, expect, it } from 'vitest'
import { reviewProcedure } from '../../../../../shared/procedure/review/review.ts'
import { sampleReviewed, type SampleReviewed } from '../../../../support/sampleReviewed.ts'

describe('the review of the sample', () => {
  let procedures: SampleReviewed[]
  beforeAll(async () => {
    procedures = await sampleReviewed()
  })

  it('has nothing open', () => {
    const open = procedures.flatMap(({ title, document }) =>
      reviewProcedure(document)
        .filter(({ silence }) => silence === null)
        .map(({ rule, step, words, sentence }) => {
          const number = document.rows.find(({ id }) => id === step)?.number ?? 'all'
          return `${title}, ${number}, ${rule}: ${words} – ${sentence}`
        }),
    )
    expect(open).toEqual([])
  })

  it('has at most three silenced findings for each procedure, each silence with a reason and in use', () => {
    for (const { document } of procedures) {
      const silenced = reviewProcedure(document).flatMap(({ silence }) => silence ?? [])
      expect(silenced.length).toBeLessThanOrEqual(3)
      expect(new Set(silenced)).toEqual(new Set(document.silences))
      for (const { reason } of document.silences) expect(reason).toMatch(/^\p{Lu}.*\.$/u)
    }
  })
})
