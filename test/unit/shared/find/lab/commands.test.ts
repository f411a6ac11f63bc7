import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { commandsOfLab, withPart, type RunMatter } from '../../../../../shared/find/lab/commands.ts'
import { noFacts } from '../../../../../shared/lab/acts.ts'
import type { EntryId, MachineId, MarkId, ProjectId, RevisionId } from '../../../../../shared/lab/ids.ts'
import type { Entry, Outcome } from '../../../../../shared/lab/model.ts'
import { instantOf, toMoment } from '../../../../../shared/lab/moment.ts'

interface Told {
  readonly commands: readonly string[]
  readonly at: number
  readonly exitCode?: number | null | undefined
  readonly kind?: Entry['kind']
  readonly project?: string
  readonly machine?: string | null
  /** Set on the entry as a whole. */
  readonly set?: Outcome | undefined
}

function matterOf(id: string, told: Told): RunMatter {
  const { commands, at, exitCode, kind = 'action', project = 'rack', machine = null, set } = told
  const text = ['```sh', ...commands, '```'].join('\n')
  const entry: Entry = {
    ...noFacts,
    id: id as EntryId,
    project: project as ProjectId,
    kind,
    moment: toMoment(at, 0),
    place:
      machine === null ? null : { machine: machine as MachineId, host: null, user: null, directory: null },
    ran: exitCode === undefined ? null : { exitCode, started: null, ended: null, log: 'gate.log' },
  }
  const says = { kind: 'outcome', command: null, set: set ?? null, was: null } as const
  const moment = toMoment(at + 1, 0)
  return {
    entry,
    text,
    pieces: [{ revision: `r${id}` as RevisionId, start: 0, end: text.length }],
    marks: set === undefined ? [] : [{ id: `m${id}` as MarkId, entry: entry.id, moment, says }],
  }
}

const words = ['systemctl restart logger', 'df -h /var', 'ls  -l /dev/serial', 'journalctl -u logger']

describe('the commands of a lab', () => {
  it('stand once each with every run: when, where, in which project, to which end', () => {
    const found = commandsOfLab([
      matterOf('a', { commands: ['df -h /var'], at: 1000, exitCode: 1, machine: 'gate' }),
      matterOf('b', { commands: ['ls /', 'df -h /var'], at: 2000, exitCode: 0, project: 'dome' }),
    ])
    expect(found.map(({ command }) => command)).toEqual(['df -h /var', 'ls /'])
    expect(found[0]!.counts).toEqual({ succeeded: 1, failed: 1, unknown: 0 })
    expect(found[0]!.runs).toMatchObject([
      { entry: 'b', project: 'dome', machine: null, outcome: 'succeeded', moment: toMoment(2000, 0) },
      { entry: 'a', project: 'rack', machine: 'gate', outcome: 'failed', moment: toMoment(1000, 0) },
    ])
    // An exit code says nothing of the commands before the last one.
    expect(found[1]!.counts).toEqual({ succeeded: 0, failed: 0, unknown: 1 })
  })

  it('are those of actions alone, and stand where their range says', () => {
    const seen = matterOf('a', { commands: ['df -h /var'], at: 1, kind: 'observation' })
    expect(commandsOfLab([seen])).toEqual([])
    const action = matterOf('b', { commands: ['ls /', 'df -h /var'], at: 2 })
    for (const { command, runs } of commandsOfLab([action]))
      expect(action.text.slice(runs[0]!.range.start, runs[0]!.range.end)).toBe(command)
  })

  it('are found by a part, whatever its capitals and spaces', () => {
    const commands = commandsOfLab([matterOf('a', { commands: words, at: 1 })])
    const found = (part: string) => withPart(commands, part).map(({ command }) => command)
    expect(found('LOGGER').sort()).toEqual(['journalctl -u logger', 'systemctl restart logger'])
    expect(found(' -l   /dev ')).toEqual(['ls  -l /dev/serial'])
    expect(found('')).toHaveLength(words.length)
    expect(found('logger.service')).toEqual([])
  })

  it('are as many as a plain count says, in whichever order the entries come', () => {
    const told = fc.record({
      commands: fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 4 }),
      at: fc.integer({ min: 0, max: 5 }),
      exitCode: fc.constantFrom(undefined, null, 0, 1),
      kind: fc.constantFrom<Entry['kind']>('action', 'observation', 'fix'),
      project: fc.constantFrom('rack', 'dome'),
      set: fc.constantFrom<Outcome | undefined>(undefined, 'succeeded', 'failed', 'unknown'),
    })
    fc.assert(
      fc.property(fc.array(told, { maxLength: 12 }), (all) => {
        const matters = all.map((one, at) => matterOf(`e${String(at).padStart(2, '0')}`, one))
        const found = commandsOfLab(matters)
        const seen = new Map(found.map(({ command, counts }) => [command, counts]))
        expect(seen).toEqual(countPlainly(all))
        expect(commandsOfLab(matters.toReversed())).toEqual(found)
        const newest = found.map(({ runs }) => instantOf(runs[0]!.moment))
        expect(newest).toEqual(newest.toSorted((a, b) => b - a))
        for (const { runs, counts } of found)
          expect(counts.succeeded + counts.failed + counts.unknown).toBe(runs.length)
      }),
    )
  })
})

/** What was set for the entry counts; else the exit code, for the last command alone. */
function countPlainly(all: readonly Told[]): Map<string, Record<Outcome, number>> {
  const counts = new Map<string, Record<Outcome, number>>()
  for (const { commands, kind, exitCode, set } of all) {
    if (kind !== 'action') continue
    for (const [at, command] of commands.entries()) {
      const code = at === commands.length - 1 ? (exitCode ?? null) : null
      const outcome = set ?? (code === null ? 'unknown' : code === 0 ? 'succeeded' : 'failed')
      const own = counts.get(command) ?? { succeeded: 0, failed: 0, unknown: 0 }
      counts.set(command, { ...own, [outcome]: own[outcome] + 1 })
    }
  }
  return counts
}
