import { describe, expect, it } from 'vitest'
import { LatestAnswer, type AnswerState } from '../../../../renderer/store/latestAnswer.ts'
import type { Answered } from '../../../../renderer/workers/project.ts'

function setUp() {
  const waiting: { resolve: (one: Answered<string>) => void; reject: (error: Error) => void }[] = []
  const states: AnswerState<string>[] = []
  const latest = new LatestAnswer<string>(
    () => new Promise((resolve, reject) => waiting.push({ resolve, reject })),
    (state) => states.push(state),
  )
  const answer = async (sequence: number, words: string): Promise<void> => {
    waiting.shift()!.resolve({ sequence, answer: words })
    await new Promise((go) => setTimeout(go))
  }
  return { latest, states, waiting, answer }
}

describe('the latest answer', () => {
  it('is never one of an older state: it is asked for again', async () => {
    const { latest, waiting, answer, states } = setUp()
    const first = latest.upTo(3)
    const second = latest.upTo(7)
    expect(waiting).toHaveLength(1)
    await answer(4, 'old')
    expect(await first).toBe('old')
    expect(waiting).toHaveLength(1)
    await answer(7, 'new')
    expect(await second).toBe('new')
    expect(await latest.upTo(6)).toBe('new')
    expect(states.map(({ answered }) => answered?.answer)).toEqual(['old', 'new'])
  })

  it('that was forgotten while it was worked out is not shown', async () => {
    const { latest, answer, states } = setUp()
    const asked = latest.upTo(1)
    latest.forget()
    await answer(1, 'with the secret')
    await answer(2, 'without')
    expect(await asked).toBe('without')
    expect(states.map(({ answered }) => answered?.answer)).toEqual([undefined, 'without'])
  })

  it('fails where it could not be worked out, and can be asked for again', async () => {
    const { latest, waiting, answer, states } = setUp()
    const asked = latest.upTo(1)
    waiting.shift()!.reject(new Error('the worker is gone'))
    await expect(asked).rejects.toThrow('the worker is gone')
    expect(states.at(-1)).toEqual({ answered: null, hasFailed: true })
    const again = latest.upTo(1)
    await answer(1, 'well')
    expect(await again).toBe('well')
  })
})
