import { describe, expect, it } from 'vitest'
import { SumDrafts } from '../../../../renderer/fetches/sumDrafts.ts'

function aLab(kept: Record<string, unknown> = {}) {
  return {
    kept,
    findSetting: (key: string) => Promise.resolve(kept[key]),
    keepSetting: (key: string, value: unknown) => {
      kept[key] = value
      return Promise.resolve()
    },
  }
}

describe('a sum that is being typed', () => {
  it('is kept with the lab and comes back, until it is given up', async () => {
    const lab = aLab()
    const drafts = new SumDrafts(lab, 'sums')
    drafts.change('download a', 'abc')
    drafts.change('download b', 'def')
    await drafts.write()
    const again = new SumDrafts(lab, 'sums')
    await again.load()
    expect(again.store.getState()).toEqual({ 'download a': 'abc', 'download b': 'def' })
    again.change('download a', null)
    again.change('download b', null)
    await again.write()
    expect(lab.kept.sums).toBeNull()
  })
  it('that was typed before the kept ones were read stays', async () => {
    const drafts = new SumDrafts(aLab({ sums: { a: 'kept', b: 'kept' } }), 'sums')
    drafts.change('a', 'typed')
    await drafts.load()
    expect(drafts.store.getState()).toEqual({ a: 'typed', b: 'kept' })
    await drafts.write()
  })
  it('goes out of the field when it is struck out', async () => {
    const lab = aLab()
    const drafts = new SumDrafts(lab, 'sums')
    drafts.change('a', 'secret words')
    await drafts.write()
    lab.kept.sums = { a: '████████████' }
    await drafts.takeStruck()
    expect(drafts.store.getState()).toEqual({ a: '████████████' })
  })
  it('reads nothing that is not what it wrote', async () => {
    const drafts = new SumDrafts(aLab({ sums: { a: 3 } }), 'sums')
    await drafts.load()
    expect(drafts.store.getState()).toEqual({})
  })
})
