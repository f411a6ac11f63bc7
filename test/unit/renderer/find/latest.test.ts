import { describe, expect, it } from 'vitest'
import { LatestQuestion } from '../../../../renderer/find/latest.ts'

function scene() {
  const asked: { question: string; answer: (text: string) => void; fail: () => void }[] = []
  const shown: string[] = []
  const failed: unknown[] = []
  const frames: (() => void)[] = []
  const latest = new LatestQuestion<string, string>(
    (question) =>
      new Promise((resolve, reject) =>
        asked.push({ question, answer: resolve, fail: () => reject(new Error('broken')) }),
      ),
    (answer, question) => shown.push(`${question}: ${answer}`),
    (error) => failed.push(error),
    (then) => frames.push(then),
  )
  const questions = (): string[] => asked.map(({ question }) => question)
  const rest = (): Promise<void> => new Promise((resolve) => setTimeout(resolve))
  const frame = (): void => frames.splice(0).forEach((then) => then())
  return { latest, asked, shown, failed, questions, rest, frame }
}

describe('questions that follow each other fast', () => {
  it('go out one at a time and one a frame, the newest alone of those that came meanwhile', async () => {
    const { latest, asked, questions, rest, frame } = scene()
    for (const one of ['d', 'di', 'dis']) latest.want(one)
    expect(questions()).toEqual(['d'])
    frame()
    expect(questions()).toEqual(['d'])
    asked[0]!.answer('x')
    await rest()
    expect(questions()).toEqual(['d', 'dis'])
    latest.want('disk')
    asked[1]!.answer('x')
    await rest()
    // Answered within its frame: the next waits for the next one.
    expect(questions()).toEqual(['d', 'dis'])
    frame()
    expect(questions()).toEqual(['d', 'dis', 'disk'])
  })

  it('show no answer to a question that was replaced, and none after they were dropped', async () => {
    const { latest, asked, shown, rest, frame } = scene()
    latest.want('old')
    latest.want('new')
    asked[0]!.answer('stale')
    await rest()
    frame()
    asked[1]!.answer('true')
    await rest()
    expect(shown).toEqual(['new: true'])
    frame()
    latest.want('another')
    latest.drop()
    asked[2]!.answer('late')
    await rest()
    expect(shown).toEqual(['new: true'])
  })

  it('are settled once the newest is answered or has failed', async () => {
    const { latest, asked, failed, rest, frame } = scene()
    let isSettled = false
    latest.want('a')
    latest.want('b')
    void latest.settled().then(() => (isSettled = true))
    asked[0]!.answer('x')
    await rest()
    expect(isSettled).toBe(false)
    frame()
    asked[1]!.fail()
    await rest()
    expect(isSettled).toBe(true)
    expect(failed).toHaveLength(1)
    await latest.settled()
  })
})
