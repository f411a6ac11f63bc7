/** Sums that are being typed and are none yet. Kept with the lab until they are one or are given up. No DOM. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { OpenLab } from '../db/lab.ts'

/** By item: what stands in its field. */
export type SumTexts = Readonly<Record<string, string>>

/** A draft is written at most this long after a key, in milliseconds. */
export const SUM_DELAY = 400

type KeepsSettings = Pick<OpenLab, 'findSetting' | 'keepSetting'>

export class SumDrafts {
  readonly store: StoreApi<SumTexts> = createStore(() => ({}))
  private timer: ReturnType<typeof setTimeout> | null = null

  constructor(
    private readonly lab: KeepsSettings,
    private readonly key: string,
  ) {}

  /** Brings back what was begun before; what was typed since stays. */
  async load(): Promise<void> {
    const kept = await this.lab.findSetting(this.key)
    if (isSumTexts(kept)) this.store.setState({ ...kept, ...this.store.getState() }, true)
  }

  /** Something was struck out of what the lab holds, after all was written down: it goes out of the fields too. */
  async takeStruck(): Promise<void> {
    const kept = await this.lab.findSetting(this.key)
    if (isSumTexts(kept)) this.store.setState(kept, true)
  }

  /** @param text null where what stands there is kept, or given up */
  change(item: string, text: string | null): void {
    const { [item]: _, ...others } = this.store.getState()
    this.store.setState(text === null ? others : { ...others, [item]: text }, true)
    this.timer ??= setTimeout(() => void this.write(), SUM_DELAY)
  }

  /** Writes down at once what was typed since the last writing. */
  async write(): Promise<void> {
    if (this.timer === null) return
    clearTimeout(this.timer)
    this.timer = null
    const texts = this.store.getState()
    await this.lab.keepSetting(this.key, Object.keys(texts).length === 0 ? null : texts)
  }
}

function isSumTexts(value: unknown): value is SumTexts {
  return (
    typeof value === 'object' &&
    value !== null &&
    Object.values(value).every((text) => typeof text === 'string')
  )
}
