import { describe, expect, it } from 'vitest'
import { checkSeals } from '../../../../../shared/journal/seal/check.ts'
import { maybeBody } from '../../../../../shared/journal/seal/chain.ts'
import type { Seal, SealSalts } from '../../../../../shared/journal/seal/model.ts'
import { digestWords, sealOf } from '../../../../../shared/journal/seal/seal.ts'
import { toMoment } from '../../../../../shared/lab/moment.ts'
import { eveningAtTheRack, Journal } from './scenario.ts'

const firstBreakOf = (journal: Journal) => {
  const result = journal.check()
  return result.ok ? null : result.firstBreak
}

/** Seals with one body changed, and all hashes from there on made to fit. */
function forge(seals: readonly Seal[], number: number, change: (body: string) => string): Seal[] {
  const forged: Seal[] = []
  for (const seal of seals) {
    const text = seal.number === number ? change(seal.body) : seal.body
    const body = maybeBody(text)!
    forged.push(sealOf({ ...body, before: forged.at(-1)?.hash ?? body.before }))
  }
  return forged
}

describe('a sealed journal', () => {
  it('holds as it was written, with what was struck out named', () => {
    const journal = eveningAtTheRack()
    const result = journal.check()
    expect(result).toMatchObject({ ok: true, count: 14, late: 0, head: { number: 14 } })
    if (!result.ok) return
    expect(result.struck.map(({ number, field, strikes }) => ({ number, field, strikes }))).toEqual([
      { number: 2, field: 'text', strikes: [10] },
      { number: 9, field: 'text', strikes: [10] },
    ])
    expect(result.sentence).toBe(
      'All 14 seals hold: nothing that was sealed was changed since. 2 texts were struck out in part; the rest stands as the strike left it. The head is seal 14. Note its SHA-256 elsewhere, so that nobody can make the whole journal anew unseen.',
    )
  })

  it('holds where it is empty', () => {
    expect(new Journal().check()).toMatchObject({ ok: true, head: null, count: 0 })
  })

  it('holds no words in the open', () => {
    const { seals } = eveningAtTheRack()
    const all = seals.map(({ body }) => body).join('\n')
    for (const words of [
      'logger',
      '5432',
      'arcturus',
      'vega',
      'ops',
      'root',
      '0640',
      '/srv',
      'Rain',
      'password',
    ])
      expect(all).not.toContain(words)
  })

  it('says of seals that were made later that they were', () => {
    const journal = new Journal(3, false)
    const entry = journal.add('action', 'systemctl restart weather')
    journal.amend(entry, 'systemctl restart weather-logger')
    journal.withdraw(entry)
    journal.sealLate()
    journal.add('observation', 'It writes again.')
    expect(journal.check()).toMatchObject({ ok: false, firstBreak: { code: 'unsealed' } })
    journal.entries.pop()
    journal.revisions.pop()
    expect(journal.check()).toMatchObject({ ok: true, count: 3, late: 3 })
    expect(journal.seals.map(({ of }) => of.table)).toEqual(['entries', 'revisions', 'withdrawals'])
  })

  it('stands open to further strikes of the same text and of an earlier strike’s reason', () => {
    const journal = new Journal()
    const entry = journal.add('action', 'mast-one and mast-two')
    journal.strike(entry, 'mast-one', 'beside mast-two')
    journal.strike(entry, 'mast-two', 'as well')
    expect(journal.textOf(entry.id)).toBe('████████ and ████████')
    const result = journal.check()
    expect(result.ok && result.struck).toMatchObject([
      { number: 1, field: 'text', strikes: [2, 3] },
      { number: 2, field: 'reason', strikes: [3] },
    ])
  })

  it('has no seal for a strike that changed nothing in it, unless it emptied one of its pictures', () => {
    const journal = new Journal()
    const sha256 = 'ab'.repeat(32)
    const entry = journal.add('observation', `![The mast](sha256:${sha256})`)
    expect(journal.strike(entry, 'nowhere', 'by mistake', ['cd'.repeat(32)])).toBe(false)
    expect(journal.strike(entry, 'nowhere', 'in the picture', ['cd'.repeat(32), sha256])).toBe(true)
    expect(journal.seals[1]!.body).toContain(`"emptied":["${sha256}"]`)
    expect(journal.check()).toMatchObject({ ok: true, count: 2 })
  })
})

