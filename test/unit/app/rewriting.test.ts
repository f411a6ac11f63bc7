import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { Rewriting } from '../../../app/rewriting.ts'
import { storeDisk, type StoreDisk } from '../../../app/store-disk.ts'
import type { StoreFile } from '../../../shared/host.ts'

const OLD = 'the old store, with a secret'
const NEW = 'the store as it was written out'
const bytes = new TextEncoder().encode(NEW)
const file: StoreFile = {
  name: 'lab-one.zip',
  size: bytes.length,
  sha256: createHash('sha256').update(bytes).digest('hex'),
}

class Crash extends Error {}

/**
 * The real disk, but at the given step the machine stops: before it, or with the step half done. Bytes that were not synced
 * are lost then.
 */
function crashingDisk(at: number, isHalfDone: boolean): StoreDisk & { steps: number } {
  const disk = { steps: 0 }
  const unsynced = new Set<string>()
  const stop = (): never => {
    for (const path of unsynced) if (existsSync(path)) truncateSync(path)
    unsynced.clear()
    throw new Crash('the machine stopped')
  }
  const step =
    <A extends unknown[], R>(act: (...args: A) => R, half?: (...args: A) => void) =>
    (...args: A): R => {
      if (disk.steps >= at && at >= 0) {
        if (disk.steps++ === at && isHalfDone) half?.(...args)
        stop()
      }
      disk.steps++
      return act(...args)
    }
  return Object.assign(disk, {
    has: storeDisk.has,
    read: storeDisk.read,
    sync: step((path: string) => {
      storeDisk.sync(path)
      unsynced.delete(path)
    }),
    makeFolder: step(storeDisk.makeFolder, storeDisk.makeFolder),
    write: step(
      (path: string, offset: number, whole: Uint8Array) => {
        storeDisk.write(path, offset, whole)
        unsynced.add(path)
      },
      (path, offset, whole) => storeDisk.write(path, offset, whole.subarray(0, 5)),
    ),
    rename: step((from: string, to: string) => {
      storeDisk.rename(from, to)
      // The name is on the disk, the bytes are not.
      if (unsynced.delete(from)) unsynced.add(to)
    }, storeDisk.rename),
    remove: step(storeDisk.remove, (path) => {
      // Half of a folder is gone, what says its state among it.
      for (const name of ['IndexedDB', 'out-lab-one.zip', 'state.json'])
        rmSync(join(path, name), { recursive: true, force: true })
    }),
  })
}

let profile = ''
beforeEach(() => {
  profile = mkdtempSync(join(tmpdir(), 'stillroom-rewriting-'))
  mkdirSync(join(profile, 'IndexedDB'))
  mkdirSync(join(profile, 'Local Storage'))
  writeFileSync(join(profile, 'IndexedDB/log'), OLD)
  writeFileSync(join(profile, 'Local Storage/log'), OLD)
  writeFileSync(join(profile, 'window.json'), '{}')
})

const databases = (): string | null =>
  existsSync(join(profile, 'IndexedDB/log')) ? readFileSync(join(profile, 'IndexedDB/log'), 'utf8') : null

/** What the page does at a start: reads back where something waits. @returns the standing that it met */
function startPage(rewriting: Rewriting): string {
  const standing = rewriting.find()
  if (standing.kind !== 'waiting') return standing.kind
  rmSync(join(profile, 'IndexedDB'), { recursive: true, force: true })
  mkdirSync(join(profile, 'IndexedDB'))
  const parts = standing.files.map(({ name, size }) => {
    const half = Math.ceil(size / 2)
    return [rewriting.read(name, 0, half), rewriting.read(name, half, size)]
  })
  writeFileSync(join(profile, 'IndexedDB/log'), Buffer.concat(parts.flat()))
  rewriting.end()
  return 'read back'
}

/** The whole act in two runs of the program. */
function rewrite(disk: StoreDisk): void {
  const first = new Rewriting(profile, disk)
  first.resume()
  first.begin()
  first.write(file.name, 0, bytes.subarray(0, 9))
  first.write(file.name, 9, bytes.subarray(9))
  if (first.finish([file]) !== null) throw new Error('what was written is wrong')
  const second = new Rewriting(profile, disk)
  second.resume()
  startPage(second)
}

function unlessCrashed(act: () => void): void {
  try {
    act()
  } catch (error) {
    if (!(error instanceof Crash)) throw error
  }
}

function startAgain(disk: StoreDisk): string {
  const rewriting = new Rewriting(profile, disk)
  rewriting.resume()
  return startPage(rewriting)
}

const leftOvers = (): string[] => readdirSync(profile).filter((name) => name.startsWith('rewriting'))

