/** A journal that is written, amended, marked and struck as the store does it, all in memory. */
import { createIdMaker, type EntryId, type IdMaker, type ProjectId } from '../../../../../shared/lab/ids.ts'
import type {
  Entry,
  EntryFacts,
  EntryKind,
  Mark,
  MarkSays,
  Revision,
  Strike,
  TextRecord,
  Withdrawal,
} from '../../../../../shared/lab/model.ts'
import { toMoment, type Moment } from '../../../../../shared/lab/moment.ts'
import {
  blobsNamedIn,
  changeBetween,
  foldText,
  insertingAll,
  toStorableText,
} from '../../../../../shared/lab/text.ts'
import { foldPieces } from '../../../../../shared/provenance/pieces.ts'
import { maskText } from '../../../../../shared/safety/mask.ts'
import { strikeTexts } from '../../../../../shared/safety/strike.ts'
import { checkSeals } from '../../../../../shared/journal/seal/check.ts'
import type {
  JournalRecords,
  Seal,
  SealedThing,
  SealHead,
  SealSalts,
} from '../../../../../shared/journal/seal/model.ts'
import { sealJournal, sealRecord, type Sealing } from '../../../../../shared/journal/seal/seal.ts'
import { strikeSeals } from '../../../../../shared/journal/seal/strike.ts'
import { mapWords } from '../../../../../shared/journal/seal/words.ts'

export const noFacts: EntryFacts = { happened: null, under: null, place: null, ran: null, file: null }

/** A generator with a fixed seed (an LCG with the constants of Numerical Recipes), so that a failure repeats. */
export function seededBytes(seed: number): (count: number) => Uint8Array {
  let state = seed >>> 0
  return (count) =>
    Uint8Array.from({ length: count }, () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0
      return state >>> 24
    })
}

export class Journal {
  readonly project: ProjectId
  readonly ids: IdMaker
  entries: Entry[] = []
  revisions: Revision[] = []
  withdrawals: Withdrawal[] = []
  marks: Mark[] = []
  strikes: Strike[] = []
  seals: Seal[] = []
  salts: SealSalts[] = []
  private ms = Date.UTC(2026, 10, 25, 21, 30)
  private readonly random: (count: number) => Uint8Array

  /** @param isSealing whether records are sealed as they come */
  constructor(
    seed = 1,
    readonly isSealing = true,
  ) {
    this.random = seededBytes(seed)
    this.ids = createIdMaker(() => this.ms, this.random)
    this.project = this.ids.make()
  }

  get records(): JournalRecords {
    const { entries, revisions, withdrawals, marks, strikes } = this
    const texts = entries.flatMap(({ id }): TextRecord[] => {
      const own = this.revisionsOf(id)
      return own.length === 0 ? [] : [{ node: id, text: foldText(own), pieces: foldPieces(own) }]
    })
    return structuredClone({ entries, revisions, withdrawals, marks, strikes, texts })
  }

  check(noted: readonly SealHead[] = []) {
    return checkSeals(this.seals, this.salts, this.records, noted)
  }

  textOf(entry: EntryId): string {
    return foldText(this.revisionsOf(entry))
  }

  revisionsOf(entry: EntryId): Revision[] {
    return this.revisions.filter(({ node }) => node === entry)
  }

  add(kind: EntryKind, words: string, facts: Partial<EntryFacts> = {}): Entry {
    const text = toStorableText(words)
    const entry: Entry = {
      ...noFacts,
      ...facts,
      id: this.ids.make(),
      project: this.project,
      kind,
      moment: this.now(),
    }
    const record = this.revise(entry, insertingAll(text), null, 1, text, entry.moment)
    this.entries.push(entry)
    this.seal({ table: 'entries', record: entry, first: { record, text } })
    return entry
  }

  amend(entry: Entry, words: string): void {
    const text = toStorableText(words)
    const own = this.revisionsOf(entry.id)
    const last = own.at(-1)!
    const changes = changeBetween(foldText(own), text)
    const record = this.revise(entry, changes, last.id, last.number + 1, text, this.now())
    this.seal({ table: 'revisions', record, text })
  }

  withdraw(entry: Entry, withdrawn = true): void {
    const record: Withdrawal = { id: this.ids.make(), entry: entry.id, moment: this.now(), withdrawn }
    this.withdrawals.push(record)
    this.seal({ table: 'withdrawals', record })
  }

  mark(entry: Entry, says: MarkSays): void {
    const record: Mark = { id: this.ids.make(), entry: entry.id, moment: this.now(), says }
    this.marks.push(record)
    this.seal({ table: 'marks', record })
  }

