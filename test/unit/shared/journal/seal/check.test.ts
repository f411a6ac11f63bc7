import { describe, expect, it } from 'vitest'
import { eveningAtTheRack, Journal } from './scenario.ts'

describe('a sealed journal', () => {
  it('holds as it was written, with what was struck out named', () => {
    const journal = eveningAtTheRack()
    const result = journal.check()
    expect(result).toMatchObject({ ok: true, count: journal.seals.length, late: 0 })
    if (!result.ok) return
    expect(result.struck.map(({ number, field }) => `${number} ${field}`)).toEqual(['2 text', '9 text'])
  })

  it('names the entry whose text was changed', () => {
    const journal = eveningAtTheRack()
    journal.revisions[0] = {
      ...journal.revisions[0]!,
      changeSet: [[0, 'The weather logger writes no lines since 18:40.']],
    }
    expect(journal.check()).toMatchObject({
      ok: false,
      firstBreak: { code: 'words', number: 1, field: 'text' },
    })
  })

  it('holds an empty journal', () => {
    expect(new Journal().check()).toMatchObject({ ok: true, head: null, count: 0 })
  })
})
