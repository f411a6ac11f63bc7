/** Keeps what is typed in the composer as a draft: one overwritten record for each project and window. */
import type { EntryId, ProjectId, WindowId } from '../../../shared/lab/ids.ts'
import type { ComposerDraft, EntryFacts, EntryKind } from '../../../shared/lab/model.ts'
import { changeBetween, changeText } from '../../../shared/lab/text.ts'
import type { OpenLab } from '../../db/lab.ts'
import { DRAFT_DELAY } from '../../editor/textSession.ts'
import { composerDraftKey } from '../../store/recovery.ts'

/** What the composer holds. */
export interface Composed {
  readonly kind: EntryKind
  readonly text: string
  readonly facts: EntryFacts
  /** The problem that the entry will answer; null for none. */
  readonly answers: EntryId | null
}

type DraftStore = Pick<OpenLab, 'saveDraft' | 'dropDraft'> & {
  readonly queries: Pick<OpenLab['queries'], 'drafts'>
  readonly surroundings: Pick<OpenLab['surroundings'], 'clock'>
}

export interface DraftOwner {
  readonly project: ProjectId
  readonly window: WindowId
  /** Told why the draft could not be kept, and null once it could. */
  readonly onUnsaved: (sentence: string | null) => void
}

/** Writes the draft at most DRAFT_DELAY ms after a key, never two writes at once, the latest text last. */
export class DraftKeeper {
  readonly key: string
  private next: Composed | null = null
  /** The text of the draft as it was written last. */
  private written = ''
  private timer: ReturnType<typeof setTimeout> | null = null
  private writing: Promise<void> = Promise.resolve()

  constructor(
    private readonly lab: DraftStore,
    private readonly owner: DraftOwner,
  ) {
    this.key = composerDraftKey(owner.project, owner.window)
  }

  /** What was left here, if anything. */
  async find(): Promise<Composed | null> {
    const draft = (await this.lab.queries.drafts()).find(({ key }) => key === this.key)
    if (draft?.owner !== 'composer') return null
    this.written = draft.text
    const { kind, text, facts, answers } = draft
    return { kind, text, facts, answers }
  }

  /** This is what the composer holds now. */
  keep(composed: Composed): void {
    this.next = composed
    this.timer ??= setTimeout(() => void this.flush(), DRAFT_DELAY)
  }

  /** Writes at once what is not yet written. */
  flush(): Promise<void> {
    if (this.timer) clearTimeout(this.timer)
    this.timer = null
    const { next } = this
    this.next = null
    if (next) this.writing = this.writing.then(() => this.write(next))
    return this.writing
  }

  /**
   * A text as it is after something was struck out of the draft: what was typed since stays.
   * @returns null where the draft held nothing of it
   */
  async findStruck(text: string): Promise<string | null> {
    const { written } = this
    const struck = await this.find()
    if (!struck || struck.text === written || struck.text.length !== written.length) return null
    return changeText(struck.text, changeBetween(written, text))
  }

  private async write({ kind, text, facts, answers }: Composed): Promise<void> {
    const { project, window, onUnsaved } = this.owner
    const saved = this.lab.surroundings.clock.now()
    const about = { key: this.key, owner: 'composer', window, project, saved } as const
    const draft: ComposerDraft = { ...about, kind, text, facts, answers }
    const kept = text === '' ? await this.lab.dropDraft(this.key) : await this.lab.saveDraft(draft)
    if (kept.ok) this.written = text
    onUnsaved(kept.ok ? null : kept.sentence)
  }
}

/** Two texts one behind the other as paragraphs of their own; an empty one leaves the other as it is. */
export function joinTexts(first: string, second: string): string {
  if (first.trim() === '') return second
  if (second.trim() === '') return first
  return `${first.replace(/\n+$/, '')}\n\n${second}`
}
