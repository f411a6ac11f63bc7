/**
 * Exported journals are checked from outside: by sha256sum of GNU coreutils and by check.sh in the shells that are here.
 * The script and the program's own check must say the same.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { sha256Of, toUtf8 } from '../../shared/journal/seal/canonical.ts'
import { checkFiles } from '../../shared/journal/seal/files/check-files.ts'
import { HEAD, JOURNAL, README, SCRIPT, SUMS, type Files } from '../../shared/journal/seal/files/layout.ts'
import { exportOf, withFlippedBit, withSums } from '../unit/shared/journal/seal/exported.ts'
import { journals } from '../unit/shared/journal/seal/acts.ts'
import { eveningAtTheRack, Journal } from '../unit/shared/journal/seal/scenario.ts'

const room = mkdtempSync(join(tmpdir(), 'seal-'))
afterAll(() => rmSync(room, { recursive: true }))

let count = 0
/** Writes the files into a new folder. */
function write(files: Files): string {
  const folder = join(room, String(count++), 'a folder')
  for (const [path, bytes] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), bytes)
  }
  return folder
}

const run = (folder: string, command: string, ...args: string[]) =>
  spawnSync(command, args, { cwd: folder, encoding: 'utf8' })

/** What README.txt tells the reader to do. @returns what was printed where something is wrong, else null */
function followReadMe(folder: string, shell = 'sh'): string | null {
  const sums = run(folder, 'sha256sum', '-c', '--quiet', SUMS)
  if (sums.status !== 0) return sums.stdout + sums.stderr
  const script = run(folder, shell, SCRIPT)
  return script.status === 0 ? null : script.stderr
}

const shells = ['sh', 'dash', 'bash', 'busybox'].filter((shell) => spawnSync(shell, ['-c', ':']).status === 0)

/** A journal whose words look like the format's own, with pictures, late seals and texts that were struck twice. */
function oddJournal() {
  const picture = toUtf8('a picture of the mast')
  const sha256 = sha256Of(picture)
  const journal = new Journal(9, false)
  const first = journal.add('observation', `![The mast](sha256:${sha256})\n\n## 1. Entry: fix\n`)
  journal.amend(first, 'no picture any more\n\n\n')
  journal.withdraw(first)
  journal.sealLate()
  Object.assign(journal, { isSealing: true })
  const odd = journal.add(
    'action',
    '","late":true,"number":3,"of":{"id":"$(date) `date` %s \\n \'{"sha256":"00"}',
    {
      place: { machine: null, host: '-n', user: '', directory: '/srv/*\n/etc' },
      ran: { exitCode: 0, started: null, ended: first.moment, log: '“rack”.log ██' },
      under: first.id,
      file: {
        ...{ path: '%d', owner: null, group: '\\', mode: '0644', form: 'diff', endsWithNewline: false },
        ...{ lineEnds: 'crlf', blob: sha256Of('absent') },
      },
    },
  )
  journal.amend(odd, 'mast-one, mast-two, sigma-orionis')
  journal.mark(odd, {
    kind: 'place',
    set: { machine: null, host: 'mast-two', user: null, directory: null },
    was: { machine: null, host: 'mast-one', user: 'ops', directory: '' },
  })
  journal.strike(odd, 'mast-one', 'beside mast-two')
  journal.strike(odd, 'mast-two', 'in the picture too', [sha256Of('absent')])
  journal.add('fix', '')
  return { journal, blobs: new Map([[sha256, picture]]) }
}

const evening = exportOf(eveningAtTheRack())
const odd = oddJournal()
const oddFiles = exportOf(odd.journal, odd.blobs)

