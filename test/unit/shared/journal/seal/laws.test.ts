import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkSeals } from '../../../../../shared/journal/seal/check.ts'
import type { JournalRecords, Seal, SealSalts } from '../../../../../shared/journal/seal/model.ts'
import { sealRecords, thingsOf } from '../../../../../shared/journal/seal/seal.ts'
import { isSame } from '../../../../../shared/lab/fields.ts'
import { eveningAtTheRack, Journal, seededBytes } from './scenario.ts'
import { act, journals, perform, SECRET } from './acts.ts'

describe('laws of the seal', () => {
  it('a journal holds after every act', () => {
    fc.assert(
      fc.property(fc.nat(), fc.array(act, { maxLength: 12 }), (seed, acts) => {
        const journal = new Journal(seed)
        for (const next of acts) {
          perform(journal, next)
          expect(journal.check()).toMatchObject({ ok: true })
        }
      }),
      { numRuns: 150 },
    )
  })

  it('whatever is appended leaves every seal before it as it was, byte for byte', () => {
    fc.assert(
      fc.property(journals, act, (journal, next) => {
        const before = structuredClone(journal.seals)
        perform(journal, next)
        expect(journal.seals.slice(0, before.length)).toEqual(before)
        expect(journal.check(before.map(({ number, hash }) => ({ number, hash })))).toMatchObject({
          ok: true,
        })
      }),
    )
  })

  it('a struck text and its salt stand in no seal, no salt and no record', () => {
    fc.assert(
      fc.property(journals, (journal) => {
        const older = new Map(journal.salts.map((own) => [own.seal, own.salts]))
        const holding = journal.seals.filter(({ number }) => holdsSecret(journal, number))
        if (!journal.entries[0]) return
        journal.strike(journal.entries[0], SECRET, 'typed by mistake')
        const all = JSON.stringify([journal.seals, journal.salts, journal.records])
        expect(all).not.toContain(SECRET)
        for (const { id } of holding)
          for (const [place, salt] of Object.entries(older.get(id)!))
            if (place === 'text') expect(all).not.toContain(salt)
      }),
    )
  })

  it('any single-bit change in a seal, a salt or a record is found', () => {
    let found = 0
    fc.assert(
      fc.property(journals, fc.nat(), fc.nat(), fc.nat(7), (journal, which, where, bit) => {
        const tables = { seals: journal.seals, salts: journal.salts, ...journal.records }
        const flipped = maybeFlipped(tables, which, where, bit)
        if (!flipped) return
        found++
        expect(checkAll(flipped)).toMatchObject({ ok: false, firstBreak: {} })
      }),
      { numRuns: 2500 },
    )
    expect(found).toBeGreaterThan(700)
  })

  it('every third byte of every record of an evening at the rack is guarded', { timeout: 120_000 }, () => {
    const journal = eveningAtTheRack()
    const tables = { seals: journal.seals, salts: journal.salts, ...journal.records }
    const count = Object.values(tables).flat().length
    let found = 0
    for (let which = 0; which < count; which++)
      for (let where = which % 3; where < 4000; where += 3) {
        const flipped = maybeFlipped(tables, which, where, (where + which) % 8, false)
        if (!flipped) continue
        found++
        const result = checkAll(flipped)
        if (result.ok) throw new Error(`record ${which}, byte ${where}: not found`)
      }
    expect(found).toBeGreaterThan(3000)
  })

  it('a seal that is dropped, doubled or moved is found, as is a record or a salt that is dropped', () => {
    fc.assert(
      fc.property(journals, fc.nat(), fc.nat(), (journal, a, b) => {
        const { seals, salts, records } = journal
        if (seals.length < 2) return
        const at = a % (seals.length - 1)
        const to = b % seals.length
        const dropped = seals.toSpliced(at, 1)
        const doubled = seals.toSpliced(to, 0, seals[at]!)
        const swapped = seals.toSpliced(at, 1).toSpliced(to, 0, seals[at]!)
        expect(checkSeals(dropped, salts, records).ok).toBe(false)
        expect(checkSeals(doubled, salts, records).ok).toBe(false)
        if (at !== to) expect(checkSeals(swapped, salts, records).ok).toBe(false)
        for (const table of ['entries', 'revisions', 'withdrawals', 'marks', 'texts'] as const) {
          if (records[table].length === 0) continue
          const fewer = { ...records, [table]: records[table].toSpliced(a % records[table].length, 1) }
          expect(checkSeals(seals, salts, fewer).ok).toBe(false)
        }
        const own = salts[a % salts.length]!
        if (Object.keys(own.salts).length > 0)
          expect(checkSeals(seals, salts.toSpliced(salts.indexOf(own), 1), records).ok).toBe(false)
      }),
    )
  })

  it('an end that is cut off with its records is found against a noted head, and only then', () => {
    const journal = eveningAtTheRack()
    const whole = { number: journal.seals.length, hash: journal.seals.at(-1)!.hash }
    const last = journal.seals.pop()!
    const stray = journal.salts.pop()!
    const cut = journal.revisions.pop()!
    expect(last.of.id).toBe(cut.id)
    expect(stray.seal).toBe(last.id)
    expect(journal.check()).toMatchObject({ ok: true })
    expect(journal.check([whole])).toMatchObject({ ok: false, firstBreak: { code: 'head' } })
  })

  it('a chain that was made anew as a whole is found against a noted head, and only then', () => {
    const journal = eveningAtTheRack()
    const head = { number: 3, hash: journal.seals[2]!.hash }
    const things = thingsOf(journal.records)
    const anew = sealRecords(journal.project, null, things, {
      at: journal.entries[0]!.moment,
      randomBytes: seededBytes(7),
    })
    const seals = anew.map(({ seal }) => seal)
    const salts = anew.map(({ salts: own }) => own)
    expect(checkSeals(seals, salts, journal.records)).toMatchObject({ ok: true })
    expect(checkSeals(seals, salts, journal.records, [head])).toMatchObject({
      ok: false,
      firstBreak: { code: 'head', number: 3 },
    })
  })
})

