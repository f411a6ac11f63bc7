/**
 * Keeps the index of a lab up with it, so that it is always what building it anew would give. One of all windows' indexers
 * keeps it in the store; the others hold their own in memory. While it is built, what is there already answers.
 */
import {
  emptyIndex,
  mergeInSteps,
  upTo,
  withDocuments,
  type LabIndex,
} from '../../shared/find/index/lab-index.ts'
import type { ThingRef } from '../../shared/find/lab/touched.ts'
import { FindKeeping, type KeptStore } from './findKeeping.ts'
import { allThings, readThings } from './findThings.ts'
import { LabFollower, type FollowQueries } from './labFollower.ts'

/** What is put together while the lab is followed takes no longer than a blink; the rest waits for an idle moment. */
const SMALL_MERGE_BYTES = 1 << 18
/** While it is built, so many small segments come that larger ones are put together as well. */
const BUILD_MERGE_BYTES = 1 << 23

export class FindIndexer extends LabFollower {
  private current: LabIndex = emptyIndex
  private readonly keeping: FindKeeping

  constructor(
    queries: FollowQueries,
    store: KeptStore,
    /** Told how far building is, 0 to 1, and null when it is done. */
    onBuilding: (share: number | null) => void = () => undefined,
    breathe: () => Promise<void> = () => Promise.resolve(),
  ) {
    super(queries, onBuilding, breathe)
    this.keeping = new FindKeeping(store, breathe)
  }

  /** What can be searched now; while it is built, the part that is there. */
  get index(): LabIndex {
    return this.current
  }

  /** From here on this indexer alone keeps the index, going on with what another one kept last. */
  becomeKeeper(): Promise<void> {
    return this.inTurn(async () => {
      this.keeping.becomeKeeper()
      if (!(await this.takeUpAgain())) await this.keeping.wipe()
      await this.catchUpInTurn()
    })
  }

  /** Puts small segments together. Gives up as soon as somebody waits. @returns whether there may be more to do */
  tidy(mostBytes = Infinity): Promise<boolean> {
    return this.inTurn(async () => {
      if (!this.isWhole) return false
      const isMerged = await this.merge(mostBytes, () => !this.isAwaited)
      if (isMerged) await this.onCaughtUp()
      return isMerged
    })
  }

  protected override forget(): void {
    this.current = emptyIndex
  }

  protected override async takeUp(struck: number): Promise<number | null> {
    const read = await this.keeping.read(struck)
    if (!read) return null
    this.current = read
    return read.sequence
  }

  protected override allThings(): Promise<readonly ThingRef[]> {
    return allThings(this.queries)
  }

  protected override async read(things: readonly ThingRef[]): Promise<() => void> {
    const read = await readThings(this.queries, things)
    return () => {
      this.current = withDocuments(this.current, { ...read, sequence: this.current.sequence })
    }
  }

  protected override onAnew(): Promise<void> {
    return this.keeping.wipe()
  }

  protected override async onTaken(): Promise<void> {
    const most = this.isWhole ? SMALL_MERGE_BYTES : BUILD_MERGE_BYTES
    while (await this.merge(most, () => true));
  }

  protected override async onCaughtUp(): Promise<void> {
    // It may have been let go a moment ago.
    if (this.struck === null) return
    if (this.current.sequence !== this.sequence) this.current = upTo(this.current, this.sequence)
    await this.keeping.keep(this.current, this.struck, this.holding())
  }

  private async merge(mostBytes: number, isWanted: () => boolean): Promise<boolean> {
    const isHeld = this.holding()
    const steps = mergeInSteps(this.current, mostBytes)
    for (;;) {
      const step = steps.next()
      if (step.done) {
        if (step.value) this.current = step.value
        return step.value !== null
      }
      await this.breathe()
      if (!isHeld() || !isWanted()) return false
    }
  }
}
