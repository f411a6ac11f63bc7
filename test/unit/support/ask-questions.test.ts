import { describe, expect, it } from 'vitest'
import { loadSample } from '../../../renderer/labs/loadSample.ts'
import { sample } from '../../../renderer/labs/sample/index.ts'
import { writtenQuestions } from '../../support/ask/questions.ts'
import { idsOfSample } from '../../support/ask/sample-keys.ts'
import { openTestLab } from './lab.ts'

describe('the questions to the sample lab', () => {
  const open = writtenQuestions('open')
  const frozen = writtenQuestions('frozen')

  it('are sixty and twenty, half of them frozen, and none stands in both halves', () => {
    for (const half of [open, frozen])
      expect([half.questions.length, half.withoutAnswer.length]).toEqual([30, 10])
    const all = [open, frozen].flatMap((half) => [
      ...half.questions.map(({ typed }) => typed),
      ...half.withoutAnswer,
    ])
    expect(new Set(all).size).toBe(80)
  })

  it('name places that are there, and words that stand in them', async () => {
    const lab = await openTestLab()
    await loadSample(lab, sample)
    const ids = await idsOfSample(lab)
    for (const { typed, places } of [...open.questions, ...frozen.questions]) {
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
