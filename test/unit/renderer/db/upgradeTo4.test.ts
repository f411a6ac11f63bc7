import { readFileSync } from 'node:fs'
import Dexie from 'dexie'
import { describe, expect, it } from 'vitest'
import { databaseNameOf, OpenLab } from '../../../../renderer/db/lab.ts'
import { versions } from '../../../../renderer/db/schema.ts'
import type { LabId } from '../../../../shared/lab/ids.ts'
import type { Part, Procedure, Step } from '../../../../shared/lab/model.ts'
import { dumpToVersion4, type Dump } from '../../../../shared/lab/upgrade.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'

/** A lab as the program of version 3 wrote it: a procedure with a carried command, a moved step and one removed. */
function readThird(): Dump {
  const path = new URL('../../../fixtures/labs/version-3.json', import.meta.url)
  return JSON.parse(readFileSync(path, 'utf8')) as Dump
}

describe('a lab of version 3', () => {
  it('opens with every record, what is new said as nothing, and its past goes on', async () => {
    const around = repeatableSurroundings(7)
    const storage = memoryStorage()
    const id = around.ids.make<LabId>()
    const old = new Dexie(databaseNameOf(id), storage)
    for (const { version, stores } of versions.slice(0, 3)) old.version(version).stores(stores)
    await old.open()
    for (const [name, records] of Object.entries(readThird())) await old.table(name).bulkAdd([...records])
    old.close()
    const lab = await OpenLab.open(id, storage, around)
    const dump = await lab.dump()
    for (const [name, records] of Object.entries(readThird()))
      expect(dump[name], name).toMatchObject(records as never)
    expect((dump['procedures'] as Procedure[])[0]).toMatchObject({ place: null })
    expect((dump['steps'] as Step[])[0]).toMatchObject({ level: 'step', place: null, pointOfNoReturn: false })
    expect((dump['parts'] as Part[]).map(({ file }) => file)).toEqual([null, null, null, null])
    for (const name of ['parameters', 'versions', 'remarks', 'silences', 'leftOut', 'fetches'])
      expect(dump[name], name).toEqual([])
    expect(await lab.rebuild()).toBe(true)
    // The removed step comes back in the form of today.
    expect((await lab.committer.undo()).ok).toBe(true)
    const steps = (await lab.dump())['steps'] as Step[]
    expect(steps).toHaveLength(2)
    for (const step of steps) expect(step).toMatchObject({ level: 'step', place: null })
  })

  it('comes out of its lab file as out of its database', async () => {
    const lab = await openTestLab()
    await lab.fill(dumpToVersion4(readThird()))
    expect(await lab.rebuild()).toBe(true)
    expect((await lab.dump())['changes']).toEqual(dumpToVersion4(readThird())['changes'])
  })
})