describe('the first break', () => {
  it('is the entry whose text was changed, with what holds before it', () => {
    const journal = eveningAtTheRack()
    journal.revisions[4] = {
      ...journal.revisions[4]!,
      changeSet: [[0, '- [x] dome closed', '- [ ] lamp off']],
    }
    expect(journal.check()).toEqual({
      ok: false,
      code: 'broken',
      firstBreak: { code: 'words', number: 4, of: journal.seals[3]!.of, field: 'text' },
      sentence:
        'Seal 4 was put on an entry in which the text is not what was sealed. Seals 1 to 3 hold. Nothing was changed by checking; compare with a backup or an earlier export to see what stood there.',
    })
  })

  it('is the one with the lowest number where several things were changed', () => {
    const journal = eveningAtTheRack()
    journal.seals[11] = { ...journal.seals[11]!, hash: '0'.repeat(64) }
    journal.entries[2] = { ...journal.entries[2]!, kind: 'decision' }
    expect(firstBreakOf(journal)).toMatchObject({ code: 'changed', number: 3 })
    journal.seals[1] = { ...journal.seals[1]!, body: '{}' }
    expect(firstBreakOf(journal)).toMatchObject({ code: 'unreadable', number: 2 })
  })

  it('is a moment that was moved, also where the forger made all hashes fit', () => {
    const journal = eveningAtTheRack()
    const earlier = toMoment(Date.UTC(2026, 10, 25, 20), 60)
    const late = journal.marks[0]!
    journal.marks[0] = { ...late, moment: earlier }
    expect(firstBreakOf(journal)).toMatchObject({ code: 'changed', number: 5 })
    const head = { number: 14, hash: journal.seals[13]!.hash }
    journal.seals = forge(journal.seals, 5, (body) => body.replace(late.moment, earlier))
    expect(journal.check()).toMatchObject({ ok: true })
    expect(journal.check([head])).toMatchObject({ ok: false, firstBreak: { code: 'head', number: 14 } })
  })

  it('is a struck text that was changed after it was struck', () => {
    const journal = eveningAtTheRack()
    const changeSet = [[0, 'psql -h 192.0.2.15 -U logger', 'password: █████████████████'] as const]
    journal.revisions[1] = { ...journal.revisions[1]!, changeSet }
    expect(firstBreakOf(journal)).toMatchObject({ code: 'words', number: 2, field: 'text' })
  })

  it('is a text whose salt is gone without a strike', () => {
    const journal = eveningAtTheRack()
    journal.salts = journal.salts.with(0, { ...journal.salts[0]!, salts: {} })
    expect(firstBreakOf(journal)).toMatchObject({ code: 'no salt', number: 1, field: 'text' })
  })

  it('is a struck text whose salt was kept', () => {
    const journal = new Journal()
    const entry = journal.add('action', 'mast-one')
    const kept = journal.salts[0]!
    journal.strike(entry, 'mast-one', 'typed by mistake')
    journal.salts = journal.salts.with(0, kept)
    expect(firstBreakOf(journal)).toMatchObject({ code: 'salt left', number: 1, field: 'text' })
  })

  it('is a text that was changed before it was struck: striking hides nothing', () => {
    const journal = new Journal()
    const entry = journal.add('action', 'mast-one stands at 192.0.2.7')
    journal.revisions[0] = { ...journal.revisions[0]!, changeSet: [[0, 'mast-one stands at 192.0.2.9']] }
    journal.strike(entry, 'mast-one', 'typed by mistake')
    expect(firstBreakOf(journal)).toMatchObject({ code: 'unmatched', number: 1, field: 'text' })
  })

  it('is a text that is said to be struck but was only reworded', () => {
    const journal = new Journal()
    const entry = journal.add('action', 'mast-one')
    journal.strike(entry, 'mast-one', 'typed by mistake')
    journal.revisions[0] = { ...journal.revisions[0]!, changeSet: [[0, 'mast-two']] }
    const salts = journal.salts[1]!.salts as Record<string, string>
    const digest = digestWords(salts['taken.0.now']!, 'mast-two')
    journal.seals = forge(journal.seals, 2, (body) =>
      body.replace(/"now":\{"sha256":"[0-9a-f]+"/, `"now":{"sha256":"${digest}"`),
    )
    expect(firstBreakOf(journal)).toMatchObject({ code: 'no mask', number: 1, field: 'text' })
  })

  it('is a strike that names what no seal holds', () => {
    const journal = new Journal()
    const entry = journal.add('action', 'mast-one')
    journal.strike(entry, 'mast-one', 'typed by mistake')
    journal.seals = forge(journal.seals, 2, (body) => body.replace('"seal":1', '"seal":2'))
    expect(firstBreakOf(journal)).toMatchObject({ code: 'no salt', number: 1 })
    journal.salts = []
    journal.seals = journal.seals.slice(0, 1)
    journal.strikes = []
    expect(firstBreakOf(journal)).toMatchObject({ code: 'no salt', number: 1 })
  })

  it('is a record that is gone, a record that was sealed twice, and a record without a seal', () => {
    const gone = eveningAtTheRack()
    gone.marks.shift()
    expect(firstBreakOf(gone)).toMatchObject({ code: 'missing', number: 5 })

    const twice = eveningAtTheRack()
    const body = maybeBody(twice.seals[13]!.body)!
    twice.seals.push(sealOf({ ...body, number: 15, before: twice.seals[13]!.hash }))
    expect(firstBreakOf(twice)).toMatchObject({ code: 'doubled', number: 15 })

    const beside = eveningAtTheRack()
    beside.withdrawals.push({ ...beside.withdrawals[0]!, id: beside.ids.make() })
    expect(firstBreakOf(beside)).toMatchObject({ code: 'unsealed', number: null })
  })

  it('is a shown text that the revisions do not make', () => {
    const journal = eveningAtTheRack()
    const records = journal.records
    const texts = records.texts.map((text, i) =>
      i === 3 ? { ...text, text: text.text.replace('lamp', 'lamb') } : text,
    )
    const result = checkSeals(journal.seals, journal.salts, { ...records, texts })
    expect(result).toMatchObject({ ok: false, firstBreak: { code: 'shown', of: { id: texts[3]!.node } } })
  })

  it('is a salt of no seal', () => {
    const journal = eveningAtTheRack()
    journal.salts.push({ seal: `${journal.project}:0000000015`, salts: {} } as unknown as SealSalts)
    expect(firstBreakOf(journal)).toMatchObject({ code: 'stray salt', number: null })
  })

  it('is a seal of another project', () => {
    const journal = new Journal(1)
    journal.add('action', 'uptime')
    const other = new Journal(2)
    other.add('action', 'uptime')
    journal.seals.push(forge([...journal.seals, other.seals[0]!], 0, (body) => body)[1]!)
    expect(firstBreakOf(journal)).toMatchObject({ code: 'number', number: 2 })
  })

  it('has a sentence for every code', async () => {
    const { breakCodes, breakSentence } = await import('../../../../../shared/journal/seal/sentences.ts')
    const of = { table: 'marks', id: 'x' } as const
    for (const code of breakCodes)
      for (const number of [null, 1, 7])
        expect(breakSentence({ code, number, of, field: 'place.host' })).toMatch(
          /^[A-Z][^?]+\. .+ Nothing was changed by checking; .+\.$|^Seal \? /,
        )
  })
})
