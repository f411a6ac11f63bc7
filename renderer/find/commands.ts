/** Which part of a command is looked for, and which commands the filters leave. Pure. */
import { fold } from '../../shared/find/index/fold.ts'
import type { FindFilter, FindQuery } from '../../shared/find/query/query.ts'
import { instantOf } from '../../shared/lab/moment.ts'
import type { FoundCommand, FoundCommands, FoundRun } from '../workers/find.ts'
import { withoutRange } from './typed.ts'

/** What of a query may stand in a command: all that is no filter and no exclusion, without its quotes. */
export function partOf({
  typed,
  filters,
  excluded,
}: Pick<FindQuery, 'typed' | 'filters' | 'excluded'>): string {
  const out = [...filters, ...excluded].map(({ range }) => range).sort((a, b) => b.start - a.start)
  const left = out.reduce((text, range) => withoutRange(text, range), typed)
  return left.replace(/["“”]/gu, '').trim()
}

/** Those of the commands that the filters leave, by the runs of them that are told. */
export function commandsWithin(found: FoundCommands, query: FindQuery): FoundCommands {
  if (query.filters.length === 0 && query.excluded.length === 0) return found
  const commands = found.commands.filter(
    (command) => !isExcluded(command, query) && command.runs.some((run) => fits(run, query.filters)),
  )
  return { ...found, commands, count: commands.length }
}

function isExcluded({ command }: FoundCommand, { excluded }: FindQuery): boolean {
  const folded = fold(command)
  return excluded.some(({ written }) => folded.includes(fold(written)))
}

/** Filters of one sort widen each other, those of different sorts narrow. */
function fits(run: FoundRun, filters: readonly FindFilter[]): boolean {
  const sorts = new Set(filters.map(({ by }) => by))
  return [...sorts].every((sort) => filters.some((filter) => filter.by === sort && fitsOne(run, filter)))
}

function fitsOne({ project, machine, moment }: FoundRun, filter: FindFilter): boolean {
  switch (filter.by) {
    case 'thing':
      return filter.thing === 'command'
    case 'kind':
      return filter.kind === 'action'
    case 'project':
      return filter.projects.includes(project.id)
    case 'tag':
      // A command has none of its own.
      return false
    case 'state':
      // What an entry did that was withdrawn is no command of the lab.
      return filter.state === 'standing'
    case 'place':
      return machine !== null && fold(machine) === fold(filter.place)
    case 'time': {
      const at = instantOf(moment)
      return (filter.span.from ?? -Infinity) <= at && at < (filter.span.to ?? Infinity)
    }
  }
}
