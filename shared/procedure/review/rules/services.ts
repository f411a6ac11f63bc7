/** The rule about services that a procedure takes away and needs. */
import { disturbsOf, needsOf, type Need } from '../../../shell/needs.ts'
import type { SeenCommand } from '../../../shell/seen.ts'
import { once } from '../once.ts'
import { faultAt, type Reading, type ReadRow } from '../reading.ts'
import { remembered, type Rule } from '../rule.ts'
import type { FaultPlace } from '../types.ts'

const disturbs = once((seen: SeenCommand) => disturbsOf(seen))
const needs = once((seen: SeenCommand) => needsOf(seen))

const serviceRebuilt: Rule = {
  id: 'service rebuilt',
  name: 'No step needs what the procedure has taken away',
  why: 'A step that needs a service which is stopped or being rebuilt cannot be followed, and what is written about it there cannot be read.',
  source: remembered('systemctl(1), stop; the manual pages of the programs that need a service'),
  declares: [],
  find: needsWhileDown,
}

function needsWhileDown({ rows }: Reading): FaultPlace[] {
  /** What is down, by machine and need, and the row that took it away. */
  const down = new Map<string, ReadRow>()
  const faults: FaultPlace[] = []
  for (const row of rows)
    for (const command of row.commands) {
      const keyOf = (need: Need): string => `${hostOf(row)} ${need}`
      const disturbed = disturbs(command.seen)
      const turn = turnOf(command.seen)
      const missing = needs(command.seen).find((need) => down.has(keyOf(need)) && !disturbed.includes(need))
      if (missing !== undefined) {
        const { number } = down.get(keyOf(missing))!.row
        const says = `“${command.seen.name ?? command.text}” needs ${words[missing] ?? missing}, which step ${number} has taken away.`
        faults.push(faultAt(row, command.part, command, says))
      }
      for (const need of disturbed) {
        if (turn === 'down') down.set(keyOf(need), row)
        if (turn === 'up') down.delete(keyOf(need))
      }
    }
  return faults
}

const words: Partial<Record<Need, string>> = {
  network: 'the network',
  web: 'the web server',
  mail: 'the mail server',
  ntp: 'the time service',
  firewall: 'the firewall',
}

const hostOf = ({ row: { place } }: ReadRow): string => place?.machine ?? place?.host ?? ''

const downWords = new Set(['stop', 'mask', 'kill', 'remove', 'purge', 'autoremove', 'erase', 'down', 'off'])
const upWords = new Set([
  'start',
  'restart',
  'reload',
  'reload-or-restart',
  'install',
  'reinstall',
  'up',
  'on',
])

/** Whether a command that touches a service leaves it gone or there. Editing its files does neither. */
function turnOf({ name, words: all }: SeenCommand): 'down' | 'up' | null {
  if (name === 'ifdown' || name === 'ifup') return name === 'ifdown' ? 'down' : 'up'
  const given = all.slice(1).map(({ value }) => value ?? '')
  if (given.includes('--now')) return given.includes('enable') ? 'up' : 'down'
  const verb = given.find((word) => downWords.has(word) || upWords.has(word))
  return verb === undefined ? null : downWords.has(verb) ? 'down' : 'up'
}

export const serviceRules: readonly Rule[] = [serviceRebuilt]
