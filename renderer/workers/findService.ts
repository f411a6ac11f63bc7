/** Answers what is asked of a lab's index, away from the screen. Reads the lab, and writes nothing but the index. */
import { extractive } from '../../shared/find/ask/extractive.ts'
import { foundThings } from '../../shared/find/document.ts'
import { hasForm } from '../../shared/find/index/lab-index.ts'
import { search } from '../../shared/find/index/search.ts'
import { readQuery } from '../../shared/find/query/read-query.ts'
import type { OpenLab } from '../db/lab.ts'
import { AskReads } from './askReads.ts'
import { FindCommands } from './findCommands.ts'
import { FindIndexer } from './findIndexer.ts'
import type { KeptStore } from './findKeeping.ts'
import { showHits } from './findHits.ts'
import type { AnsweredQuestion, CommandsAsk, FindAsk, FoundAnswer, FoundCommands } from './found.ts'
import { PATIENCE_MS } from './labFollower.ts'

/** The part of the Web Locks API that is needed here. */
export type FindLocks = Pick<LockManager, 'request'>

export interface FindParts {
  readonly lab: Pick<OpenLab, 'id' | 'queries' | 'onSequence'>
  readonly store: KeptStore
  readonly locks: FindLocks
  /** The offset of local time at an instant, minutes east of UTC. */
  readonly offsetAt: (ms: number) => number
  /** Told how far building is, 0 to 1, and null when it is done. */
  readonly onBuilding: (share: number | null) => void
  /** Lets questions through between two pieces of work. */
  readonly breathe: () => Promise<void>
  /** How long an answer waits for the latest Changes before it comes of what is there, in milliseconds. */
  readonly patienceMs?: number
  /** After so long without a question or a Change what can wait is done, in milliseconds. */
  readonly idleMs?: number
}

const IDLE_MS = 3_000

export class FindService {
  private readonly indexer: FindIndexer
  private readonly commands: FindCommands
  private idle: ReturnType<typeof setTimeout> | undefined
  private endKeeping: () => void = () => undefined
  private stopListening: () => void = () => undefined
  private isOver = false

  constructor(private readonly parts: FindParts) {
    const { lab, store, onBuilding, breathe, patienceMs } = parts
    this.indexer = new FindIndexer(lab.queries, store, onBuilding, breathe)
    this.commands = new FindCommands(lab.queries, breathe, patienceMs)
  }

  /** Takes up what is kept, and from then on follows the lab, whichever window changes it. */
  begin(): void {
    const { lab } = this.parts
    this.takeTurnAsKeeper().catch((error: unknown) => console.error(error))
    this.stopListening = lab.onSequence(
      () => this.follow(),
      (error) => console.error(error),
    )
  }

  /** Ends what it does by itself. Another window's goes on keeping the index. */
  close(): void {
    this.isOver = true
    this.stopListening()
    clearTimeout(this.idle)
    this.endKeeping()
  }

  /** What fits in the lab as it stands; of the part that is there while the index is built. */
  async find({ typed, now, keptAsWords, limit, order }: FindAsk): Promise<FoundAnswer> {
    const { lab, offsetAt, patienceMs } = this.parts
    this.startWaiting()
    const projects = await lab.queries.projects()
    const isWhole = await this.indexer.catchUpSoon(patienceMs ?? PATIENCE_MS)
    const { index } = this.indexer
    const query = readQuery(typed, {
      now,
      offsetAt,
      projects,
      isHeld: (form) => hasForm(index, form),
      ...(keptAsWords && { keptAsWords }),
    })
    const { hits, counts, taken } = search(index, query, { limit, withdrawn: true, ...(order && { order }) })
    return {
      query,
      hits: await showHits(lab.queries, { hits, taken }),
      counts: foundThings.flatMap((thing) => {
        const count = counts.get(thing) ?? 0
        return count > 0 ? [[thing, count] as const] : []
      }),
      taken,
      isWhole,
    }
  }

  /** Answers a question; of the part that is there while the index is built. */
  async answer(question: string): Promise<AnsweredQuestion> {
    const { lab, patienceMs } = this.parts
    this.startWaiting()
    const isWhole = await this.indexer.catchUpSoon(patienceMs ?? PATIENCE_MS)
    const around = new AskReads(lab.queries, this.indexer.index)
    return { answer: await extractive.answer(question, around), isWhole }
  }

  /** The commands in which a part stands. */
  findCommands(asked: CommandsAsk): Promise<FoundCommands> {
    this.startWaiting()
    return this.commands.find(asked)
  }

  /**
   * One of all windows keeps the index: whose turn it is holds the lock until it ends. The others wait for it, each with an
   * index of its own.
   */
  private async takeTurnAsKeeper(): Promise<void> {
    const { lab, locks } = this.parts
    const name = `stillroom find ${lab.id}`
    const isTaken = await locks.request(name, { ifAvailable: true }, async (lock) => {
      if (lock) await this.keep()
      return lock !== null
    })
    if (isTaken || this.isOver) return
    await this.indexer.catchUp()
    await locks.request(name, () => this.keep())
  }

  private async keep(): Promise<void> {
    if (this.isOver) return
    await this.indexer.becomeKeeper()
    this.startWaiting()
    await new Promise<void>((resolve) => {
      this.endKeeping = resolve
      if (this.isOver) resolve()
    })
  }

  private follow(): void {
    this.startWaiting()
    this.indexer.catchUp().catch((error: unknown) => console.error(error))
  }

  private startWaiting(): void {
    clearTimeout(this.idle)
    if (this.isOver) return
    const doNext = (): void => void this.whileIdle().catch((error: unknown) => console.error(error))
    this.idle = setTimeout(doNext, this.parts.idleMs ?? IDLE_MS)
  }

  /** Puts segments together one after the other, then reads the commands; both give way to questions. */
  private async whileIdle(): Promise<void> {
    const { idle } = this
    while (await this.indexer.tidy()) if (idle !== this.idle || this.isOver) return
    if (!this.isOver) await this.commands.catchUp()
  }
}
