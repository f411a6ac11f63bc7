import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  newestPlace,
  toJournalPlace,
  toStoredPlace,
  withoutWords,
  type JournalPlace,
} from '../../../../../renderer/panes/journal/keptPlace.ts'
import { isFiltering } from '../../../../../renderer/panes/journal/rows.ts'
import type { EntryId } from '../../../../../shared/lab/ids.ts'
import { entryKinds, outcomes } from '../../../../../shared/lab/model.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

const { ids } = repeatableSurroundings(3)
const known = Array.from({ length: 4 }, () => ids.make<EntryId>())
const entry = fc.constantFrom(...known)
const setOf = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<Set<T>> => fc.array(one).map((all) => new Set(all))

const place: fc.Arbitrary<JournalPlace> = fc
  .record({
    filter: fc.record({
      kinds: setOf(fc.constantFrom(...entryKinds)),
      words: fc.string(),
      tags: setOf(fc.string()),
      place: fc.option(fc.string()),
      outcome: fc.option(fc.constantFrom(...outcomes)),
    }),
    isFilterShown: fc.boolean(),
    unfolded: setOf(entry),
    top: fc.option(fc.record({ entry, below: fc.double({ noNaN: true, noDefaultInfinity: true }) })),
  })
  .map((one) => ({ ...one, isFilterShown: one.isFilterShown || isFiltering(one.filter) }))

const inJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value))
const sorted = ({ filter, ...rest }: JournalPlace) => ({
  ...rest,
  filter: { ...filter, kinds: [...filter.kinds].sort(), tags: [...filter.tags].sort() },
  // JSON has no negative zero.
  top: rest.top && { ...rest.top, below: rest.top.below + 0 },
})

describe('the kept place of a journal', () => {
  it('is read back as it was stored, through JSON too', () => {
    fc.assert(
      fc.property(place, (one) => {
        expect(sorted(toJournalPlace(inJson(toStoredPlace(one))))).toEqual(sorted(one))
      }),
    )
  })

  it('is the newest entry, unfiltered, where nothing or nonsense was stored', () => {
    expect(toJournalPlace(undefined)).toEqual(newestPlace)
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(toJournalPlace(value)).toEqual(newestPlace)
      }),
    )
    expect(toJournalPlace({ filter: { kinds: ['fix', 'no kind'] }, top: { entry: 'x', below: 1 } })).toEqual({
      ...newestPlace,
      filter: { ...newestPlace.filter, kinds: new Set(['fix']) },
      isFilterShown: true,
    })
  })

  it('goes to the disk without the words that were looked for', () => {
    const stored = toStoredPlace({ ...newestPlace, filter: { ...newestPlace.filter, words: 'hunter2' } })
    expect(JSON.stringify(withoutWords(stored))).not.toContain('hunter2')
  })
})