  /** Masks a secret everywhere, and seals that. @returns whether it stood anywhere */
  strike(entry: Entry, secret: string, reason: string, emptied: readonly string[] = []): boolean {
    const before = this.records
    const mask = (words: string): string => maskText(words, secret)
    this.revisions = this.entries.flatMap(({ id }) => {
      const own = this.revisionsOf(id)
      const struck = new Map(strikeTexts(own, [], secret).revisions.map((next) => [next.id, next]))
      return own.map((revision) => struck.get(revision.id) ?? revision)
    })
    this.entries = this.entries.map((record) => mapWords('entries', record, mask))
    this.marks = this.marks.map((record) => mapWords('marks', record, mask))
    this.strikes = this.strikes.map((record) => mapWords('strikes', record, mask))
    const strike: Strike = {
      id: this.ids.make(),
      moment: this.now(),
      node: { kind: 'entry', id: entry.id },
      reason: mask(reason),
      records: 1,
    }
    this.strikes.push(strike)
    const { sealed, salts } = strikeSeals(
      this.project,
      this.seals,
      this.salts,
      before,
      this.records,
      strike,
      emptied,
      this.sealing,
    )
    for (const next of salts) this.salts = this.salts.map((own) => (own.seal === next.seal ? next : own))
    if (!sealed) return false
    this.seals.push(sealed.seal)
    this.salts.push(sealed.salts)
    return true
  }

  sealLate(): void {
    for (const { seal, salts } of sealJournal(this.project, this.records, this.sealing)) {
      this.seals.push(seal)
      this.salts.push(salts)
    }
  }

  private get sealing(): Sealing {
    return { at: this.now(), randomBytes: this.random }
  }

  private now(): Moment {
    this.ms += 1000
    return toMoment(this.ms, 60)
  }

  private revise(
    { id }: Entry,
    changeSet: Revision['changeSet'],
    from: Revision['from'],
    number: number,
    text: string,
    moment: Moment,
  ): Revision {
    const revision: Revision = {
      id: this.ids.make(),
      node: id,
      number,
      from,
      changeSet,
      restores: null,
      ended: false,
      moment,
      change: this.ids.make(),
      blobs: blobsNamedIn(text),
    }
    this.revisions.push(revision)
    return revision
  }

  private seal(thing: SealedThing): void {
    if (!this.isSealing) return
    const { seal, salts } = sealRecord(this.project, this.seals.at(-1) ?? null, thing, this.sealing)
    this.seals.push(seal)
    this.salts.push(salts)
  }
}

/** An evening at the observatory's rack, with everything in it that can be sealed, and a password that was struck out. */
export function eveningAtTheRack(): Journal {
  const journal = new Journal()
  const problem = journal.add('problem', 'The weather logger writes no lines since 19:40.')
  const action = journal.add('action', 'psql -h 192.0.2.14 -U logger\npassword: corona-borealis-7', {
    place: { machine: null, host: 'arcturus.example.org', user: 'ops', directory: '/srv/weather' },
    ran: { exitCode: 2, started: problem.moment, ended: problem.moment, log: 'rack.log' },
  })
  journal.add('file', '```\nport=5432\n```', {
    under: problem.id,
    happened: problem.moment,
    file: {
      path: '/etc/weather/logger.conf',
      owner: 'root',
      group: 'weather',
      mode: '0640',
      form: 'content',
      endsWithNewline: true,
      lineEnds: 'lf',
      blob: null,
    },
  })
  const list = journal.add('list', '- [ ] dome closed\n- [ ] lamp off')
  const { id } = journal.revisionsOf(list.id)[0]!
  journal.mark(list, { kind: 'tick', item: [{ revision: id, start: 6, end: 17 }], set: true, was: false })
  journal.mark(action, { kind: 'outcome', command: null, set: 'failed', was: null })
  journal.mark(problem, { kind: 'happened', set: problem.moment, was: null })
  const place = { machine: null, host: 'vega.example.org', user: null, directory: null }
  journal.mark(problem, { kind: 'place', set: place, was: null })
  journal.amend(action, 'psql -h 192.0.2.14 -U logger -d weather\npassword: corona-borealis-7')
  journal.strike(action, 'corona-borealis-7', 'the password of the database')
  const wrong = journal.add('observation', 'Rain by half past ten.')
  journal.withdraw(wrong)
  journal.withdraw(wrong, false)
  journal.amend(wrong, 'Rain from 22:10 on.')
  return journal
}
