/**
 * The review of the procedure that the window shows, kept up with its texts: begun when typing has paused, done in a
 * worker, and only while somebody looks. Created without React. Answers to an older text are dropped.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { PartId, ProcedureId, StepId } from '../../shared/lab/ids.ts'
import { documentOf } from '../../shared/procedure/review/document.ts'
import type { Finding, ReviewedDocument } from '../../shared/procedure/review/types.ts'
import type { ProjectView } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import { ReviewAsker } from '../workers/review.ts'
import { listFindings, type Listed } from './listed.ts'

export interface ReviewState {
  readonly procedure: ProcedureId | null
  /** Null until the procedure was read for the first time. */
  readonly listed: Listed | null
  /** It is being read, or will be as soon as typing pauses: what is listed speaks of texts as they were. */
  readonly isReading: boolean
  readonly isBroken: boolean
}

const nothing: ReviewState = { procedure: null, listed: null, isReading: false, isBroken: false }

/** What was read, and what the rules found in it; silences are looked up when it is listed. */
interface Read {
  readonly document: ReviewedDocument
  readonly findings: readonly Finding[]
}

/** What of a window is needed here. */
export type Reviewed = Pick<Workspace, 'store' | 'textsStruck'>

/** A review begins so long after the last change. */
export const PAUSE_MS = 600

export class Reviewer {
  readonly store: StoreApi<ReviewState> = createStore(() => nothing)
  private lookers = 0
  private stops: readonly (() => void)[] = []
  private timer: ReturnType<typeof setTimeout> | undefined
  /** Of the latest question; answers to earlier ones are dropped. */
  private number = 0
  private seen: ProjectView | null = null
  private read: Read | null = null

  constructor(
    private readonly workspace: Reviewed,
    private readonly asker: Pick<ReviewAsker, 'review' | 'close'> = new ReviewAsker(),
    private readonly pauseMs = PAUSE_MS,
  ) {}

  /** Keeps the review up to date until the answer is called. */
  look(): () => void {
    this.lookers += 1
    if (this.lookers === 1) this.begin()
    let isOver = false
    return () => {
      if (isOver) return
      isOver = true
      this.lookers -= 1
      if (this.lookers === 0) this.end()
    }
  }

  /** Reads at once what changed: after a mend, and where the person asks for it again. */
  readNow(): void {
    if (this.lookers > 0) this.schedule(0)
  }

  /** The text of a part as it was read; undefined where it was not. */
  textRead(part: PartId): string | undefined {
    if (!this.read) return undefined
    const { parts, rows } = this.read.document
    return [parts, ...rows.map((row) => row.parts)].flat().find(({ id }) => id === part)?.text
  }

  private begin(): void {
    this.stops = [
      this.workspace.store.subscribe(() => this.note()),
      // The worker holds texts: what was struck out must be in none.
      this.workspace.textsStruck.on(() => this.forgetTexts()),
    ]
    this.note()
    if (this.store.getState().isReading) this.schedule(0)
  }

  private end(): void {
    for (const stop of this.stops) stop()
    this.stops = []
    this.invalidate()
    this.asker.close()
  }

  private forgetTexts(): void {
    this.asker.close()
    this.read = null
    this.relist()
    this.schedule(0)
  }

  private note(): void {
    const { view, procedure } = this.workspace.store.getState()
    if (!view || !procedure || !view.procedures.has(procedure)) return this.forget(null)
    if (this.store.getState().procedure !== procedure) {
      this.forget(procedure)
      this.seen = view
      return this.schedule(0)
    }
    if (view === this.seen) return
    const before = this.seen
    this.seen = view
    this.relist()
    if (!before || !isSameForReview(before, view, procedure)) this.schedule(this.pauseMs)
  }

  private forget(procedure: ProcedureId | null): void {
    if (procedure === null && this.store.getState() === nothing) return
    this.invalidate()
    this.seen = null
    this.read = null
    this.store.setState(procedure ? { ...nothing, procedure } : nothing, true)
  }

  private invalidate(): void {
    clearTimeout(this.timer)
    this.number += 1
  }

  private schedule(waitMs: number): void {
    this.invalidate()
    this.store.setState({ isReading: true, isBroken: false })
    this.timer = setTimeout(() => void this.ask(), waitMs)
  }

  private async ask(): Promise<void> {
    const { number, seen } = this
    const { procedure } = this.store.getState()
    if (!seen || !procedure) return
    const document = documentIn(seen, procedure, this.read?.document)
    try {
      const findings = await this.asker.review(document)
      if (number !== this.number) return
      this.read = { document, findings }
      this.relist()
      this.store.setState({ isReading: false })
    } catch (error) {
      console.error(error)
      if (number === this.number) this.store.setState({ isReading: false, isBroken: true })
    }
  }

  /** Lists what was found anew against what stands now: silences, texts that changed, steps that are gone. */
  private relist(): void {
    const { seen, read } = this
    const { procedure } = this.store.getState()
    if (!seen || !read || !procedure) return this.store.setState({ listed: null })
    const listed = listFindings(read.document, read.findings, {
      silences: [...seen.silences.values()].filter((one) => one.procedure === procedure),
      textOf: (part: PartId) => (seen.parts.has(part) ? (seen.texts.get(part) ?? '') : undefined),
      hasStep: (step: StepId) => seen.steps.has(step),
    })
    this.store.setState({ listed })
  }
}

/** The procedure as the review reads it, without silences: they are looked up when the findings are listed. */
export function documentIn(
  view: ProjectView,
  procedure: ProcedureId,
  before?: ReviewedDocument,
): ReviewedDocument {
  return documentOf(
    {
      procedure: view.procedures.get(procedure)!,
      steps: [...view.steps.values()],
      parts: [...view.parts.values()],
      texts: view.texts,
      links: [...view.links.values()],
      parameters: [...view.parameters.values()],
      silences: [],
    },
    before,
  )
}

/**
 * Whether nothing that the rules look at differs between two views of one project. Records of a view are the same objects
 * as long as nothing touches them.
 */
export function isSameForReview(a: ProjectView, b: ProjectView, procedure: ProcedureId): boolean {
  if (a.procedures.get(procedure) !== b.procedures.get(procedure)) return false
  if (a.links !== b.links || a.parameters !== b.parameters) return false
  if (!isSameMap(a.steps, b.steps) || !isSameMap(a.parts, b.parts)) return false
  return a.texts === b.texts || [...b.parts.values()].every(({ id }) => a.texts.get(id) === b.texts.get(id))
}

function isSameMap<T>(a: ReadonlyMap<string, T>, b: ReadonlyMap<string, T>): boolean {
  return a === b || (a.size === b.size && [...b].every(([id, record]) => a.get(id) === record))
}

const reviewers = new WeakMap<Reviewed, Reviewer>()

/** The one of a window. */
export function reviewerOf(workspace: Workspace): Reviewer {
  const reviewer = reviewers.get(workspace) ?? new Reviewer(workspace)
  reviewers.set(workspace, reviewer)
  return reviewer
}
