import { describe, expect, it } from 'vitest'
import {
  countTags,
  groupsOf,
  offersFor,
  toOwnSpelling,
} from '../../../../../renderer/panes/tagging/offers.ts'
import type { SuggestedTag } from '../../../../../renderer/workers/tags.ts'

const own = countTags([
  ['disk', 'rack'],
  ['rack', 'time-sync'],
  ['rack', 'Disk image'],
  ['old disk'],
  ['disk'],
])
const words = (typed: string, has: string[] = []): string[] =>
  offersFor(typed, own, has).map(({ tag }) => tag)

describe('own tags', () => {
  it('are counted, the most used first', () => {
    expect(own.slice(0, 2)).toEqual([
      { tag: 'rack', uses: 3 },
      { tag: 'disk', uses: 2 },
    ])
  })

  it('are offered where they begin with what is typed, then where a word of them does, in any case', () => {
    expect(words('DIS')).toEqual(['disk', 'Disk image', 'old disk'])
    expect(words('sync')).toEqual(['time-sync'])
    expect(words('ime')).toEqual([])
    expect(words('isk')).toEqual([])
  })

  it('are not offered to a thing that has them, and all of them where nothing is typed', () => {
    expect(words('dis', ['disk'])).toEqual(['Disk image', 'old disk'])
    expect(words('')[0]).toBe('rack')
    expect(words('')).toHaveLength(5)
  })

  it('give their spelling to what differs only in case or in what joins its words', () => {
    expect(toOwnSpelling('Time Sync', own)).toBe('time-sync')
    expect(toOwnSpelling('disk', own)).toBe('disk')
    expect(toOwnSpelling('dome', own)).toBe('dome')
  })
})

it('suggestions with the same reason stand together, in the place of the first of them', () => {
  const near = { kind: 'near', name: 'Rack', node: { kind: 'source', id: 'a' } } as SuggestedTag['why']
  const list: SuggestedTag[] = [
    { tag: 'one', chance: 0.9, why: near },
    { tag: 'two', chance: 0.8, why: { kind: 'named' } },
    { tag: 'three', chance: 0.7, why: near },
    { tag: 'four', chance: 0, why: { kind: 'phrase' } },
  ]
  expect(groupsOf(list).map(({ words, tags }) => [words, ...tags.map(({ tag }) => tag)])).toEqual([
    ['near “Rack”', 'one', 'three'],
    ['stands in the text', 'two'],
    ['from the text', 'four'],
  ])
})
