/** Machines of the lab: the records that places point to. */
import type { Change } from './change.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Machine } from './model.ts'

export type MachineFields = Omit<Machine, 'id' | 'created'>

/** What is said of a machine where only its name is known. */
export const plainMachine: Omit<MachineFields, 'name'> = {
  aliases: [],
  addresses: [],
  serials: [],
  disks: [],
  notes: '',
  setAside: false,
}

export function addMachine(around: Surroundings, fields: Partial<MachineFields> & Pick<Machine, 'name'>) {
  const machine: Machine = {
    ...plainMachine,
    ...fields,
    id: around.ids.make(),
    created: around.clock.now(),
  }
  return { machine, change: makeChange(around, 'add a machine', [put('machines', machine)]) }
}

/** Sets fields of a machine; what another window set meanwhile, and this one left alone, stays. */
export function changeMachine(
  around: Surroundings,
  machine: Machine,
  fields: Partial<MachineFields>,
): Change {
  return makeChange(around, 'change a machine', [put('machines', { ...machine, ...fields }, machine)])
}

/** Takes a machine away that no entry names; commit refuses any other, which can be set aside instead. */
export function removeMachine(around: Surroundings, machine: Machine): Change {
  return makeChange(around, 'remove a machine', [{ op: 'remove', table: 'machines', before: machine }])
}

/**
 * The machine that a prompt, a log or a person means by a name: by its own name, an alias or an address, in any case,
 * with or without the domain behind the first label (RFC 1034 §3.1). Only where one alone is meant.
 */
export function maybeMachineOf(host: string, machines: readonly Machine[]): Machine | undefined {
  const wanted = host.trim().toLowerCase().replace(/\.$/, '')
  if (wanted === '') return undefined
  const named = machines.filter((machine) => namesOf(machine).includes(wanted))
  if (named.length > 0) return named.length === 1 ? named[0] : undefined
  const label = firstLabelOf(wanted)
  const near = machines.filter((machine) =>
    namesOf(machine).some((name) => firstLabelOf(name) === label && (name === label || wanted === label)),
  )
  return near.length === 1 ? near[0] : undefined
}

const namesOf = ({ name, aliases, addresses }: Machine): string[] =>
  [name, ...aliases, ...addresses].map((one) => one.trim().toLowerCase().replace(/\.$/, ''))

/** Addresses have no labels and are compared whole. */
const firstLabelOf = (name: string): string => (/^[\d.]+$|:/.test(name) ? name : name.split('.')[0]!)
