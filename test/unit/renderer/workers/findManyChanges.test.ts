/**
 * The index as it is kept in the store, after 10,000 random Changes of a lab with striking out, undo and restarts: against one
 * that is built anew from the lab.
 */
import { expect, it } from 'vitest'
import { FindStore } from '../../../../renderer/db/findStore.ts'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { FindIndexer } from '../../../../renderer/workers/findIndexer.ts'
import { search } from '../../../../shared/find/index/search.ts'
import { Segment } from '../../../../shared/find/index/segment.ts'
import { readQuery } from '../../../../shared/find/query/read-query.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type {
  Entry,
  Machine,
  Procedure,
  Project,
  Source,
  Step,
  TextNode,
} from '../../../../shared/lab/model.ts'
import { changeBetween } from '../../../../shared/lab/text.ts'
import { DrawnWords } from '../../../support/drawn-words.ts'
import { memoryStorage, openTestLab, repeatableSurroundings } from '../../support/lab.ts'

const CHANGES = 10_000
const QUERIES = 1_000
/** Every so many Changes a secret is struck out, after which all is built anew: not in the last 4,000, which are followed. */
const STRIKE_EVERY = 545
const STRIKES = 11
const MOST_ENTRIES = 500

const drawn = new DrawnWords(11)
const { next } = drawn

/** A lab that is written to at random. */
class RandomLab {
  private readonly projects: Project[] = []
  private readonly machines: Machine[] = []
  private readonly sources: Source[] = []
  private readonly entries: Entry[] = []
  private readonly procedures: Procedure[] = []
  private parametersMade = 0
  private readonly steps: Step[] = []
  private readonly texts: TextNode[] = []
  /** Secrets that stand in the lab, each with the entries that say it. */
  private readonly secrets = new Map<string, Entry>()
  readonly struck: string[] = []

  constructor(readonly lab: OpenLab) {}

  async begin(): Promise<void> {
    const { surroundings: around } = this.lab
    for (const title of ['Logger', 'Roof', 'Rack']) {
      const { project, change } = acts.addProject(around, { title, aim: '', status: 'planned' })
      this.projects.push(project)
      await this.commit(change)
      const { procedure, change: other } = acts.addProcedure(around, project.id, drawn.text(3))
      this.procedures.push(procedure)
      await this.commit(other)
      let after: Step | null = null
      for (let row = 0; row < 12; row++) {
        const {
          step,
          part,
          change: third,
        } = acts.addStep(around, procedure.id, acts.positionBetween(after, null))
        after = step
        this.steps.push(step)
        this.texts.push({ kind: 'part', id: part.id })
        await this.commit(third)
      }
    }
    for (const name of ['gate', 'dome', 'rack']) {
      const { machine, change } = acts.addMachine(around, { name })
      this.machines.push(machine)
      await this.commit(change)
    }
  }

  /** One Change of any kind, or none where there was nothing to do. */
  async move(): Promise<void> {
    const kind = next()
    if (kind < 0.1) {
      await this.lab.committer.undo()
      return
    }
    if (kind < 0.13) {
      await this.lab.committer.redo()
      return
    }
    const change = kind < 0.6 ? await this.changeOfText() : await this.changeOfThing()
    if (change) await this.commit(change)
  }

  /** Strikes out a secret that stands in what is kept. @returns whether there was one */
  async strike(kept: string): Promise<boolean> {
    const found = [...this.secrets].find(([secret]) => kept.includes(secret))
    if (!found) return false
    const [secret, entry] = found
    this.secrets.delete(secret)
    const result = await this.lab.committer.strikeOut({ kind: 'entry', id: entry.id }, secret, '')
    if (!result.ok) throw new Error(result.sentence)
    this.struck.push(secret)
    return true
  }

  private async commit(change: Change): Promise<void> {
    // A Change that does not fit after an undo is refused, and nothing happened.
    await this.lab.committer.commit(change)
  }

  private async changeOfText(): Promise<Change | null> {
    const node = drawn.one(this.texts)
    const now = await this.lab.queries.standing(node.id)
    if (!now) return null
    const from = drawn.below(now.text.length + 1)
    const to = Math.min(now.text.length, from + drawn.below(40))
    const text = `${now.text.slice(0, from)} ${drawn.text(1 + drawn.below(12))} ${now.text.slice(to)}`
    const change = changeBetween(now.text, text.slice(0, 400))
    return acts.writeText(this.lab.surroundings, node, now.revision, change).change
  }

  private async changeOfThing(): Promise<Change | null> {
    const around = this.lab.surroundings
    const [project, machine] = [drawn.one(this.projects), drawn.one(this.machines)]
    const place = { machine: machine.id, host: null, user: null, directory: null }
    const entry = this.entries.length > 0 ? drawn.one(this.entries) : null
    switch (drawn.below(11)) {
      case 0:
      case 1:
        return this.entries.length < MOST_ENTRIES ? this.newEntry(project) : null
      case 2:
        return entry && acts.withdrawEntry(around, entry.id, next() < 0.5)
      case 3:
        return entry && acts.markEntry(around, entry.id, { kind: 'place', set: place, was: null })
      case 4:
        return entry && acts.changeTags(around, { kind: 'entry', record: entry, tags: null }, [drawn.word()])
      case 5:
        return this.changeSource(project)
      case 6:
        return acts.changeProject(around, project, { title: drawn.text(2), aim: drawn.text(6) })
      case 7:
        return next() < 0.1 ? acts.changeMachine(around, machine, { name: drawn.word() }) : null
      case 8:
        return this.changeOfParameter()
      case 9:
        return next() < 0.1 ? this.newVersion() : null
      default:
        return acts.changeStep(around, drawn.one(this.steps), { place })
    }
  }

