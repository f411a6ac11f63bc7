import { readFileSync } from 'node:fs'
import Dexie from 'dexie'
import { describe, expect, it } from 'vitest'
import { databaseNameOf, OpenLab } from '../../../../renderer/db/lab.ts'
import { versions } from '../../../../renderer/db/schema.ts'
import { checkSeals } from '../../../../shared/journal/seal/check.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { LabId, ProjectId } from '../../../../shared/lab/ids.ts'
import type { Entry, Project } from '../../../../shared/lab/model.ts'
import { dumpToVersion3, type Dump } from '../../../../shared/lab/upgrade.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { labWithRevisedLink } from '../../support/revisedLink.ts'

const SECRET = 'larkspur-9'

async function check(lab: OpenLab, project: ProjectId) {
  const { seals, salts, records } = await lab.sealedJournal(project)
  return checkSeals(seals, salts, records)
}

async function beginJournal() {
  const lab = await openTestLab()
  const around = lab.surroundings
  const commit = async (change: Parameters<OpenLab['committer']['commit']>[0]) => {
    const result = await lab.committer.commit(change)
    if (!result.ok) throw new Error(result.sentence)
    return result.value
  }
  const { project, change } = acts.addProject(around, { title: 'Mast', aim: '', status: 'under way' })
  await commit(change)
  const write = async (text: string, facts: Partial<acts.EntryInput> = {}): Promise<Entry> => {
    const { entry, change: added } = acts.addEntry(around, {
      project: project.id,
      kind: 'action',
      text,
      ...facts,
    })
    await commit(added)
    return entry
  }
  return { lab, around, project, commit, write }
}

describe('the seal in the store', () => {
  it('is put on every entry, amendment, withdrawal and mark in the Change that writes it', async () => {
    const { lab, around, project, commit, write } = await beginJournal()
    const entry = await write('upsc mast', {
      place: { machine: null, host: 'gate', user: 'root', directory: '/etc/nut' },
    })
    const { revision } = (await lab.queries.standing(entry.id))!
    await commit(acts.writeText(around, { kind: 'entry', id: entry.id }, revision, [9, [0, ' -l']]).change)
    await commit(
      acts.markEntry(around, entry.id, { kind: 'outcome', command: null, set: 'failed', was: null }),
    )
    await commit(acts.withdrawEntry(around, entry.id))
    const { seals } = await lab.sealedJournal(project.id)
    expect(seals.map(({ of }) => of.table)).toEqual(['entries', 'revisions', 'marks', 'withdrawals'])
    expect(await check(lab, project.id)).toMatchObject({ ok: true, count: 4, late: 0 })
    expect(await lab.rebuild()).toBe(true)
  })

  it('goes on over undo and redo, which add records and take none away', async () => {
    const { lab, around, project, commit, write } = await beginJournal()
    const entry = await write('restart the driver')
    await commit(
      acts.markEntry(around, entry.id, { kind: 'outcome', command: null, set: 'failed', was: null }),
    )
    await lab.committer.undo()
    await lab.committer.undo()
    await lab.committer.redo()
    const { marks } = await lab.queries.project(project.id)
    expect(marks.map(({ says }) => says)).toEqual([
      { kind: 'outcome', command: null, set: 'failed', was: null },
      { kind: 'outcome', command: null, set: null, was: 'failed' },
    ])
    expect(await check(lab, project.id)).toMatchObject({ ok: true, count: 5 })
  })

  it('leaves a later mark alone when an earlier one is undone', async () => {
    const { lab, around, project, commit, write } = await beginJournal()
    const entry = await write('restart the driver')
    const says = (set: 'failed' | 'succeeded', was: 'failed' | null) =>
      acts.markEntry(around, entry.id, { kind: 'outcome', command: null, set, was })
    const first = await commit(says('failed', null))
    await commit(says('succeeded', 'failed'))
    expect(await lab.committer.undo(first.change.id)).toMatchObject({ ok: false, code: 'nothing-left' })
    expect((await lab.queries.project(project.id)).marks).toHaveLength(2)
  })

  it('finds what was changed behind its back, and says where first', async () => {
    const { lab, project, write } = await beginJournal()
    await write('one')
    const second = await write('two')
    const { seals, salts, records } = await lab.sealedJournal(project.id)
    const revisions = records.revisions.map((revision) =>
      revision.node === second.id ? { ...revision, changeSet: [[0, 'tw0']] as never } : revision,
    )
    expect(checkSeals(seals, salts, { ...records, revisions })).toMatchObject({
      ok: false,
      firstBreak: { number: 2 },
    })
  })

  it('holds after a secret was struck out, shows where, and nothing in the lab has the secret or its salt', async () => {
    const { lab, project, write } = await beginJournal()
    const entry = await write(`login with ${SECRET}`, {
      place: { machine: null, host: null, user: SECRET, directory: null },
    })
    await write('nothing of it here')
    const before = await lab.sealedJournal(project.id)
    const struck = await lab.committer.strikeOut({ kind: 'entry', id: entry.id }, SECRET, 'a password')
    expect(struck.ok).toBe(true)
    const result = await check(lab, project.id)
    if (!result.ok) throw new Error(result.sentence)
    expect(result.count).toBe(3)
    expect(result.struck.map(({ field }) => field).sort()).toEqual(['place.user', 'text'])
    const after = await lab.sealedJournal(project.id)
    expect(after.seals.slice(0, 2)).toEqual(before.seals)
    const gone = Object.values(before.salts[0]!.salts).filter(
      (salt) => !Object.values(after.salts[0]!.salts).includes(salt),
    )
    expect(gone).toHaveLength(2)
    const dump = JSON.stringify(await lab.dump())
    for (const word of [SECRET, ...gone]) expect(dump).not.toContain(word)
    expect(await lab.rebuild()).toBe(true)
  })

  it('is not touched by links and by what revises them: they are no part of the journal', async () => {
    const { lab, project, second, setAgain } = await labWithRevisedLink()
    const before = await lab.sealedJournal(project)
    expect(before.seals.map(({ of }) => of.table)).toEqual(['entries'])
    await setAgain(second, 'readings')
    await lab.committer.undo()
    const after = await lab.sealedJournal(project)
    expect(after).toEqual(before)
    expect(await check(lab, project)).toMatchObject({ ok: true, count: 1 })
  })

  it('is refused by none who fills an empty lab with what another held', async () => {
    const { lab, project, write } = await beginJournal()
    await write('one')
    const other = await openTestLab(repeatableSurroundings(9))
    await other.fill(await lab.dump())
    expect(await check(other, project.id)).toEqual(await check(lab, project.id))
  })
})

