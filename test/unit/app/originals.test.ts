import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { emptyOriginals, writeOriginal } from '../../../app/originals.ts'

const pdf = { ending: '.pdf', mediaType: 'application/pdf' } as const
const bytes = new TextEncoder().encode('%PDF-1.7\n')
const fresh = (): string => join(mkdtempSync(join(tmpdir(), 'stillroom-originals-')), 'opened')

describe('an original that is opened', () => {
  it('lies where only its owner can read it, whole, with the ending of its kind', async () => {
    const folder = fresh()
    mkdirSync(folder, { mode: 0o777 })
    const path = await writeOriginal(folder, bytes, 'Fan 3.exe', pdf)
    expect(basename(path)).toMatch(/^Fan-3-[0-9a-f]{8}\.pdf$/)
    expect(readFileSync(path)).toEqual(Buffer.from(bytes))
    expect([statSync(folder).mode & 0o777, statSync(path).mode & 0o777]).toEqual([0o700, 0o600])
  })

  it.each(['../../../etc/cron.d/x', '..', '/etc/passwd', '-rf', '.bashrc', 'CON', 'a\0b', '𐍈'.repeat(300)])(
    'lies in that folder also when it is called %j',
    async (name) => {
      const folder = fresh()
      const path = await writeOriginal(folder, bytes, name, pdf)
      expect(dirname(path)).toBe(folder)
      expect(basename(path)).toMatch(/^[\p{L}\p{N}][\p{L}\p{N}-]*-[0-9a-f]{8}\.pdf$/u)
    },
  )

  it('never takes the place of another one', async () => {
    const folder = fresh()
    for (let at = 0; at < 20; at++) await writeOriginal(folder, bytes, 'Fans', pdf)
    expect(readdirSync(folder)).toHaveLength(20)
  })

  it('is gone after the folder was emptied, and nothing else with it', async () => {
    const folder = fresh()
    const kept = join(dirname(folder), 'kept.txt')
    writeFileSync(kept, 'kept')
    await writeOriginal(folder, bytes, 'Fans', pdf)
    symlinkSync(dirname(folder), join(folder, 'link'))
    await emptyOriginals(folder)
    await emptyOriginals(folder)
    expect(readdirSync(dirname(folder))).toEqual(['kept.txt'])
  })
})