  private async changeOfParameter(): Promise<Change | null> {
    const around = this.lab.surroundings
    const procedure = drawn.one(this.procedures)
    const { parameters } = await this.lab.queries.besideProcedure(procedure.id)
    const standing = parameters.length > 0 ? drawn.one(parameters) : null
    const kind = next()
    if (standing && kind < 0.2) return acts.removeParameter(around, standing)
    const said = { help: drawn.text(4), preset: drawn.word() }
    if (standing && kind < 0.7) return acts.changeParameter(around, standing, said)
    if (parameters.length > 8) return null
    const fields = { type: 'free text', example: drawn.word(), carried: null, rule: null } as const
    return acts.makeParameter(around, {
      ...{ ...fields, ...said },
      procedure: procedure.id,
      name: `${drawn.word().replace(/[^a-z]/g, '')}-${this.parametersMade++}`,
      position: String(this.parametersMade),
    }).change
  }

  private async newVersion(): Promise<Change> {
    const procedure = drawn.one(this.procedures)
    const { parameters, versions } = await this.lab.queries.besideProcedure(procedure.id)
    const stands = { procedure, steps: [], parts: [], parameters }
    return acts.markVersion(this.lab.surroundings, stands, versions.length, drawn.text(4)).change
  }

  private newEntry(project: Project): Change {
    const secret = drawn.secret(this.entries.length)
    const isSecret = next() < 0.1
    const text = `${drawn.text(3 + drawn.below(20))} ${isSecret ? secret : ''} ${drawn.text(drawn.below(3))}`
    const kind = drawn.one(['action', 'observation', 'problem', 'fix'] as const)
    const added = acts.addEntry(this.lab.surroundings, { project: project.id, kind, text })
    this.entries.push(added.entry)
    // A secret's own text is left alone, so that it is sure to stand there.
    if (isSecret) this.secrets.set(secret, added.entry)
    else this.texts.push({ kind: 'entry', id: added.entry.id })
    return added.change
  }

  private changeSource(project: Project): Change {
    const around = this.lab.surroundings
    if (this.sources.length > 60) {
      const fields = { title: drawn.text(3), remark: drawn.text(5), tags: [drawn.word()] }
      return acts.changeSource(around, drawn.one(this.sources), fields)
    }
    const bytes = new TextEncoder().encode(drawn.text(40))
    const sha256 = this.sources.length.toString(16).padStart(64, '0')
    const { source, change } = acts.addSource(around, {
      title: drawn.text(3),
      address: null,
      kind: 'text',
      wayIn: 'file',
      projects: [project.id],
      capture: { text: new TextDecoder().decode(bytes), bytes, sha256, mediaType: 'text/plain' },
    })
    this.sources.push(source)
    return change
  }
}

/** All that the store holds of the index: every word, unpacked, the ids, and every value's bytes as letters. */
async function readKept(lab: OpenLab, storage: ReturnType<typeof memoryStorage>): Promise<string> {
  const read = await new FindStore(lab.id, storage).read()
  const unpacked = [...read.segments.values()].flatMap((bytes) => {
    const segment = new Segment(bytes)
    return [...segment.terms, ...segment.stems, ...segment.ids, Buffer.from(bytes).toString('latin1')]
  })
  return [...unpacked, JSON.stringify(read.head), String(read.meaning)].join('\n')
}

it(
  'after 10,000 random Changes answers 1,000 queries as one built anew, and holds nothing struck out',
  { timeout: 300_000 },
  async () => {
    const storage = memoryStorage()
    const lab = await openTestLab(repeatableSurroundings(), storage)
    const random = new RandomLab(lab)
    await random.begin()
    const begin = async (): Promise<FindIndexer> => {
      const indexer = new FindIndexer(lab.queries, new FindStore(lab.id, storage))
      await indexer.becomeKeeper()
      return indexer
    }
    let indexer = await begin()
    const counted = { strikes: 0, restarts: 0, seen: 0 }
    const nextStrike = () => STRIKE_EVERY * (counted.strikes + 1)
    for (let last = 0; last < CHANGES; last = await lab.queries.sequence()) {
      await random.move()
      if (counted.strikes < STRIKES && last >= nextStrike()) {
        await indexer.catchUp()
        // Found while it is there: else it would prove nothing that it is not found afterwards.
        if (await random.strike(await readKept(lab, storage))) counted.seen++
        counted.strikes++
      }
      const chance = next()
      if (chance < 0.08) await indexer.catchUp()
      else if (chance < 0.09) await indexer.tidy()
      else if (chance < 0.093) {
        indexer = await begin()
        counted.restarts++
      }
    }
    indexer = await begin()
    expect(counted.restarts).toBeGreaterThan(15)
    expect([counted.strikes, counted.seen]).toEqual([STRIKES, STRIKES])

    const kept = await readKept(lab, storage)
    expect(kept.length).toBeGreaterThan(100_000)
    expect(random.struck.filter((secret) => kept.includes(secret) || kept.includes(secret.slice(3)))).toEqual(
      [],
    )

    const anew = new FindIndexer(lab.queries, new FindStore(lab.id, memoryStorage()))
    await anew.catchUp()
    expect([indexer.index.documents, indexer.index.weight]).toEqual([anew.index.documents, anew.index.weight])
    expect(indexer.index.nextName).toBeGreaterThan(anew.index.nextName + 200)
    let found = 0
    for (let query = 0; query < QUERIES; query++) {
      const read = readQuery(drawn.query(), { now: 0, offsetAt: () => 0, projects: [] })
      const options = { limit: 50, withdrawn: query % 2 === 0 }
      const answer = search(indexer.index, read, options)
      expect(answer).toEqual(search(anew.index, read, options))
      found += answer.hits.length
    }
    expect(found).toBeGreaterThan(QUERIES)
  },
)
