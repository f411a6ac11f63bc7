/**
 * The typing of one text in one window, between the editor and the store. No DOM: an editor tells it what was typed
 * (`type`) and is told what other windows did (`onRemote`).
 *
 * The editor's text is always: base revision, then what is being committed (`sent`), then what is not yet (`unsent`).
 * What others committed meanwhile is mapped under both, so that nobody's characters are lost.
 */
import { ChangeSet } from '@codemirror/state'
import { writeText } from '../../shared/lab/acts.ts'
import type { RevisionId, WindowId } from '../../shared/lab/ids.ts'
import type { Revision, TextDraft, TextNode } from '../../shared/lab/model.ts'
import {
  composeChangeSets,
  insertedBy,
  toChangeSet,
  toChangeSetJson,
  toLines,
} from '../../shared/lab/text.ts'
import type { OpenLab } from '../db/lab.ts'

/** A draft is written at most this long after a key, in milliseconds. */
export const DRAFT_DELAY = 400
/** A pause in typing after which a revision is cut, in milliseconds. */
export const REVISION_PAUSE = 2500
/** How often a stale commit is mapped and tried again before the person is told. */
const MOST_TRIES = 20

export type SessionState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'typing' }
  /** Kept on the screen and, where that was possible, as a draft; not committed, for the reason given. */
  | { readonly kind: 'unsaved'; readonly sentence: string }
  /** The text went out of use, in another window or before what was typed could be committed, which is given here. */
  | { readonly kind: 'gone'; readonly typed: string }

export interface SessionListener {
  /** Apply these to the editor's text: they came from elsewhere. */
  onRemote(changes: ChangeSet): void
  onState(state: SessionState): void
  /** A revision was cut: the editor's own history must not reach behind it. */
  onCut(): void
}

export interface SessionOptions {
  readonly window: WindowId
  /** Whether a pause in typing cuts a revision; an amendment is cut only when the person says so. */
  readonly cutsByItself: boolean
}

/** The key of a text's draft in one window. */
export function textDraftKey(node: TextNode, window: WindowId): string {
  return `text ${node.id} ${window}`
}

export class TextSession {
  private sent: ChangeSet | null = null
  private draftTimer: ReturnType<typeof setTimeout> | null = null
  private cutTimer: ReturnType<typeof setTimeout> | null = null
  private working: Promise<void> = Promise.resolve()
  private isGone = false

  private constructor(
    private readonly lab: OpenLab,
    readonly node: TextNode,
    private readonly options: SessionOptions,
    private readonly listener: SessionListener,
    private base: RevisionId,
    private baseText: string,
    private unsent: ChangeSet,
  ) {}

  /**
   * Opens a text for typing, with its draft where this window left one.
   * @returns null where the text does not stand
   */
  static async open(
    lab: OpenLab,
    node: TextNode,
    options: SessionOptions,
    listener: SessionListener,
  ): Promise<TextSession | null> {
    const standing = await lab.queries.standing(node.id)
    if (!standing) return null
    const key = textDraftKey(node, options.window)
    const draft = (await lab.queries.drafts()).find((one) => one.key === key)
    const pending = draft?.owner === 'text' ? await mapDraft(lab, draft, standing.text.length) : null
    const unsent = pending ?? ChangeSet.empty(standing.text.length)
    return new TextSession(lab, node, options, listener, standing.revision, standing.text, unsent)
  }

  /** The text as the editor shows it. */
  get text(): string {
    return this.pending().apply(toLines(this.baseText)).toString()
  }

  /** What the text rests on: a revision, and the lengths of what was typed since. */
  get basis(): { readonly revision: RevisionId; readonly changes: readonly number[] } {
    return { revision: this.base, changes: this.pending().desc.toJSON() }
  }

  get hasUnsaved(): boolean {
    return !this.pending().empty
  }

  /** What was typed just now, as a change of the text that the editor showed. */
  type(changes: ChangeSet): void {
    this.unsent = this.unsent.compose(changes)
    this.listener.onState({ kind: 'typing' })
    this.draftTimer ??= setTimeout(() => void this.keepDraft(), DRAFT_DELAY)
    if (!this.options.cutsByItself) return
    if (this.cutTimer) clearTimeout(this.cutTimer)
    this.cutTimer = setTimeout(() => void this.cut(), REVISION_PAUSE)
  }

  /** Cuts a revision of what was typed so far. Resolves when it is committed, or when it is clear that it cannot be. */
  cut(): Promise<void> {
    this.clearTimer('cutTimer')
    return this.queue(() => this.commitPending())
  }

  /** Cuts where a pause would cut too; what is not committed then is written as a draft at once. */
  async flush(): Promise<void> {
    if (this.options.cutsByItself) await this.cut()
    if (!this.isGone) await this.keepDraft()
  }

  /** Another window may have changed the text: fetch what came after the base. */
  pull(): Promise<void> {
    return this.queue(() => this.takeRemote())
  }

