import { describe, expect, it } from 'vitest'
import { countsByWhere, eventsOn, unknownHosts } from '../../../../shared/journal/machine-events.ts'
import { nowhere } from '../../../../shared/journal/places.ts'
import { addEntry, addMachine, addProject, markEntry } from '../../../../shared/lab/acts.ts'
import type { Entry, Mark, Place } from '../../../../shared/lab/model.ts'
import { toMoment } from '../../../../shared/lab/moment.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const around = repeatableSurroundings(4)
const first = addProject(around, { title: 'Mast', aim: '', status: 'done' }).project
const second = addProject(around, { title: 'Rack', aim: '', status: 'under way' }).project
const gate = addMachine(around, { name: 'gate', addresses: ['192.0.2.1'] }).machine
const at = (minute: number) => toMoment(Date.UTC(2026, 4, 1, 1, minute), 0)
const entry = (project: Entry['project'], minute: number, place: Place | null): Entry =>
  addEntry(around, { project, kind: 'action', text: 'x', happened: at(minute), place }).entry

const byId = entry(first.id, 9, { ...nowhere, machine: gate.id })
const byAddress = entry(second.id, 3, { ...nowhere, host: '192.0.2.1' })
const elsewhere = entry(second.id, 4, { ...nowhere, host: 'Clock' })
const again = entry(second.id, 5, { ...nowhere, host: 'clock' })
const moved = entry(second.id, 1, { ...nowhere, host: 'clock' })
const marks = new Map<string, readonly Mark[]>([
  [
    moved.id,
    markEntry(around, moved.id, {
      kind: 'place',
      set: { ...nowhere, host: 'GATE' },
      was: moved.place,
    }).operations.map((one) => (one as { record: Mark }).record),
  ],
])
const placed = { entries: [byId, byAddress, elsewhere, again, moved], marks }

describe('what happened on a machine', () => {
  it('comes from every project, in the order in which it happened, also where a place was set later', () => {
    expect(eventsOn(gate, placed, [gate]).map(({ entry: { id } }) => id)).toEqual([
      moved.id,
      byAddress.id,
      byId.id,
    ])
  })

  it('is counted, and names without a record are told', () => {
    const counts = countsByWhere(placed, [gate])
    expect([counts.get(gate.id), counts.get('clock')]).toEqual([3, 2])
    expect(unknownHosts(placed, [gate])).toEqual([{ host: 'Clock', count: 2 }])
  })
})
