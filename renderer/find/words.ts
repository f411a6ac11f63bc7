/** How what was found is called on the screen. Pure. */
import type { FindQuery } from '../../shared/find/query/query.ts'
import type { Outcome } from '../../shared/lab/model.ts'
import { instantOf, offsetOf, type Moment } from '../../shared/lab/moment.ts'
import { offsetNameOf } from '../panes/journal/rows.ts'
import { dayAndTimeOf } from '../panes/sources/rows.ts'
import type { FoundCommand, FoundHit } from '../workers/find.ts'
import type { FoundGroup, GroupName } from './groups.ts'

export const groupWords: Readonly<Record<FoundGroup['name'], string>> = {
  filters: 'Filters',
  answers: 'Out of the lab’s own words',
  all: 'In the order of time',
  source: 'Sources',
  entry: 'Entries',
  problem: 'Problems',
  file: 'Files',
  command: 'Commands',
  procedure: 'Procedures',
  step: 'Steps',
  project: 'Projects',
  machine: 'Machines',
  act: 'Acts of the program',
}

/** For the buttons that narrow, where there is little room. */
export const narrowWord = (name: GroupName): string => (name === 'act' ? 'Acts' : groupWords[name])

/** The way to a thing: project › procedure › step 4. Empty for what belongs nowhere. */
export function wayTo({ thing, projects, procedure }: FoundHit): string {
  const [first] = projects
  const others = projects.length > 1 ? ` and ${projects.length - 1} more` : ''
  const parts = [first ? `${first.title}${others}` : '']
  if (procedure) {
    parts.push(procedure.title || 'Untitled procedure')
    parts.push(procedure.number === '' ? 'section' : `step ${procedure.number}`)
  } else if (thing === 'source' && !first) parts.push('in no project')
  return parts.filter((part) => part !== '').join(' › ')
}

/**
 * When it happened, as the journal shows it: by the clock that it was written by, with its offset where that is not the one
 * here. Empty for what has no time.
 * @param offsetAt of local time at an instant, minutes east of UTC
 */
export function whenOf(moment: Moment | null, offsetAt: (ms: number) => number): string {
  if (moment === null) return ''
  const isHere = offsetOf(moment) === offsetAt(instantOf(moment))
  return isHere ? dayAndTimeOf(moment) : `${dayAndTimeOf(moment)} ${offsetNameOf(moment)}`
}

export const localOffsetAt = (ms: number): number => -new Date(ms).getTimezoneOffset()

export const outcomeWords: Readonly<Record<Outcome, string>> = {
  succeeded: 'succeeded',
  failed: 'failed',
  unknown: 'outcome unknown',
}

/** How often it was run and with what outcome: '5 times: 3 succeeded, 2 unknown'; empty for once. */
export function howOften({ times, counts }: FoundCommand): string {
  if (times === 1) return ''
  const parts = (['succeeded', 'failed', 'unknown'] as const)
    .filter((outcome) => counts[outcome] > 0)
    .map((outcome) => `${counts[outcome]} ${outcome}`)
  return `${times} times: ${parts.join(', ')}`
}

export function whereRun({ runs: [last], projects }: FoundCommand): string {
  const others = projects.length > 1 ? ` and ${projects.length - 1} more` : ''
  return [last!.machine ? `on ${last!.machine}` : '', `${last!.project.title}${others}`]
    .filter((part) => part !== '')
    .join(' · ')
}

/** What could be tried where nothing was found. */
export function adviceFor({ words, phrases, excluded, filters }: FindQuery): string {
  if (filters.length > 0) return 'Take a filter away, or look for its words instead.'
  if (excluded.length > 0) return 'Take away what is left out.'
  if (phrases.length > 0) return 'Try the words without their quotes.'
  if (words.length > 1) return 'Try fewer words, or only the beginning of one.'
  return 'Try another word, or only its beginning.'
}

/** Said when an answer came. */
export function countedWords(counts: ReadonlyMap<GroupName, number>): string {
  const all = [...counts].map(([name, count]) => `${count.toLocaleString('en')} ${nounFor(name, count)}`)
  return all.length === 0 ? 'Nothing found.' : `Found: ${all.join(', ')}.`
}

function nounFor(name: GroupName, count: number): string {
  if (name === 'act') return count === 1 ? 'act of the program' : 'acts of the program'
  const word = groupWords[name].toLowerCase()
  if (count !== 1) return word
  return name
}
