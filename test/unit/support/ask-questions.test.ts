import { describe, expect, it } from 'vitest'
import { loadSample } from '../../../renderer/labs/loadSample.ts'
import { sample } from '../../../renderer/labs/sample/index.ts'
import { writtenQuestions } from '../../support/ask/questions.ts'
import { idsOfSample } from '../../support/ask/sample-keys.ts'
import { openTestLab } from './lab.ts'

describe('the questions to the sample lab', () => {
  const open = writtenQuestions('open')
  const frozen = writtenQuestions('frozen')
  const development = writtenQuestions('development')
  const check = writtenQuestions('check')
  const parts = [open, frozen, development, check]

  it('are sixty and twenty, half of them frozen, ninety and sixty to set rules by, 39 and 16 to check them, each once', () => {
    for (const half of [open, frozen])
      expect([half.questions.length, half.withoutAnswer.length]).toEqual([30, 10])
    expect([development.questions.length, development.withoutAnswer.length]).toEqual([90, 60])
    expect([check.questions.length, check.withoutAnswer.length]).toEqual([39, 16])
    const all = parts.flatMap((part) => [...part.questions.map(({ typed }) => typed), ...part.withoutAnswer])
    expect(new Set(all.map((typed) => typed.toLowerCase())).size).toBe(285)
  })

  it('name places that are there, and words that stand in them', async () => {
    const lab = await openTestLab()
    await loadSample(lab, sample)
    const ids = await idsOfSample(lab)
    for (const { typed, places } of parts.flatMap((part) => part.questions)) {
      expect(places.length, typed).toBeGreaterThan(0)
      for (const { key, words } of places) {
        const id = ids.get(key)
        expect(id, `${typed}: ${key}`).toBeDefined()
        if (words === null) continue
        const capture = await lab.queries.findNewestCapture(id as never)
        expect(capture?.text, `${typed}: ${key}`).toContain(words)
      }
    }
    lab.close()
  })
})
