/**
 * Keeps the index of a lab up with it, Change by Change: what a Change touched is read again as it stands, so that the index
 * is always what building it anew would give. One of all windows' indexers keeps it in the store; the others hold their own
 * in memory. While it is built, what is there already answers.
 */
import {
  emptyIndex,
  mergeNext,
  upTo,
  withDocuments,
  type LabIndex,
} from '../../shared/find/index/lab-index.ts'
import { fromStored, toStored } from '../../shared/find/index/stored.ts'
import { touchedThings } from '../../shared/find/lab/touched.ts'
import type { FindStore } from '../db/findStore.ts'
import { allThings, readThings, thingsTouched, type FindQueries } from './findThings.ts'

/** So many things are read at once while building. */
const BATCH = 256
/** After more Changes than this, building anew is no slower. */
const MOST_CHANGES = 5_000
/** What is put together between two questions takes no longer than a blink; the rest waits for an idle moment. */
const SMALL_MERGE_BYTES = 1 << 18

type KeptStore = Pick<FindStore, 'read' | 'keep' | 'clear'>

export class FindIndexer {
  private current: LabIndex = emptyIndex
  /** As it was last kept; null where this indexer keeps nothing. */
  private kept: LabIndex | null = null
  private isReady = false
  private last: Promise<unknown> = Promise.resolve()

  constructor(
    private readonly queries: FindQueries,
    private readonly store: KeptStore,
    /** Told how far building is, 0 to 1, and null when it is done. */
    private readonly onBuilding: (share: number | null) => void = () => undefined,
    /** Lets questions through between two batches. */
    private readonly breathe: () => Promise<void> = () => Promise.resolve(),
  ) {}

  /** What can be searched now; while it is built, the part that is there. */
  get index(): LabIndex {
    return this.current
  }

  /** It holds the whole lab. */
  get isWhole(): boolean {
    return this.isReady
  }

  /** Brings the index up to the last Change; at first from what is kept, else by building it. */
  catchUp(): Promise<LabIndex> {
    return this.inTurn(() => this.catchUpOnce())
  }

  /** From here on this indexer alone keeps the index, going on with what another one kept last. */
  becomeKeeper(): Promise<void> {
    return this.inTurn(async () => {
      const read = await this.maybeStored()
      this.kept = read ?? emptyIndex
      if (read) {
        this.current = read
        this.isReady = true
      } else await this.store.clear()
      await this.catchUpOnce()
      await this.keep()
    })
  }

  /** Puts small segments together. @returns whether there may be more to do */
  tidy(mostBytes = Infinity): Promise<boolean> {
    return this.inTurn(async () => {
      const merged = this.isReady ? mergeNext(this.current, mostBytes) : null
      if (!merged) return false
      this.current = merged
      await this.keep()
      return true
    })
  }

  private async catchUpOnce(): Promise<LabIndex> {
    if (!this.isReady) await this.begin()
    const sequence = await this.queries.sequence()
    if (this.current.sequence === sequence) return this.current
    if (sequence < this.current.sequence || sequence - this.current.sequence > MOST_CHANGES)
      await this.build()
    else await this.follow()
    return this.current
  }

  private async begin(): Promise<void> {
    const read = await this.maybeStored()
    if (!read) return this.build()
    this.current = read
    this.isReady = true
  }

  private async follow(): Promise<void> {
    const changes = await this.queries.changesAfter(this.current.sequence)
    if (changes.some(({ act }) => act === 'strike out')) return this.build()
    const sequence = changes.at(-1)?.sequence ?? this.current.sequence
    const things = await thingsTouched(this.queries, touchedThings(changes))
    this.current =
      things.length === 0
        ? upTo(this.current, sequence)
        : withDocuments(this.current, { ...(await readThings(this.queries, things)), sequence })
    this.mergeSmall()
    await this.keep()
  }

  /**
   * All of it anew, from nothing: no word of what stood before is in it. What was kept goes first, so that struck-out text
   * is in the store no longer than it takes to know of it.
   */
  private async build(): Promise<void> {
    this.isReady = false
    this.current = emptyIndex
    this.onBuilding(0)
    try {
      if (this.kept) {
        await this.store.clear()
        this.kept = emptyIndex
      }
      // What is committed while things are read is read again afterwards.
      const sequence = await this.queries.sequence()
      const things = await allThings(this.queries)
      for (let at = 0; at < things.length; at += BATCH) {
        const read = await readThings(this.queries, things.slice(at, at + BATCH))
        this.current = withDocuments(this.current, { ...read, sequence: 0 })
        this.mergeSmall()
        this.onBuilding(Math.min(1, (at + BATCH) / things.length))
        await this.breathe()
      }
      this.current = upTo(this.current, sequence)
      this.isReady = true
      await this.keep()
    } finally {
      this.onBuilding(null)
    }
    if (this.current.sequence !== (await this.queries.sequence())) await this.follow()
  }

  private mergeSmall(): void {
    for (;;) {
      const merged = mergeNext(this.current, SMALL_MERGE_BYTES)
      if (!merged) return
      this.current = merged
    }
  }

  private async keep(): Promise<void> {
    if (!this.kept || !this.isReady || this.kept === this.current) return
    await this.store.keep(toStored(this.kept, this.current))
    this.kept = this.current
  }

  private async maybeStored(): Promise<LabIndex | null> {
    try {
      const { head, segments } = await this.store.read()
      return fromStored(head, segments)
    } catch {
      // A store that cannot be read is one that is not there.
      return null
    }
  }

  /** One at a time, and a failure does not stop the next. */
  private inTurn<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.last.catch(() => null).then(act)
    this.last = turn
    return turn
  }
}