  /** Gives up what was typed and not committed; for an amendment that is called off. */
  discard(): Promise<void> {
    this.clearTimer('draftTimer')
    this.clearTimer('cutTimer')
    return this.queue(async () => {
      this.clearTimer('draftTimer')
      this.clearTimer('cutTimer')
      this.unsent = ChangeSet.empty(this.baseText.length)
      await this.lab.dropDraft(this.draftKey)
    })
  }

  /** Ends the session: commits what may be committed by itself, keeps the rest as a draft. */
  async close(): Promise<void> {
    this.clearTimer('cutTimer')
    if (this.options.cutsByItself) await this.cut()
    this.clearTimer('draftTimer')
    if (this.hasUnsaved && !this.isGone) await this.keepDraft()
  }

  private get draftKey(): string {
    return textDraftKey(this.node, this.options.window)
  }

  private pending(): ChangeSet {
    return this.sent ? this.sent.compose(this.unsent) : this.unsent
  }

  private clearTimer(name: 'draftTimer' | 'cutTimer'): void {
    const timer = this[name]
    if (timer) clearTimeout(timer)
    this[name] = null
  }

  /** One thing at a time: a commit and a pull never cross. */
  private queue(work: () => Promise<void>): Promise<void> {
    const next = this.working.then(work)
    this.working = next.catch(() => undefined)
    return next
  }

  /**
   * Writes the draft once no commit is under way. Written beside one, it would land behind it and hold again what the
   * commit has just made into a revision; the next one to open the text would get it twice.
   */
  private keepDraft(): Promise<void> {
    return this.queue(() => this.saveDraft())
  }

  private async saveDraft(): Promise<void> {
    this.clearTimer('draftTimer')
    const pending = this.pending()
    if (pending.empty) return
    const draft: TextDraft = {
      key: this.draftKey,
      owner: 'text',
      window: this.options.window,
      node: this.node,
      base: this.base,
      changeSet: toChangeSetJson(pending),
      text: this.text,
      saved: this.lab.surroundings.clock.now(),
    }
    const kept = await this.lab.saveDraft(draft)
    if (!kept.ok) this.listener.onState({ kind: 'unsaved', sentence: kept.sentence })
  }

  private async commitPending(): Promise<void> {
    for (let tries = 0; tries < MOST_TRIES && !this.unsent.empty && !this.isGone; tries++) {
      const code = await this.commitOnce()
      if (code !== 'stale-revision') return
      await this.takeRemote()
    }
  }

  private async commitOnce(): Promise<string> {
    this.sent = this.unsent
    this.unsent = ChangeSet.empty(this.sent.newLength)
    const { change, revision } = writeText(
      this.lab.surroundings,
      this.node,
      this.base,
      toChangeSetJson(this.sent),
    )
    const result = await this.lab.committer.commit(change, [this.draftKey]).catch((error: unknown) => {
      this.takeBack()
      throw error
    })
    if (!result.ok) {
      this.takeBack()
      if (result.code === 'missing') this.takeGone(true)
      else if (result.code !== 'stale-revision')
        this.listener.onState({ kind: 'unsaved', sentence: result.sentence })
      return result.code
    }
    this.baseText = this.sent.apply(toLines(this.baseText)).toString()
    this.base = revision
    this.sent = null
    this.listener.onCut()
    if (this.unsent.empty) this.listener.onState({ kind: 'saved' })
    else await this.saveDraft()
    return 'ok'
  }

  /** What was being committed is not: it joins what was typed since. */
  private takeBack(): void {
    this.unsent = this.pending()
    this.sent = null
  }

  private async takeRemote(): Promise<void> {
    const revisions = await this.lab.queries.revisions(this.node.id)
    const later = revisions.slice(revisions.findIndex(({ id }) => id === this.base) + 1)
    for (const revision of later) this.takeRevision(revision)
    this.takeGone(later.at(-1)?.ended ?? this.isGone)
  }

  private takeGone(isGone: boolean): void {
    if (isGone === this.isGone) return
    this.isGone = isGone
    if (isGone) this.listener.onState({ kind: 'gone', typed: insertedBy(toChangeSetJson(this.pending())) })
  }

  private takeRevision(revision: Revision): void {
    const remote = toChangeSet(revision.changeSet)
    const forEditor = remote.map(this.unsent, true)
    this.unsent = this.unsent.map(remote)
    this.baseText = remote.apply(toLines(this.baseText)).toString()
    this.base = revision.id
    if (!forEditor.empty) this.listener.onRemote(forEditor)
  }
}

/** A draft's changes mapped over what was committed after its base; null where the base is not known any more. */
export async function mapDraft(lab: OpenLab, draft: TextDraft, lengthNow: number): Promise<ChangeSet | null> {
  const revisions = await lab.queries.revisions(draft.node.id)
  const at = revisions.findIndex(({ id }) => id === draft.base)
  if (at < 0) return null
  const typed = toChangeSet(draft.changeSet)
  const later = composeChangeSets(
    revisions.slice(at + 1).map(({ changeSet }) => changeSet),
    typed.length,
  )
  const mapped = typed.map(later)
  return mapped.length === lengthNow ? mapped : null
}
