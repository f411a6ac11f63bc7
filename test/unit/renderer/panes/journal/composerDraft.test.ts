import { noFacts } from '../../../../../shared/lab/acts.ts'
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { DraftKeeper, joinTexts } from '../../../../../renderer/panes/journal/composerDraft.ts'
import type { ProjectId, WindowId } from '../../../../../shared/lab/ids.ts'
import type { Draft } from '../../../../../shared/lab/model.ts'
import { fail, succeed } from '../../../../../shared/lab/result.ts'
import { maskText } from '../../../../../shared/safety/mask.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

function setUp() {
  const kept = new Map<string, Draft>()
  const said: (string | null)[] = []
  const store = {
    isFull: false,
    writes: 0,
    surroundings: repeatableSurroundings(),
    queries: { drafts: () => Promise.resolve([...kept.values()]) },
    saveDraft(draft: Draft) {
      store.writes++
      if (store.isFull) return Promise.resolve(fail('full' as never, 'The disk is full.'))
      kept.set(draft.key, draft)
      return Promise.resolve(succeed(null))
    },
    dropDraft(key: string) {
      kept.delete(key)
      return Promise.resolve(succeed(null))
    },
  }
  const keeper = new DraftKeeper(store, {
    project: 'p' as ProjectId,
    window: 'w' as WindowId,
    onUnsaved: (sentence) => said.push(sentence),
  })
  return { kept, said, store, keeper }
}

describe('DraftKeeper', () => {
  it('writes within a second of the first key, however long the typing goes on', async () => {
    const { kept, keeper, store } = setUp()
    for (let typed = 1; typed <= 20; typed++) {
      keeper.keep({ kind: 'action', text: 'x'.repeat(typed), facts: noFacts, answers: null })
      await vi.advanceTimersByTimeAsync(100)
      if (typed >= 10) expect(kept.get(keeper.key)?.text.length).toBeGreaterThanOrEqual(typed - 9)
    }
    expect(store.writes).toBeLessThan(8)
  })

  it('writes the latest text when it is flushed, and finds it again', async () => {
    const { keeper } = setUp()
    keeper.keep({ kind: 'action', text: 'a', facts: noFacts, answers: null })
    keeper.keep({ kind: 'fix', text: 'ab', facts: noFacts, answers: null })
    await keeper.flush()
    expect(await keeper.find()).toEqual({ kind: 'fix', text: 'ab', facts: noFacts, answers: null })
  })

  it('leaves no draft of an empty composer', async () => {
    const { keeper, kept } = setUp()
    keeper.keep({ kind: 'action', text: 'a', facts: noFacts, answers: null })
    await keeper.flush()
    keeper.keep({ kind: 'action', text: '', facts: noFacts, answers: null })
    await keeper.flush()
    expect(kept.size).toBe(0)
  })

  it('says why a draft was not kept, and that it is again', async () => {
    const { keeper, store, said } = setUp()
    store.isFull = true
    keeper.keep({ kind: 'action', text: 'a', facts: noFacts, answers: null })
    await keeper.flush()
    store.isFull = false
    keeper.keep({ kind: 'action', text: 'ab', facts: noFacts, answers: null })
    await keeper.flush()
    expect(said).toEqual(['The disk is full.', null])
  })

  it('takes a struck secret out of the text on the screen and keeps what was typed since', async () => {
    const { keeper, kept } = setUp()
    keeper.keep({ kind: 'action', text: 'login with hunter22 now', facts: noFacts, answers: null })
    await keeper.flush()
    const draft = kept.get(keeper.key)!
    kept.set(keeper.key, { ...draft, text: maskText(draft.text, 'hunter22') })
    expect(await keeper.findStruck('login with hunter22 now, then stop')).toBe(
      'login with ████████ now, then stop',
    )
    expect(await keeper.findStruck('anything')).toBeNull()
  })
})

describe('joinTexts', () => {
  it('sets the second behind the first as a paragraph of its own', () => {
    expect(joinTexts('one\n', 'two')).toBe('one\n\ntwo')
    expect(joinTexts('', 'two')).toBe('two')
    expect(joinTexts('one', ' ')).toBe('one')
  })

  it('loses no visible character of either', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (first, second) => {
        const visible = (text: string) => text.replace(/\s/gu, '')
        expect(visible(joinTexts(first, second))).toBe(visible(first) + visible(second))
      }),
    )
  })
})
