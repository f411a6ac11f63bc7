/** What was found, by thing: the groups in their order, and the rows that the keyboard goes through. Pure. */
import { foundThings, type FoundThing } from '../../shared/find/document.ts'
import type { SearchOptions } from '../../shared/find/index/answer.ts'
import type { FoundAnswer, FoundCommand, FoundCommands, FoundHit } from '../workers/find.ts'
import type { FoundAct } from './acts.ts'
import type { AnswerRow } from './answers.ts'
import type { Completion } from './completions.ts'

export type FindOrder = NonNullable<SearchOptions['order']>

/** What the rows can be narrowed to. */
export type GroupName = FoundThing | 'act'

export type FoundRow =
  | { readonly is: 'completion'; readonly key: string; readonly completion: Completion }
  | { readonly is: 'hit'; readonly key: string; readonly hit: FoundHit }
  | { readonly is: 'command'; readonly key: string; readonly command: FoundCommand }
  | { readonly is: 'act'; readonly key: string; readonly found: FoundAct }
  | AnswerRow
  /** Shows more of its group. */
  | { readonly is: 'more'; readonly key: string; readonly of: GroupName | 'all'; readonly count: number }

export interface FoundGroup {
  /** `filters` is how a filter may go on; `answers` is what answers a question; `all` is everything in the order of time. */
  readonly name: GroupName | 'filters' | 'answers' | 'all'
  readonly rows: readonly FoundRow[]
  /** How many there are, shown or not; null where they are not counted. */
  readonly count: number | null
}

export interface FoundParts {
  readonly answer: FoundAnswer | null
  readonly commands: FoundCommands | null
  readonly acts: readonly FoundAct[]
  readonly completions: readonly Completion[]
  readonly answers: readonly AnswerRow[]
  readonly order: FindOrder
  /** The one group that is shown; null for all. */
  readonly narrow: GroupName | null
}

/** So many rows of a group are shown beside others. */
export const SHOWN_AT_FIRST = 5

/** How many there are of each group, in the order in which they are offered for narrowing. */
export function countsOf({
  answer,
  commands,
  acts,
}: Pick<FoundParts, 'answer' | 'commands' | 'acts'>): ReadonlyMap<GroupName, number> {
  const counted = new Map(answer?.counts)
  const counts = foundThings.map((thing): [GroupName, number] => [
    thing,
    thing === 'command' ? (commands?.count ?? 0) : (counted.get(thing) ?? 0),
  ])
  return new Map([...counts, ['act', acts.length] as const].filter(([, count]) => count > 0))
}

/**
 * The groups, best first: by their best hit; before all what a filter may go on as, and what answers a question. A command or an act that is called as was
 * typed stands with the best, and before them where no text holds the words; others behind.
 */
export function toGroups(parts: FoundParts): FoundGroup[] {
  const { completions, answers, narrow, order } = parts
  const filters = completions.map((completion): FoundRow => ({
    is: 'completion',
    key: `filter ${completion.text}`,
    completion,
  }))
  const head: FoundGroup[] = filters.length > 0 ? [{ name: 'filters', rows: filters, count: null }] : []
  if (answers.length > 0 && narrow === null) head.push({ name: 'answers', rows: answers, count: null })
  if (narrow !== null) return [...head, ...groupOf(parts, narrow, Infinity)]
  if (order !== 'best') return [...head, ...inOrder(parts)]
  const hits = thingsByBest(parts.answer?.hits ?? []).flatMap((thing) =>
    groupOf(parts, thing, SHOWN_AT_FIRST),
  )
  const commands = groupOf(parts, 'command', SHOWN_AT_FIRST)
  const acts = groupOf(parts, 'act', SHOWN_AT_FIRST)
  const isCommandBegun = parts.commands?.commands.some(({ marks }) => marks[0]?.start === 0) ?? false
  const areActsMeant = parts.acts[0]?.isCalledSo ?? false
  // What is in no text was looked for by words like it: an act that is called so is nearer.
  if (areActsMeant && isGuessed(parts.answer)) return [...head, ...acts, ...hits, ...commands]
  const [best, ...others] = isCommandBegun ? [...commands, ...hits] : [...hits, ...commands]
  if (!best) return [...head, ...acts]
  return [...head, best, ...(areActsMeant ? [...acts, ...others] : [...others, ...acts])]
}

/** All rows that the keyboard goes through. */
export function rowsOf(groups: readonly FoundGroup[]): FoundRow[] {
  return groups.flatMap(({ rows }) => rows)
}

function isGuessed(answer: FoundAnswer | null): boolean {
  const words = answer?.taken.words ?? []
  return words.length > 0 && words.every(({ respelt }) => respelt.length > 0)
}

function thingsByBest(hits: readonly FoundHit[]): FoundThing[] {
  return [...new Set(hits.map(({ thing }) => thing))]
}

function groupOf(parts: FoundParts, name: GroupName, most: number): FoundGroup[] {
  const rows = rowsIn(parts, name)
  const count = countsOf(parts).get(name) ?? 0
  if (rows.length === 0) return []
  const shown = rows.slice(0, most)
  return [{ name, rows: [...shown, ...moreOf(name, Math.max(count, rows.length) - shown.length)], count }]
}

function moreOf(of: GroupName | 'all', count: number): FoundRow[] {
  return count > 0 ? [{ is: 'more', key: `more ${of}`, of, count }] : []
}

function rowsIn({ answer, commands, acts }: FoundParts, name: GroupName): FoundRow[] {
  if (name === 'act') return acts.map((found) => ({ is: 'act', key: `act ${found.act.id}`, found }))
  if (name === 'command')
    return (commands?.commands ?? []).map((command) => ({
      is: 'command',
      key: `command ${command.command}`,
      command,
    }))
  return (answer?.hits ?? []).filter(({ thing }) => thing === name).map(toRow)
}

function inOrder({ answer }: FoundParts): FoundGroup[] {
  const hits = answer?.hits ?? []
  if (hits.length === 0) return []
  const count = (answer?.counts ?? []).reduce((sum, [, one]) => sum + one, 0)
  return [{ name: 'all', rows: [...hits.map(toRow), ...moreOf('all', count - hits.length)], count }]
}

function toRow(hit: FoundHit): FoundRow {
  return { is: 'hit', key: `hit ${hit.id}`, hit }
}