interface AllTables extends JournalRecords {
  readonly seals: readonly Seal[]
  readonly salts: readonly SealSalts[]
}

function checkAll({ seals, salts, ...records }: AllTables) {
  return checkSeals(seals, salts, records)
}

function holdsSecret(journal: Journal, number: number): boolean {
  const { of } = journal.seals[number - 1]!
  const id = of.table === 'entries' ? journal.revisionsOf(of.id as never)[0]!.id : of.id
  const revision = journal.revisions.find((one) => one.id === id)
  if (!revision) return false
  const own = journal.revisionsOf(revision.node as never)
  const upTo = new Journal()
  upTo.revisions = own.slice(0, own.indexOf(revision) + 1)
  return upTo.textOf(revision.node as never).includes(SECRET)
}

/**
 * All tables with one bit of one record's JSON flipped, as a disk or a hand might; null where that is no JSON any more, or
 * says the same. A strike that changed no text of this journal has no seal, and is left alone.
 */
function maybeFlipped(
  tables: AllTables,
  which: number,
  where: number,
  bit: number,
  wraps = true,
): AllTables | null {
  const sealed = new Set(tables.seals.map(({ of }) => of.id))
  const all = Object.entries(tables as unknown as Record<string, { id?: string }[]>).flatMap(
    ([table, records]) => records.map((record, i) => ({ table, record, i })),
  )
  const target = all[which % all.length]
  if (!target || (target.table === 'strikes' && !sealed.has(target.record.id!))) return null
  const bytes = Buffer.from(JSON.stringify(target.record))
  if (!wraps && where >= bytes.length) return null
  const place = where % bytes.length
  bytes[place] = bytes[place]! ^ (1 << bit)
  try {
    const next = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as object
    if (isSame(next, target.record)) return null
    const table = all.filter((one) => one.table === target.table).map(({ record }) => record as object)
    return { ...tables, [target.table]: table.with(target.i, next) }
  } catch {
    return null
  }
}
