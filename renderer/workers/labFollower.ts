/**
 * Something that is read from a whole lab and then follows it, Change by Change: what a Change touched is read again as it
 * stands, so that what is held is always what reading all anew would give. After striking out all is let go and read anew.
 *
 * What is there can be asked for at any time, also in the middle of reading; it never holds what was struck out before it was
 * asked for.
 */
import { touchedThings, type ThingRef } from '../../shared/find/lab/touched.ts'
import type { Queries } from '../db/queries.ts'
import { thingsTouched, type FindQueries } from './findThings.ts'

export type FollowQueries = FindQueries & Pick<Queries, 'changesAfter' | 'countStrikes' | 'sequence'>

/** So many Changes are followed at once. */
const MOST_CHANGES = 1_000
/** So many things are read at once; texts of sources are long. */
const BATCH = 128
const BATCH_OF_SOURCES = 16

/** How long an answer waits for the latest Changes before it comes of what is there, in milliseconds. */
export const PATIENCE_MS = 200

export abstract class LabFollower {
  /** The last Change that what is held includes. */
  protected sequence = 0
  /** How often text had been struck out before what is held was read; null while nothing is held. */
  protected struck: number | null = null
  private isReady = false
  /** Counts up whenever all is let go: what was read before is of no use then. */
  private age = 0
  private last: Promise<unknown> = Promise.resolve()
  private waiting: Promise<void> | null = null
  private share: number | null = null

  constructor(
    protected readonly queries: FollowQueries,
    /** Told how far reading is, 0 to 1, and null when it is done. */
    private readonly onShare: (share: number | null) => void,
    /** Lets questions through between two batches. */
    protected readonly breathe: () => Promise<void>,
  ) {}

  /** All of the lab is held. */
  get isWhole(): boolean {
    return this.isReady
  }

  /** Follows the lab up to its last Change; at first from what is kept, else by reading all. */
  catchUp(): Promise<void> {
    this.waiting ??= this.inTurn(() => {
      this.waiting = null
      return this.catchUpInTurn()
    })
    return this.waiting
  }

  /**
   * Waits for the last Change, but not for long. Ask for what is held before anything else is waited for.
   * @returns whether all of the lab is held, up to the last Change
   */
  async catchUpSoon(patienceMs: number): Promise<boolean> {
    const catching = this.catchUp().then(() => true)
    // Who breaks later than this is heard by the next question.
    catching.catch(() => undefined)
    const isCaughtUp = await Promise.race([catching, pause(patienceMs)])
    const struck = await this.queries.countStrikes()
    if (this.struck !== null && this.struck !== struck) {
      this.letGo()
      this.catchUp().catch(() => undefined)
    }
    return isCaughtUp && this.isReady
  }

  /** Takes everything away that is held. */
  protected abstract forget(): void

  /**
   * Takes up what is kept.
   * @param struck how often text was struck out: what was kept before the last time is of no use
   * @returns the last Change that it includes; null where nothing can be taken up
   */
  protected abstract takeUp(struck: number): Promise<number | null>

  protected abstract allThings(): Promise<readonly ThingRef[]>

  /** Reads things as they stand. @returns takes them into what is held */
  protected abstract read(things: readonly ThingRef[]): Promise<() => void>

  /** All is going to be read anew. */
  protected onAnew(): Promise<void> {
    return Promise.resolve()
  }

  /** A batch was taken in. */
  protected onTaken(): Promise<void> {
    return Promise.resolve()
  }

  /** All Changes were followed. */
  protected onCaughtUp(): Promise<void> {
    return Promise.resolve()
  }

  /** Somebody waits for the last Change. */
  protected get isAwaited(): boolean {
    return this.waiting !== null
  }

  /** @returns says whether what is held now was let go since */
  protected holding(): () => boolean {
    const { age } = this
    return () => this.age === age
  }

  /** One at a time, and a failure does not stop the next. */
  protected inTurn<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.last.catch(() => null).then(act)
    this.last = turn
    return turn
  }

  /**
   * Takes up what is kept in the place of what is held, where that can be. To be called in turn.
   * @returns whether it did
   */
  protected async takeUpAgain(): Promise<boolean> {
    const struck = await this.queries.countStrikes()
    const sequence = await this.takeUp(struck)
    if (sequence !== null) this.hold(sequence, struck)
    return sequence !== null
  }

  /** To be called in turn. */
  protected async catchUpInTurn(): Promise<void> {
    const before = this.sequence
    try {
      while (!(await this.isUpToDate()))
        if (this.isReady) await this.follow(before)
        else await this.readAnew()
    } finally {
      this.onReading(null)
    }
    await this.onCaughtUp()
  }

  private async isUpToDate(): Promise<boolean> {
    const struck = await this.queries.countStrikes()
    if (this.struck !== struck) {
      if (this.struck !== null) this.letGo()
      const kept = await this.takeUp(struck)
      if (kept !== null) this.hold(kept, struck)
    }
    const sequence = await this.queries.sequence()
    // Another lab stands here than the one that was read.
    if (sequence < this.sequence) this.letGo()
    return this.isReady && this.sequence === sequence
  }

  private async follow(before: number): Promise<void> {
    const changes = await this.queries.changesAfter(this.sequence, MOST_CHANGES)
    const last = changes.at(-1)
    if (!last) return
    const things = await thingsTouched(this.queries, touchedThings(changes))
    if (!(await this.readInBatches(things, () => undefined))) return
    this.sequence = last.sequence
    if (changes.length < MOST_CHANGES) return
    const behind = (await this.queries.sequence()) - before
    this.onReading(Math.min(1, (last.sequence - before) / behind))
  }

  private async readAnew(): Promise<void> {
    this.letGo()
    this.onReading(0)
    await this.onAnew()
    this.struck = await this.queries.countStrikes()
    // What is committed while things are read is read again afterwards.
    const sequence = await this.queries.sequence()
    const things = await this.allThings()
    if (!(await this.readInBatches(things, this.onReading))) return
    this.sequence = sequence
    this.isReady = true
  }

  /** @returns whether all were taken in; not where text was struck out meanwhile */
  private async readInBatches(
    things: readonly ThingRef[],
    onShare: (share: number) => void,
  ): Promise<boolean> {
    const isHeld = this.holding()
    let done = 0
    for (const batch of inBatches(things)) {
      const take = await this.read(batch)
      if (!isHeld() || (await this.queries.countStrikes()) !== this.struck) return false
      take()
      await this.onTaken()
      onShare((done += batch.length) / things.length)
      await this.breathe()
    }
    return isHeld()
  }

  private readonly onReading = (share: number | null): void => {
    if (share === this.share) return
    this.share = share
    this.onShare(share)
  }

  private hold(sequence: number, struck: number): void {
    this.age++
    this.sequence = sequence
    this.struck = struck
    this.isReady = true
  }

  private letGo(): void {
    this.age++
    this.sequence = 0
    this.struck = null
    this.isReady = false
    this.forget()
  }
}

function* inBatches(things: readonly ThingRef[]): Generator<readonly ThingRef[]> {
  let batch: ThingRef[] = []
  let room = 1
  for (const thing of things) {
    batch.push(thing)
    room -= thing.kind === 'source' ? 1 / BATCH_OF_SOURCES : 1 / BATCH
    if (room > 0) continue
    yield batch
    batch = []
    room = 1
  }
  if (batch.length > 0) yield batch
}

/** @returns false once the time is over */
function pause(ms: number): Promise<false> {
  return new Promise((resolve) => setTimeout(() => resolve(false), ms))
}
