import { describe, expect, it } from 'vitest'
import {
  beginAnew,
  changeFilter,
  changeSort,
  chooseAll,
  chooseTo,
  clearFilter,
  closeRow,
  endChoosing,
  goToRow,
  listStoreOf,
  openRow,
  toggleChosen,
  toggled,
  type KeepsSettings,
} from '../../../../../../renderer/panes/sources/list/listState.ts'
import type { SourceId } from '../../../../../../shared/lab/ids.ts'
import { noFilter } from '../../../../../../shared/sources/filter.ts'

class Lab implements KeepsSettings {
  readonly kept = new Map<string, unknown>()
  findSetting(key: string): Promise<unknown> {
    return Promise.resolve(this.kept.get(key))
  }
  keepSetting(key: string, value: unknown): Promise<void> {
    this.kept.set(key, JSON.parse(JSON.stringify(value)))
    return Promise.resolve()
  }
}

async function openStore(lab = new Lab()) {
  const store = listStoreOf(lab)
  await new Promise((done) => setTimeout(done))
  return { lab, store, state: () => store.getState() }
}

const ids = ['a', 'b', 'c', 'd', 'e'] as SourceId[]
const [a, b, c, d, e] = ids as [SourceId, SourceId, SourceId, SourceId, SourceId]
const chosenIn = ({ chosen }: { readonly chosen: ReadonlySet<string> }) => [...chosen].sort().join('')

describe('what was chosen for the list', () => {
  it('is kept with the lab and there again after a restart, without what is selected', async () => {
    const { lab, store } = await openStore()
    changeFilter(store, { tags: ['raid'], scope: 'lab', words: 'mast' })
    changeSort(store, 'title')
    store.setState({ apart: [['a', 'b']] })
    toggleChosen(store, a)
    const again = new Lab()
    for (const [key, value] of lab.kept) again.kept.set(key, value)
    const { state } = await openStore(again)
    expect(state().order).toEqual({
      sort: 'title',
      filter: { ...noFilter, tags: ['raid'], scope: 'lab', words: 'mast' },
    })
    expect(state().apart).toEqual([['a', 'b']])
    expect(state().chosen.size).toBe(0)
  })

  it('is one for each lab, whoever asks', async () => {
    const { lab, store } = await openStore()
    expect(listStoreOf(lab)).toBe(store)
    expect(listStoreOf(new Lab())).not.toBe(store)
  })

  it('is shown all of the same scope when the filter is cleared', async () => {
    const { store, state } = await openStore()
    changeFilter(store, { scope: 'lab', kinds: ['pdf'], from: '2026-01-01' })
    clearFilter(store)
    expect(state().order.filter).toEqual({ ...noFilter, scope: 'lab' })
  })

  it('is the usual where settings cannot be read', async () => {
    const broken: KeepsSettings = {
      findSetting: () => Promise.reject(new Error('closed')),
      keepSetting: () => Promise.resolve(),
    }
    const store = listStoreOf(broken)
    await new Promise((done) => setTimeout(done))
    expect(store.getState()).toMatchObject({ isRead: true, order: { filter: noFilter, sort: 'newest' } })
  })
})

describe('selecting several', () => {
  it('adds and lets go one by one, and begins by the first', async () => {
    const { store, state } = await openStore()
    toggleChosen(store, b)
    toggleChosen(store, d)
    toggleChosen(store, b)
    expect([state().isChoosing, chosenIn(state())]).toEqual([true, 'd'])
  })

  it('adds the stretch from the last selected row to another, either way', async () => {
    const { store, state } = await openStore()
    toggleChosen(store, c)
    chooseTo(store, ids, e)
    expect(chosenIn(state())).toBe('cde')
    chooseTo(store, ids, b)
    expect(chosenIn(state())).toBe('bcde')
  })

  it('begins a stretch at the row that the keyboard is at where none is selected', async () => {
    const { store, state } = await openStore()
    goToRow(store, b)
    chooseTo(store, ids, d)
    expect(chosenIn(state())).toBe('bcd')
  })

  it('begins a stretch anew where its beginning is not shown any more', async () => {
    const { store, state } = await openStore()
    toggleChosen(store, a)
    chooseTo(store, [c, d, e], d)
    expect(chosenIn(state())).toBe('ad')
  })

  it('takes all that are shown, and ends with none', async () => {
    const { store, state } = await openStore()
    chooseAll(store, [a, c])
    expect(chosenIn(state())).toBe('ac')
    store.setState({ bulk: 'tags' })
    endChoosing(store)
    expect(state()).toMatchObject({ isChoosing: false, bulk: null, anchor: null })
    expect(chosenIn(state())).toBe('')
  })
})

it('a row that was opened and closed has the keyboard again', async () => {
  const { store, state } = await openStore()
  openRow(store, b, 'tags')
  expect(state().opened.get(b)).toBe('tags')
  const { calls } = state()
  closeRow(store, b)
  expect([state().opened.size, state().current, state().calls]).toEqual([0, b, calls + 1])
})

it('another project begins with nothing selected and the same order', async () => {
  const { store, state } = await openStore()
  changeFilter(store, { words: 'mast' })
  toggleChosen(store, a)
  openRow(store, a, 'fields')
  beginAnew(store)
  expect(state()).toMatchObject({ isRead: true, isChoosing: false, current: null })
  expect([state().chosen.size, state().opened.size]).toEqual([0, 0])
  expect(state().order.filter.words).toBe('mast')
})

it('a thing is put in where it was not and taken out where it was', () => {
  expect(toggled(['x', 'y'], 'x')).toEqual(['y'])
  expect(toggled(toggled(['x'], 'y'), 'y')).toEqual(['x'])
})
