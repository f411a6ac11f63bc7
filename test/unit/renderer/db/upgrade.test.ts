import { readFileSync } from 'node:fs'
import Dexie from 'dexie'
import { describe, expect, it } from 'vitest'
import { databaseNameOf, OpenLab } from '../../../../renderer/db/lab.ts'
import { versions } from '../../../../renderer/db/schema.ts'
import { filesToLab, labToFiles, type Tools } from '../../../../shared/archive/labFile.ts'
import type { LabId } from '../../../../shared/lab/ids.ts'
import type { Capture, Source } from '../../../../shared/lab/model.ts'
import { dumpToVersion2, dumpToVersion3, dumpToVersion4, type Dump } from '../../../../shared/lab/upgrade.ts'
import { memoryStorage, repeatableSurroundings } from '../../support/lab.ts'

/** A lab as the program of version 1 wrote it: two sources with captures, an undone one, renamed, undone and redone. */
function readOldDump(): Dump {
  const path = new URL('../../../fixtures/labs/version-1.json', import.meta.url)
  return JSON.parse(readFileSync(path, 'utf8'), (_key, value: unknown) => {
    const bytes = (value as { $bytes?: unknown } | null)?.$bytes
    return typeof bytes === 'string' ? new Uint8Array(Buffer.from(bytes, 'base64')) : value
  }) as Dump
}

async function openUpgraded() {
  const around = repeatableSurroundings(7)
  const storage = memoryStorage()
  const id = around.ids.make<LabId>()
  const old = new Dexie(databaseNameOf(id), storage)
  old.version(1).stores(versions[0]!.stores)
  await old.open()
  for (const [name, records] of Object.entries(readOldDump())) await old.table(name).bulkAdd([...records])
  old.close()
  return { around, lab: await OpenLab.open(id, storage, around) }
}

describe('a lab of version 1', () => {
  it('opens with every record that it had, and with what is new said as nothing', async () => {
    const { lab } = await openUpgraded()
    const [dump, old] = [await lab.dump(), readOldDump()]
    for (const [name, records] of Object.entries(old)) {
      expect(dump[name]!.length, name).toBe(records.length)
      expect(dump[name], name).toMatchObject(records as never)
    }
    const [disks, gauge] = dump['sources'] as Source[]
    expect(disks).toMatchObject({ tags: [], folders: [], setAside: false, mergedInto: null, author: null })
    expect(gauge!.address).toBe('https://example.org/gauge?utm_source=news')
    expect((dump['captures'] as Capture[]).map(({ wayIn }) => wayIn)).toEqual(['file', 'dropped'])
    expect(await lab.rebuild()).toBe(true)
  })

  it('takes back and brings back what was done in it before', async () => {
    const { lab } = await openUpgraded()
    const before = await lab.dump()
    expect((await lab.committer.undo()).ok).toBe(true)
    expect((await lab.committer.undo()).ok).toBe(true)
    expect((await lab.queries.labSources()).heads).toHaveLength(1)
    await lab.committer.redo()
    await lab.committer.redo()
    const after = await lab.dump()
    for (const name of ['sources', 'captures', 'captureHeads', 'blobs'])
      expect(after[name]).toEqual(before[name])
    expect(await lab.rebuild()).toBe(true)
  })

  it('comes out of its lab file as out of its database', async () => {
    const { around, lab } = await openUpgraded()
    const about = { id: lab.id, name: 'Observatory', created: around.clock.now() }
    const tools: Tools = {
      sha256: async (bytes) =>
        Buffer.from(await crypto.subtle.digest('SHA-256', new Uint8Array(bytes))).toString('hex'),
      encode: (text) => new TextEncoder().encode(text),
      decode: (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes),
    }
    const upgraded = dumpToVersion4(dumpToVersion3(dumpToVersion2(readOldDump())))
    const dump = await lab.dump()
    for (const [name, records] of Object.entries({ ...upgraded, settings: [] }))
      expect(dump[name], name).toEqual(records)
    const files = await labToFiles(about, readOldDump(), around.clock.now(), tools)
    const told = JSON.parse(tools.decode(files.get('stillroom-lab.json')!)) as {
      version: number
      tables: Record<string, number>
    }
    const tables = Object.fromEntries(Object.entries(told.tables).filter(([name]) => name in readOldDump()))
    files.set('stillroom-lab.json', tools.encode(JSON.stringify({ ...told, version: 1, tables })))
    files.delete('SHA256SUMS')
    const lines = []
    for (const [path, bytes] of files) lines.push(`${await tools.sha256(bytes)}  ${path}\n`)
    files.set('SHA256SUMS', tools.encode(lines.join('')))
    const read = await filesToLab(files, tools)
    if (!read.ok) throw new Error(read.sentence)
    expect(read.value.dump['sources']).toEqual(upgraded['sources'])
    expect(read.value.dump['captureHeads']).toEqual(upgraded['captureHeads'])
    expect(read.value.dump['changes']).toEqual(upgraded['changes'])
  })
})