describe('an exported journal', () => {
  it.each(shells)('is found whole by sha256sum and by check.sh in %s', (shell) => {
    for (const files of [evening, oddFiles, exportOf(new Journal())]) {
      const folder = write(files)
      expect(followReadMe(folder, shell)).toBeNull()
      expect(checkFiles(files)).toMatchObject({ ok: true })
    }
  })

  it('is made alike by the program and by check.sh from any journal', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(journals, (journal) => {
        const folder = write(exportOf(journal))
        expect(followReadMe(folder)).toBeNull()
        rmSync(folder, { recursive: true })
      }),
      { numRuns: 25 },
    )
  })

  it('tells its head, and whether a head that was noted stands in it', () => {
    const folder = write(evening)
    const { seals } = eveningAtTheRack()
    expect(run(folder, 'sh', SCRIPT).stdout).toContain(`14 ${seals[13]!.hash}\n`)
    expect(run(folder, 'sh', SCRIPT, '9', seals[8]!.hash).status).toBe(0)
    const other = run(folder, 'sh', SCRIPT, '9', seals[7]!.hash)
    expect(other.status).toBe(1)
    expect(other.stderr).toContain('it was made anew, or cut off')
    expect(checkFiles(evening, [{ number: 9, hash: seals[7]!.hash }])).toMatchObject({ ok: false })
  })

  it('is checked by hand as README.txt says: each seal names the SHA-256 of the one before, each text its own', () => {
    const folder = write(evening)
    const sum = (path: string): string => run(folder, 'sha256sum', path).stdout.slice(0, 64)
    const text = (path: string): string => Buffer.from(evening.get(path)!).toString()
    const seals = [...evening.keys()].filter((path) => path.startsWith('seals/')).sort()
    expect(seals).toHaveLength(14)
    seals.slice(1).forEach((path, i) => expect(text(path)).toContain(`{"before":"${sum(seals[i]!)}"`))
    expect(text(HEAD)).toBe(`14 ${sum(seals[13]!)}\n`)
    const texts = [...evening.keys()].filter((path) => path.startsWith('texts/'))
    for (const path of texts) expect(path).toBe(`texts/${sum(path)}.txt`)
    expect(text(README)).toContain(`sh check.sh 14 ${sum(seals[13]!)}`)
  })

  it('can be read: every text stands in journal.md, the struck ones masked, and none is missing', () => {
    const text = Buffer.from(evening.get(JOURNAL)!).toString()
    expect(text).toContain('## 1. Entry: problem, 2026-11-25T22:30:01.000+01:00\n')
    expect(text).toContain('    The weather logger writes no lines since 19:40.\n')
    expect(text).toContain(
      'text, struck out in part by seal 10:\n\n    psql -h 192.0.2.14 -U logger\n    password: █████████████████\n',
    )
    expect(text).toContain('## 14. Amendment of entry 11, ')
    expect(text).toContain('host:\n\n    vega.example.org\n')
    for (const bytes of evening.values()) expect(Buffer.from(bytes).includes('corona-borealis-7')).toBe(false)
  })

  it('says which seals were made late and what was struck out', () => {
    const text = Buffer.from(oddFiles.get(README)!).toString()
    expect(text).toContain('Seals with "late":true (3 of them)')
    expect(text).toContain('    seal 5, text: by seal 7, seal 8\n')
    expect(Buffer.from(oddFiles.get(JOURNAL)!).toString()).toContain(
      'text, struck out in part by seal 7, seal 8:',
    )
  })

  it('shows every single-bit change to who follows README.txt', { timeout: 120_000 }, () => {
    const property = fc.property(fc.boolean(), fc.nat(), fc.nat(), fc.nat(), (isOdd, which, where, bit) => {
      const flipped = withFlippedBit(isOdd ? oddFiles : evening, which, where, bit)
      const folder = write(flipped.files)
      expect(followReadMe(folder)).not.toBeNull()
      expect(checkFiles(flipped.files)).toMatchObject({ ok: false })
      rmSync(folder, { recursive: true })
    })
    fc.assert(property, { numRuns: 120 })
  })

  it(
    'shows every single-bit change of what is sealed, also where SHA256SUMS was made anew',
    { timeout: 120_000 },
    () => {
      const property = fc.property(fc.boolean(), fc.nat(), fc.nat(), fc.nat(), (isOdd, which, where, bit) => {
        const flipped = withFlippedBit(isOdd ? oddFiles : evening, which, where, bit)
        if ([README, SCRIPT, SUMS].includes(flipped.path)) return
        const forged = withSums(flipped.files)
        const folder = write(forged)
        const { status } = run(folder, 'sh', SCRIPT)
        expect(status).not.toBe(0)
        expect(checkFiles(forged)).toMatchObject({ ok: false })
        rmSync(folder, { recursive: true })
      })
      fc.assert(property, { numRuns: 120 })
    },
  )

  it('shows a file that is missing, one that was added, and one that was moved', () => {
    for (const files of [evening, oddFiles])
      for (const path of files.keys()) {
        const fewer = new Map(files)
        fewer.delete(path)
        expect(checkFiles(fewer)).toMatchObject({ ok: false })
        if (path.startsWith('texts/') || path.startsWith('seals/'))
          expect(checkFiles(withSums(fewer))).toMatchObject({ ok: false })
      }
    const [seal] = [...evening.keys()].filter((path) => path.startsWith('texts/'))
    for (const change of [
      (files: Map<string, Uint8Array>) => files.delete(seal!),
      (files: Map<string, Uint8Array>) => files.delete('seals/0000000003.json'),
      (files: Map<string, Uint8Array>) => files.set(`texts/${sha256Of('more')}.txt`, toUtf8('more')),
      (files: Map<string, Uint8Array>) =>
        files.set('seals/0000000003.json', files.get('seals/0000000004.json')!),
    ]) {
      const files = new Map(evening)
      change(files)
      expect(followReadMe(write(files))).not.toBeNull()
      const forged = withSums(files)
      expect(run(write(forged), 'sh', SCRIPT).status).toBe(1)
      expect(checkFiles(forged)).toMatchObject({ ok: false })
    }
  })
})

describe('many exported journals', () => {
  it('show thousands of single-bit changes to the program’s own check', { timeout: 120_000 }, () => {
    let tried = 0
    for (const files of [evening, oddFiles]) {
      fc.assert(
        fc.property(fc.nat(), fc.nat(), fc.nat(), (which, where, bit) => {
          tried++
          expect(checkFiles(withFlippedBit(files, which, where, bit).files)).toMatchObject({ ok: false })
        }),
        { numRuns: 2000 },
      )
      fc.assert(
        fc.property(fc.nat(), fc.nat(), fc.nat(), (which, where, bit) => {
          const flipped = withFlippedBit(files, which, where, bit)
          if ([README, SCRIPT, SUMS].includes(flipped.path)) return
          tried++
          expect(checkFiles(withSums(flipped.files))).toMatchObject({ ok: false })
        }),
        { numRuns: 1000 },
      )
    }
    expect(tried).toBeGreaterThan(5000)
  })
})
