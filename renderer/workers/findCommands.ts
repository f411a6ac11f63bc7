/**
 * The commands of a lab in memory: read when they are first asked for or nothing else is to be done, then kept up with the
 * lab.
 */
import {
  commandsOfRuns,
  runsOf,
  withPart,
  type CommandRun,
  type LabCommand,
} from '../../shared/find/lab/commands.ts'
import type { ThingRef } from '../../shared/find/lab/touched.ts'
import type { MachineId, ProjectId } from '../../shared/lab/ids.ts'
import type { Range } from '../../shared/lab/model.ts'
import { allThings } from './findThings.ts'
import {
  MOST_RUNS,
  type CommandsAsk,
  type FoundCommand,
  type FoundCommands,
  type FoundProject,
  type FoundRun,
} from './found.ts'
import { LabFollower, PATIENCE_MS, type FollowQueries } from './labFollower.ts'

type Run = CommandRun & { readonly command: string }

export class FindCommands extends LabFollower {
  private readonly runs = new Map<string, readonly Run[]>()
  /** All commands; null where they have to be put together anew. */
  private commands: readonly LabCommand[] | null = null

  constructor(
    queries: FollowQueries,
    breathe: () => Promise<void> = () => Promise.resolve(),
    private readonly patienceMs = PATIENCE_MS,
  ) {
    super(queries, () => undefined, breathe)
  }

  /** The commands in which a part stands, as the lab is now; of the actions that were read while not all were. */
  async find({ part, limit }: CommandsAsk): Promise<FoundCommands> {
    const projects = new Map((await this.queries.projects()).map(({ id, title }) => [id, { id, title }]))
    const machines = new Map((await this.queries.machines()).map(({ id, name }) => [id, name]))
    const isWhole = await this.catchUpSoon(this.patienceMs)
    this.commands ??= commandsOfRuns([...this.runs.values()].flat())
    const found = withPart(this.commands, part)
    const shown = found.slice(0, limit).map((one) => showCommand(one, part, projects, machines))
    return { commands: shown, count: found.length, isWhole }
  }

  protected override forget(): void {
    this.runs.clear()
    this.commands = null
  }

  protected override takeUp(): Promise<null> {
    return Promise.resolve(null)
  }

  protected override async allThings(): Promise<readonly ThingRef[]> {
    return (await allThings(this.queries)).filter(({ kind }) => kind === 'entry')
  }

  protected override async read(things: readonly ThingRef[]): Promise<() => void> {
    const entries = things.flatMap((thing) => (thing.kind === 'entry' ? [thing.id] : []))
    const matters = await this.queries.entryMatters(entries)
    const runs = new Map(
      matters.map((matter) => [matter.entry.id as string, matter.isWithdrawn ? [] : runsOf(matter)]),
    )
    return () => {
      for (const id of entries) this.put(id, runs.get(id) ?? [])
    }
  }

  private put(entry: string, runs: readonly Run[]): void {
    if (runs.length === 0 && !this.runs.has(entry)) return
    if (runs.length > 0) this.runs.set(entry, runs)
    else this.runs.delete(entry)
    this.commands = null
  }
}

function showCommand(
  { command, runs, counts }: LabCommand,
  part: string,
  projects: ReadonlyMap<ProjectId, FoundProject>,
  machines: ReadonlyMap<MachineId, string>,
): FoundCommand {
  const projectOf = (id: ProjectId): FoundProject => projects.get(id) ?? { id, title: '' }
  const toShown = ({ entry, project, range, outcome, moment, machine, host }: CommandRun): FoundRun => ({
    entry,
    project: projectOf(project),
    range,
    outcome,
    moment,
    machine: (machine && machines.get(machine)) ?? host,
  })
  return {
    command,
    marks: marksOf(command, part),
    times: runs.length,
    counts,
    runs: runs.slice(0, MOST_RUNS).map(toShown),
    projects: [...new Set(runs.map(({ project }) => project))].map(projectOf),
  }
}

/** Where the part stands; white space between its words may be of any kind and length. */
function marksOf(command: string, part: string): Range[] {
  const words = part
    .trim()
    .split(/\s+/)
    .filter((word) => word !== '')
  if (words.length === 0) return []
  const pattern = words.map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('\\s+')
  return [...command.matchAll(new RegExp(pattern, 'gi'))].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
  }))
}