/** A lab as the program of version 2 wrote it: a problem with its fix, amended, one withdrawn entry, a struck word. */
function readSecond(): Dump {
  const path = new URL('../../../fixtures/labs/version-2.json', import.meta.url)
  return JSON.parse(readFileSync(path, 'utf8'), (_key, value: unknown) => {
    const bytes = (value as { $bytes?: unknown } | null)?.$bytes
    return typeof bytes === 'string' ? new Uint8Array(Buffer.from(bytes, 'base64')) : value
  }) as Dump
}

describe('a lab of version 2', () => {
  it('opens with every record, what is new said as nothing, and its journals sealed late', async () => {
    const around = repeatableSurroundings(7)
    const storage = memoryStorage()
    const id = around.ids.make<LabId>()
    const old = new Dexie(databaseNameOf(id), storage)
    old.version(1).stores(versions[0]!.stores)
    old.version(2).stores(versions[1]!.stores)
    await old.open()
    for (const [name, records] of Object.entries(readSecond())) await old.table(name).bulkAdd([...records])
    old.close()
    const lab = await OpenLab.open(id, storage, around)
    const dump = await lab.dump()
    for (const [name, records] of Object.entries(readSecond()))
      expect(dump[name], name).toMatchObject(records as never)
    expect(dump['settings']).toEqual([])
    expect(dump['drafts']).toMatchObject([{ facts: acts.noFacts, text: 'half a sent' }])
    const [project] = dump['projects'] as Project[]
    expect(project!.folder).toBeNull()
    expect(dump['folders']).toMatchObject([{ holds: 'sources' }])
    expect(await check(lab, project!.id)).toMatchObject({ ok: true, count: 5, late: 5 })
    expect(await lab.rebuild()).toBe(true)
    // What was undone last is not sealed late again, and goes on behind the late seals.
    expect((await lab.committer.undo()).ok).toBe(true)
    expect(await check(lab, project!.id)).toMatchObject({ ok: true, count: 6, late: 5 })
  })

  it('comes out of its lab file sealed too', async () => {
    const lab = await openTestLab()
    await lab.fill(dumpToVersion3(readSecond()))
    const [project] = await lab.queries.projects()
    expect(await check(lab, project!.id)).toMatchObject({ ok: true, count: 5, late: 5 })
  })
})