describe('rewriting the store', () => {
  it('moves the old store away, reads back and leaves nothing of either', () => {
    rewrite(storeDisk)
    expect(databases()).toBe(NEW)
    expect(existsSync(join(profile, 'Local Storage'))).toBe(false)
    expect(existsSync(join(profile, 'rewriting'))).toBe(false)
    expect(existsSync(join(profile, 'window.json'))).toBe(true)
  })

  it('stopped at any step, before it or half done, leaves one of the two whole, and the next starts go on', () => {
    const counted = crashingDisk(-1, false)
    rewrite(counted)
    expect(counted.steps).toBeGreaterThan(15)
    const endings = new Set<string>()
    for (let at = 0; at < counted.steps; at++)
      for (const isHalfDone of [false, true]) {
        rmSync(profile, { recursive: true })
        mkdirSync(join(profile, 'IndexedDB'), { recursive: true })
        writeFileSync(join(profile, 'IndexedDB/log'), OLD)
        const met: string[] = []
        unlessCrashed(() => rewrite(crashingDisk(at, isHalfDone)))
        // Stopped once more at the next start, at its second step.
        unlessCrashed(() => met.push(startAgain(crashingDisk(1, isHalfDone))))
        met.push(startAgain(storeDisk))
        for (const standing of met) endings.add(`${standing}: ${databases()}`)
        expect([OLD, NEW], `step ${at}, half done: ${isHalfDone}, then ${met.join()}`).toContain(databases())
        expect(leftOvers(), `step ${at}`).toEqual([])
      }
    // Both stores were met as the one that counts, and the person was told.
    expect([...endings]).toEqual(
      expect.arrayContaining([`told: ${OLD}`, `read back: ${NEW}`, `told: ${NEW}`]),
    )
  })

  it('does not begin to delete where what was written out was damaged since', () => {
    const first = new Rewriting(profile, storeDisk)
    first.begin()
    first.write(file.name, 0, bytes)
    expect(first.finish([file])).toBe(null)
    writeFileSync(join(profile, 'rewriting/out-lab-one.zip'), NEW.replace('store', 'stone'))
    const second = new Rewriting(profile, storeDisk)
    second.resume()
    expect(second.find()).toMatchObject({ kind: 'told', isDone: false })
    expect(databases()).toBe(OLD)
    expect(readFileSync(join(profile, 'Local Storage/log'), 'utf8')).toBe(OLD)
  })

  it('is not finished with a file that is not as it was meant', () => {
    const rewriting = new Rewriting(profile, storeDisk)
    rewriting.begin()
    rewriting.write(file.name, 0, bytes.subarray(1))
    expect(rewriting.finish([file])).toBe(file.name)
    rewriting.leave()
    expect(databases()).toBe(OLD)
    expect(rewriting.find()).toEqual({ kind: 'none' })
  })

  it('puts back what it moved where the databases cannot be moved, and says the reason', () => {
    const first = new Rewriting(profile, storeDisk)
    first.begin()
    first.write(file.name, 0, bytes)
    first.finish([file])
    const held: StoreDisk = {
      ...storeDisk,
      rename: (from, to) => {
        if (from.endsWith('IndexedDB')) throw Object.assign(new Error('held'), { code: 'EACCES' })
        storeDisk.rename(from, to)
      },
    }
    const second = new Rewriting(profile, held)
    second.resume()
    expect(second.find()).toMatchObject({
      sentence: expect.stringContaining('may not be used by you') as string,
    })
    expect(databases()).toBe(OLD)
  })

  it('names what it could not delete', () => {
    const first = new Rewriting(profile, storeDisk)
    first.begin()
    first.write(file.name, 0, bytes)
    first.finish([file])
    const held: StoreDisk = {
      ...storeDisk,
      rename: (from, to) => {
        if (from.endsWith('Local Storage')) throw Object.assign(new Error('held'), { code: 'EACCES' })
        storeDisk.rename(from, to)
      },
    }
    const second = new Rewriting(profile, held)
    second.resume()
    expect(second.find().kind).toBe('waiting')
    expect(second.end()).toContain('could not be deleted (Local Storage)')
  })

  it('deletes nothing where its state cannot be read', () => {
    mkdirSync(join(profile, 'rewriting'))
    writeFileSync(join(profile, 'rewriting/state.json'), '{"phase":"')
    writeFileSync(join(profile, 'rewriting/out-lab-one.zip'), NEW)
    const rewriting = new Rewriting(profile, storeDisk)
    rewriting.resume()
    expect(rewriting.find()).toMatchObject({ kind: 'told', isDone: false })
    expect(readFileSync(join(profile, 'rewriting-kept/out-lab-one.zip'), 'utf8')).toBe(NEW)
  })
})
