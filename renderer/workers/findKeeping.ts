/**
 * What of an index is kept in the store, as far as this window knows. One window's keeping alone writes; the others read. A
 * store that cannot be read or written never stops finding: the index is then built anew at the next start.
 */
import { emptyIndex, type LabIndex } from '../../shared/find/index/lab-index.ts'
import { fromStored, toStored } from '../../shared/find/index/stored.ts'
import type { FindStore } from '../db/findStore.ts'

export type KeptStore = Pick<FindStore, 'read' | 'keep' | 'clear' | 'remake'>

export class FindKeeping {
  private isKeeper = false
  /** As it stands in the store; null where that is not known, or not one's own. */
  private kept: LabIndex | null = null

  constructor(
    private readonly store: KeptStore,
    /** Lets questions through between two segments. */
    private readonly breathe: () => Promise<void>,
  ) {}

  /** From here on this one alone writes. */
  becomeKeeper(): void {
    this.isKeeper = true
  }

  /**
   * The index as it was kept.
   * @param struck how often text was struck out: what was kept before the last time may hold it
   * @returns null where there is none of use
   */
  async read(struck: number): Promise<LabIndex | null> {
    const read = await this.maybeStored(struck)
    if (this.isKeeper) this.kept = read
    return read
  }

  /** Takes all away that is kept. */
  async wipe(): Promise<void> {
    if (!this.isKeeper) return
    this.kept = null
    try {
      await this.store.clear().catch(() => this.store.remake())
      this.kept = emptyIndex
    } catch (error) {
      console.warn('the index for finding cannot be kept', error)
    }
  }

  /**
   * Keeps an index, segment by segment. Until the last of them is written, what was kept before stands.
   * @param isWanted whether it is to go on
   */
  async keep(index: LabIndex, struck: number, isWanted: () => boolean): Promise<void> {
    const { kept } = this
    if (!kept || kept === index) return
    // Until it is written; where that fails nothing is kept until all is taken away the next time.
    this.kept = null
    try {
      const isWritten = await this.store.keep(toStored(kept, index), struck, async () => {
        await this.breathe()
        return isWanted()
      })
      if (isWritten) this.kept = index
    } catch (error) {
      console.warn('the index for finding cannot be kept', error)
    }
  }

  private async maybeStored(struck: number): Promise<LabIndex | null> {
    try {
      const { head, segments, struck: before } = await this.store.read()
      return before === struck ? fromStored(head, segments) : null
    } catch {
      // A store that cannot be read is one that is not there.
      return null
    }
  }
}
