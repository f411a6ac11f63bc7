/** The filters and exclusions that were read out of what was typed, as chips that can be taken away again. Pure. */
import type { FindFilter, FindQuery, TimeSpan } from '../../shared/find/query/query.ts'
import type { Range } from '../../shared/lab/model.ts'
import { toMoment } from '../../shared/lab/moment.ts'
import { dayAndTimeOf, dayOf } from '../panes/sources/rows.ts'

export interface Chip {
  /** Unlike that of any other chip of the same query. */
  readonly key: string
  readonly sort: string
  readonly word: string
  readonly range: Range
  /** It was read from plain words, which may have been meant as words. */
  readonly canKeep: boolean
}

/** @param titleOf a project's title @param offsetAt the offset of local time at an instant, minutes east of UTC */
export function chipsOf(
  { typed, filters, excluded }: FindQuery,
  titleOf: (project: string) => string,
  offsetAt: (ms: number) => number,
): Chip[] {
  const written = ({ start, end }: Range): string => typed.slice(start, end)
  const read = filters.map((filter): Chip => ({
    ...chipOf(filter, titleOf, offsetAt),
    key: `filter ${filter.range.start}`,
    range: filter.range,
    canKeep: filter.by === 'time' && !written(filter.range).startsWith('when:'),
  }))
  const without = excluded.map((phrase): Chip => ({
    key: `without ${phrase.range.start}`,
    sort: 'Without',
    word: phrase.written,
    range: phrase.range,
    canKeep: written(phrase.range).startsWith('-'),
  }))
  return [...read, ...without].sort((one, other) => one.range.start - other.range.start)
}

function chipOf(
  filter: FindFilter,
  titleOf: (project: string) => string,
  offsetAt: (ms: number) => number,
): { sort: string; word: string } {
  switch (filter.by) {
    case 'thing':
      return { sort: 'Thing', word: filter.thing }
    case 'kind':
      return { sort: 'Kind', word: filter.kind }
    case 'project':
      return { sort: 'In', word: wordOfProjects(filter, titleOf) }
    case 'tag':
      return { sort: 'Tag', word: filter.tag }
    case 'place':
      return { sort: 'Place', word: filter.place }
    case 'state':
      return { sort: 'Entries', word: filter.state }
    case 'time':
      return { sort: 'When', word: wordOfSpan(filter.span, offsetAt) }
  }
}

function wordOfProjects(
  { written, projects }: Extract<FindFilter, { by: 'project' }>,
  titleOf: (project: string) => string,
): string {
  if (projects.length === 0) return `no project is called “${written}”`
  if (projects.length > 1) return `${projects.length} projects called “${written}”`
  return titleOf(projects[0]!) || written
}

const DAY = 86_400_000

/** Days where the span begins and ends with them, else with hours and minutes. Its end is the last that still counts. */
function wordOfSpan({ from, to }: TimeSpan, offsetAt: (ms: number) => number): string {
  const local = (ms: number): number => ms + offsetAt(ms) * 60_000
  const isDay = (ms: number | null): boolean => ms === null || local(ms) % DAY === 0
  const areDays = isDay(from) && isDay(to)
  const write = (ms: number): string => {
    const moment = toMoment(ms, offsetAt(ms))
    return areDays ? dayOf(moment) : dayAndTimeOf(moment)
  }
  const first = from === null ? null : write(from)
  const last = to === null ? null : write(areDays ? to - 1 : to)
  if (first === null) return last === null ? 'any time' : `${areDays ? 'until' : 'before'} ${last}`
  if (last === null) return `from ${first}`
  return first === last ? first : `${first} to ${last}`
}
