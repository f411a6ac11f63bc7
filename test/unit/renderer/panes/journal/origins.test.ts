import { describe, expect, it } from 'vitest'
import {
  linkIndexOf,
  nameOfOlder,
  outcomeWords,
  placesOfOlder,
} from '../../../../../renderer/panes/journal/origins.ts'
import type { CaptureHead } from '../../../../../shared/lab/model.ts'
import type { CaptureId, EntryId, LinkId, PartId, StepId } from '../../../../../shared/lab/ids.ts'
import type { Entry, Link, LinkState, Part, Source } from '../../../../../shared/lab/model.ts'

const link = (id: string, newer: Link['newer']['node'], older: Link['older']['node']): Link =>
  ({
    id: id as LinkId,
    newer: { node: newer, revision: null, ranges: [] },
    older: { node: older, revision: null, ranges: [] },
  }) as unknown as Link

const part = (id: string) => ({ kind: 'part', id: id as PartId }) as const
const entry = (id: string) => ({ kind: 'entry', id: id as EntryId }) as const
const capture = { kind: 'capture', id: 'k' as CaptureId } as const

const parts = new Map(
  [
    ['do4', 's4'],
    ['expect4', 's4'],
    ['do5', 's5'],
    ['purpose', null],
  ].map(([id, step]) => [id!, { id, step: step as StepId | null } as unknown as Part]),
)

describe('linkIndexOf', () => {
  it('finds links from both ends and is made once for the same links', () => {
    const links = new Map([
      ['1', link('1', entry('e'), capture)],
      ['2', link('2', part('do4'), entry('e'))],
      ['3', link('3', part('do5'), entry('e'))],
    ])
    const index = linkIndexOf(links)
    expect(index.from.get('e')?.map(({ id }) => id)).toEqual(['1'])
    expect(index.to.get('e')?.map(({ id }) => id)).toEqual(['2', '3'])
    expect(index.from.get('nothing')).toBeUndefined()
    expect(linkIndexOf(links)).toBe(index)
  })
})

describe('outcomeWords', () => {
  const to = (id: string) => link(id, part(id), entry('e'))

  it('counts steps, not parts', () => {
    expect(outcomeWords([to('do4'), to('expect4')], parts)).toBe('1 step')
    expect(outcomeWords([to('do4'), to('expect4'), to('do5')], parts)).toBe('2 steps')
  })

  it('counts what is no step beside them', () => {
    expect(outcomeWords([to('purpose')], parts)).toBe('1 text')
    expect(outcomeWords([to('do4'), to('purpose')], parts)).toBe('1 step, 1 other text')
  })

  it('says nothing where nothing came of it', () => {
    expect(outcomeWords([], parts)).toBeNull()
  })
})

describe('nameOfOlder', () => {
  const view = {
    sources: new Map([['s', { id: 's', title: 'Moving a root file system' } as unknown as Source]]),
    captures: new Map([['k', { id: 'k', source: 's' } as unknown as CaptureHead]]),
    entries: new Map([
      ['e', { kind: 'problem', moment: '2026-11-14T19:41:00.000+01:00' } as unknown as Entry],
    ]),
  }

  it('calls a capture by the title of its source, and an entry by kind and time', () => {
    expect(nameOfOlder(view, capture)).toBe('Moving a root file system')
    expect(nameOfOlder(view, entry('e'))).toBe('problem of 19:41')
  })

  it('has words for what this project does not hold', () => {
    expect(nameOfOlder(view, { kind: 'capture', id: 'gone' as CaptureId })).toBe('a source')
  })
})

describe('placesOfOlder', () => {
  it('leaves out ranges of which nothing is left', () => {
    const state = { older: { places: [{ start: 3, end: 5 }, null] } } as unknown as LinkState
    expect(placesOfOlder(state)).toEqual([{ start: 3, end: 5 }])
    expect(placesOfOlder(undefined)).toEqual([])
  })
})
