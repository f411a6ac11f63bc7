import { mkdirSync, mkdtempSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { readPart, readPartInside, readWithin, writeWhole } from '../../../app/disk.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillroom-disk-'))
})

describe('a file is written whole', () => {
  it('where there was none, and over one that was there', async () => {
    const path = join(folder, 'rack.md')
    await writeWhole(path, new TextEncoder().encode('one'))
    await writeWhole(path, new TextEncoder().encode('2'))
    expect(readFileSync(path, 'utf8')).toBe('2')
    expect(readdirSync(folder)).toEqual(['rack.md'])
  })

  it('or not at all: nothing is left beside a place that cannot be written', async () => {
    mkdirSync(join(folder, 'taken'))
    await expect(writeWhole(join(folder, 'taken'), new Uint8Array(9))).rejects.toThrow()
    await expect(writeWhole(join(folder, 'missing', 'rack.md'), new Uint8Array(9))).rejects.toThrow('ENOENT')
    expect(readdirSync(folder)).toEqual(['taken'])
  })
})

describe('a file is read', () => {
  it('byte for byte up to the limit itself', async () => {
    const path = join(folder, 'nul.txt')
    writeFileSync(path, Buffer.from([0, 255, 0, 13, 10]))
    const read = await readWithin(path, 5)
    expect(read).toEqual({ kind: 'read', name: 'nul.txt', bytes: new Uint8Array([0, 255, 0, 13, 10]) })
    // Node keeps small reads in a shared pool; sent as they are, they would take the whole pool along.
    expect(read.kind === 'read' ? read.bytes.buffer.byteLength : 0).toBe(5)
  })

  it('not at all beyond it, but named with its size and the limit', async () => {
    const path = join(folder, 'large.log')
    writeFileSync(path, '')
    truncateSync(path, 60_000_000_000)
    expect(await readWithin(path, 50_000_000)).toMatchObject({
      kind: 'refused',
      name: 'large.log',
      size: 60_000_000_000,
      limit: 50_000_000,
      sentence: expect.stringContaining('60000.0 MB, more than the 50.0 MB') as string,
    })
  })
})

describe('a part of a file is read', () => {
  it('from its offset on, up to its end, and nothing behind that', async () => {
    writeFileSync(join(folder, 'vane.log'), '0123456789')
    const part = async (offset: number, length: number): Promise<string> =>
      Buffer.from(await readPart(join(folder, 'vane.log'), offset, length)).toString()
    expect([
      await part(0, 4),
      await part(4, 4),
      await part(8, 4),
      await part(10, 4),
      await part(99, 4),
    ]).toEqual([...['0123', '4567', '89', '', '']])
  })

  it('of a folder only where it does not lead out of it', async () => {
    mkdirSync(join(folder, 'rack'))
    writeFileSync(join(folder, 'outside.txt'), 'outside')
    writeFileSync(join(folder, 'rack/inside.txt'), 'inside')
    const read = (name: string): Promise<Uint8Array> => readPartInside(join(folder, 'rack'), name, 2, 3)
    expect(Buffer.from(await read('inside.txt')).toString()).toBe('sid')
    await expect(read('../outside.txt')).rejects.toMatchObject({ code: 'ENOENT' })
    await expect(readPart(folder, 0, 1)).rejects.toMatchObject({ code: 'EISDIR' })
  })
})
