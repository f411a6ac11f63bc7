/** Maps as they could be: things of three bands with groups, and what joins them. */
import fc from 'fast-check'
import type { MapMatter, MapThing } from '../../../../shared/map/model.ts'

const two = (n: number): string => String(n).padStart(2, '0')

export function thing(
  band: MapThing['band'],
  at: number,
  groups: readonly string[] = [],
  more: Partial<MapThing> = {},
): MapThing {
  const key = `${band.charAt(0)}${at}`
  const kind = band === 'sources' ? 'page' : band === 'journal' ? 'action' : 'step'
  return {
    ...{
      key,
      node: null,
      band,
      kind,
      title: '',
      words: `thing ${key}`,
      tags: [],
      day: null,
      procedure: null,
    },
    groups: groups.map((name) => ({ key: `in ${band} ${name}`, name })),
    isWithdrawn: false,
    ...more,
  }
}

/** Entries one after the other over the days of several years. */
export function longJournal(count: number): MapThing[] {
  return Array.from({ length: count }, (_, i) => {
    const day = `${2020 + Math.floor((i * 5) / count)}-${two(1 + (Math.floor(i / 40) % 12))}-${two(1 + (i % 28))}`
    return thing('journal', i, [day.slice(0, 4), day.slice(0, 7), day], { day })
  })
}

export const matters: fc.Arbitrary<MapMatter> = fc
  .record({
    sources: fc.array(fc.nat(3), { maxLength: 40 }),
    journal: fc.array(fc.tuple(fc.nat(2), fc.nat(4)), { maxLength: 60 }),
    procedure: fc.array(fc.nat(3), { maxLength: 40 }),
    joins: fc.array(fc.tuple(fc.nat(1000), fc.nat(1000), fc.boolean()), { maxLength: 80 }),
  })
  .map(({ sources, journal, procedure, joins }) => {
    const tags = (n: number): string[] => (n % 2 === 0 ? ['even'] : [])
    const things = [
      ...sources.map((month, i) =>
        thing('sources', i, [`m${month}`], { day: `2026-01-0${month + 1}`, tags: tags(i) }),
      ),
      ...journal.map(([year, day], i) =>
        thing('journal', i, [`y${year}`, `y${year} d${day}`], {
          day: `202${year}-02-0${day + 1}`,
          tags: tags(day),
        }),
      ),
      ...procedure.map((n, i) =>
        thing('procedure', i, [`p${n % 2}`, `p${n % 2} s${n}`], { procedure: `p${n % 2}` }),
      ),
    ]
    const relations = joins.flatMap(([a, b, isLoose]) => {
      const [newer, older] = [things[a % (things.length || 1)], things[b % (things.length || 1)]]
      return newer && older && newer !== older ? [{ newer: newer.key, older: older.key, isLoose }] : []
    })
    return { things, relations, outside: 0 }
  })
