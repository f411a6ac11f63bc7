import { describe, expect, it } from 'vitest'
import {
  machineOfPlace,
  nowhere,
  tidyPlace,
  whereOf,
  wordsOfPlace,
} from '../../../../shared/journal/places.ts'
import { addMachine, maybeMachineOf } from '../../../../shared/lab/acts.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const around = repeatableSurroundings(5)
const gate = addMachine(around, {
  name: 'Gate',
  aliases: ['router'],
  addresses: ['192.0.2.1', 'gate.obs.home.arpa'],
}).machine
const clock = addMachine(around, { name: 'clock.obs.home.arpa' }).machine
const clockAway = addMachine(around, { name: 'clock.dome.home.arpa' }).machine
const machines = [gate, clock, clockAway]

describe('the machine that a name means', () => {
  it('is found by name, alias and address, in any case and with a closing dot', () => {
    for (const name of ['gate', 'GATE', 'router', '192.0.2.1', 'gate.obs.home.arpa.'])
      expect(maybeMachineOf(name, machines), name).toBe(gate)
  })

  it('is found by the first label where one alone has it', () => {
    expect(maybeMachineOf('clock.obs.home.arpa', machines)).toBe(clock)
    expect(maybeMachineOf('clock', [gate, clock])).toBe(clock)
    expect(maybeMachineOf('clock', machines)).toBeUndefined()
    expect(maybeMachineOf('gate.elsewhere.example.org', machines)).toBe(gate)
    expect(maybeMachineOf('192.0', machines)).toBeUndefined()
    expect(maybeMachineOf('', machines)).toBeUndefined()
  })
})

describe('a place', () => {
  it('is on the machine that was chosen, whatever the host is called', () => {
    expect(machineOfPlace({ ...nowhere, machine: clock.id, host: 'gate' }, machines)).toBe(clock)
    expect(whereOf({ ...nowhere, host: 'Desk' }, machines)).toBe('desk')
    expect(whereOf({ ...nowhere, host: 'router' }, machines)).toBe(gate.id)
    expect(whereOf({ ...nowhere, user: 'root' }, machines)).toBeNull()
  })

  it('is said in one line by what is known of it, and is none where nothing is', () => {
    expect(wordsOfPlace({ ...nowhere, host: 'router', directory: '/etc' }, machines)).toBe('Gate, /etc')
    expect(tidyPlace({ ...nowhere, host: '  ', user: ' root ' })).toEqual({ ...nowhere, user: 'root' })
    expect(tidyPlace({ ...nowhere, host: '  ' })).toBeNull()
  })
})
