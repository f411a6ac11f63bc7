import { expect, test } from 'vitest'
import { chipsOf } from '../../../../renderer/find/chips.ts'
import { commandsWithin, partOf } from '../../../../renderer/find/commands.ts'
import { withoutRange } from '../../../../renderer/find/typed.ts'
import type { FoundCommands } from '../../../../renderer/workers/found.ts'
import { readQuery } from '../../../../shared/find/query/read-query.ts'

/** 27 November 2026, 12:00 UTC. */
const now = Date.UTC(2026, 10, 27, 12)
const projects = [{ id: 'p1', title: 'Weather logger' }]
const read = (typed: string) => readQuery(typed, { now, offsetAt: () => 0, projects })
const chips = (typed: string) =>
  chipsOf(
    read(typed),
    () => 'Weather logger',
    () => 0,
  )

test('every filter and exclusion is a chip; what was read of plain words can be kept as words', () => {
  const all = chips('disk kind:fix in:"weather logger" place:gate last March -swap when:2025')
  expect(all.map(({ sort, word, canKeep }) => [sort, word, canKeep])).toEqual([
    ['Kind', 'fix', false],
    ['In', 'Weather logger', false],
    ['Place', 'gate', false],
    ['When', '1 Mar 2026 to 31 Mar 2026', true],
    ['Without', 'swap', true],
    ['When', '1 Jan 2025 to 31 Dec 2025', false],
  ])
  expect(chips('disk is:withdrawn').map(({ sort, word }) => [sort, word])).toEqual([['Entries', 'withdrawn']])
  expect(chips('today')[0]!.word).toBe('27 Nov 2026')
  expect(chips('since 5 May 2026')[0]!.word).toBe('from 5 May 2026')
  expect(chips('in:rack')[0]!.word).toBe('no project is called “rack”')
})

test('a chip that is taken away takes its own words and nothing else', () => {
  const typed = 'disk kind:fix last March'
  const [kind, time] = chips(typed)
  expect(withoutRange(typed, kind!.range)).toBe('disk last March')
  expect(withoutRange(typed, time!.range)).toBe('disk kind:fix')
})

const run = (project: string, machine: string | null, moment: string) => ({
  project: { id: project, title: project },
  machine,
  moment,
})
const found = {
  count: 3,
  isWhole: true,
  commands: [
    { command: 'mount -a', runs: [run('p1', 'gate', '2026-03-02T02:30:00.000+01:00')] },
    { command: 'swapoff -a', runs: [run('p1', null, '2026-11-27T09:00:00.000+00:00')] },
    { command: 'mount /mnt', runs: [run('p2', 'mast', '2026-11-27T09:00:00.000+00:00')] },
  ],
} as unknown as FoundCommands
const within = (typed: string) => commandsWithin(found, read(typed)).commands.map(({ command }) => command)

test('filters leave the commands that a run of fits, and what is no word is no part of a command', () => {
  expect(within('mount')).toEqual(['mount -a', 'swapoff -a', 'mount /mnt'])
  expect(within('in:weather')).toEqual(['mount -a', 'swapoff -a'])
  expect(within('in:weather last March')).toEqual(['mount -a'])
  expect(within('place:GATE')).toEqual(['mount -a'])
  expect(within('today -swapoff')).toEqual(['mount /mnt'])
  expect(within('kind:action today')).toEqual(['swapoff -a', 'mount /mnt'])
  expect(within('kind:fix')).toEqual([])
  expect(within('thing:step')).toEqual([])
  expect(within('tag:power')).toEqual([])
  expect(partOf(read('mount kind:fix -a last March'))).toBe('mount -a')
  expect(partOf(read('"mount -a" -swap'))).toBe('mount -a')
})
