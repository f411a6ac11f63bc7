/** What is being typed into the form for a new source. Kept with the lab until it is added or given up. No DOM. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { changeBetween, changeText } from '../../../shared/lab/text.ts'

export interface FormFields {
  readonly address: string
  readonly title: string
  readonly text: string
  /** The HTML that `text` came with; null once the text was changed by hand. */
  readonly html: string | null
  readonly wasPasted: boolean
}

export const noFields: FormFields = { address: '', title: '', text: '', html: null, wasPasted: false }

/** Whether nothing that a person typed or pasted stands in the form. */
export function isBlank({ address, title, text }: FormFields): boolean {
  return [address, title, text].every((words) => words.trim() === '')
}

export function isFormFields(value: unknown): value is FormFields {
  if (typeof value !== 'object' || value === null) return false
  const { address, title, text, html, wasPasted } = value as Record<string, unknown>
  return (
    [address, title, text].every((words) => typeof words === 'string') &&
    (html === null || typeof html === 'string') &&
    typeof wasPasted === 'boolean'
  )
}

/** A draft is written at most this long after a key, in milliseconds. */
export const FORM_DELAY = 400

/** The part of an open lab that is needed here. */
export interface KeepsSettings {
  findSetting(key: string): Promise<unknown>
  keepSetting(key: string, value: unknown): Promise<void>
}

export class FormDraft {
  readonly store: StoreApi<FormFields> = createStore(() => noFields)
  private timer: ReturnType<typeof setTimeout> | null = null
  /** What the lab holds of it. */
  private written: FormFields = noFields

  constructor(
    private readonly lab: KeepsSettings | null,
    private readonly key: string,
  ) {}

  /** Brings back what was begun before. @returns whether there was anything */
  async load(): Promise<boolean> {
    const kept = await this.lab?.findSetting(this.key)
    if (!isFormFields(kept) || isBlank(kept) || !isBlank(this.store.getState())) return false
    this.written = kept
    this.store.setState(kept, true)
    return true
  }

  /** Something was struck out of what the lab holds: it goes out of the form too, and what was typed since stays. */
  async takeStruck(): Promise<void> {
    const kept = await this.lab?.findSetting(this.key)
    if (!isFormFields(kept)) return
    const now = this.store.getState()
    const { written } = this
    this.written = kept
    this.store.setState({
      ...now,
      address: rebase(written.address, kept.address, now.address),
      title: rebase(written.title, kept.title, now.title),
      text: rebase(written.text, kept.text, now.text),
      html: now.html === written.html ? kept.html : now.html,
    })
  }

  change(fields: FormFields): void {
    this.store.setState(fields, true)
    this.timer ??= setTimeout(() => void this.write(), FORM_DELAY)
  }

  /** Writes down at once what was typed since the last writing. */
  async write(): Promise<void> {
    if (this.timer === null) return
    clearTimeout(this.timer)
    this.timer = null
    const fields = this.store.getState()
    this.written = fields
    await this.lab?.keepSetting(this.key, isBlank(fields) ? null : fields)
  }
}

/** What was typed since a text was written, on top of that text as it was struck; lengths are kept by striking. */
function rebase(written: string, struck: string, now: string): string {
  if (written === struck || written.length !== struck.length) return now
  return changeText(struck, changeBetween(written, now))
}
