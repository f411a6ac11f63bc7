/**
 * What is being taken in, one thing after the other: what is under way, how many wait, and what went wrong. Lives as long
 * as its window, so that neither folding the pane nor going to another project loses anything.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { WayIn } from '../../../shared/lab/model.ts'
import {
  IntakeCancelled,
  type IntakeAnswer,
  type IntakeTask,
  type Intaking,
  type TakeIn,
} from '../../workers/intake.ts'

/** One thing to take in and what is known of it beforehand. */
export interface IntakeItem<Place> {
  /** The project that it is for. */
  readonly place: Place
  readonly wayIn: WayIn
  readonly task: IntakeTask
  /** What the person or the link called it; null to let the text tell. */
  readonly title: string | null
  readonly address: string | null
  /** Words that are lost if this fails, since they stand nowhere else; null for a file. */
  readonly rescue: string | null
}

export type TakenIn = Extract<IntakeAnswer, { readonly ok: true }>

/** How taking in ended: kept, refused with a sentence that the queue shows, or called off. */
export type Outcome = 'kept' | 'refused' | 'cancelled'

export interface IntakeProblem {
  readonly id: number
  readonly sentence: string
  /** What can still be put into the form. */
  readonly rescue: string | null
}

export interface QueueState {
  readonly current: { readonly name: string; readonly words: string; readonly share: number | null } | null
  readonly waiting: number
  readonly problems: readonly IntakeProblem[]
}

export interface QueueParts<Place> {
  readonly takeIn: TakeIn
  /** Makes a source of it. @returns a sentence where that could not be done */
  readonly keep: (
    item: IntakeItem<Place>,
    taken: TakenIn,
  ) => Promise<{ ok: true } | { ok: false; sentence: string }>
  /** Told once everything that was waiting is through, with how many things were kept. */
  readonly onThrough: (kept: number) => void
}

interface Waiting<Place> {
  readonly item: IntakeItem<Place>
  readonly end: (outcome: Outcome) => void
}

export class IntakeQueue<Place> {
  readonly store: StoreApi<QueueState> = createStore(() => ({ current: null, waiting: 0, problems: [] }))
  private readonly waiting: Waiting<Place>[] = []
  private running: Intaking | null = null
  private isWorking = false
  private counter = 0

  constructor(private readonly parts: QueueParts<Place>) {}

  /** Takes one more thing in, behind those that wait. */
  add(item: IntakeItem<Place>): Promise<Outcome> {
    return new Promise((end) => {
      this.waiting.push({ item, end })
      this.store.setState({ waiting: this.waiting.length })
      void this.work()
    })
  }

  /** Calls off what is under way. What waits goes on. */
  cancel(): void {
    this.running?.cancel()
  }

  /** Calls off what is under way and all that waits. */
  cancelAll(): void {
    for (const { end } of this.waiting.splice(0)) end('cancelled')
    this.store.setState({ waiting: 0 })
    this.cancel()
  }

  /** Shows a sentence beside those of what was refused here. */
  tell(sentence: string, rescue: string | null = null): void {
    const problem: IntakeProblem = { id: ++this.counter, sentence, rescue }
    this.store.setState(({ problems }) => ({ problems: [...problems, problem] }))
  }

  dismiss(id: number): void {
    this.store.setState(({ problems }) => ({ problems: problems.filter((problem) => problem.id !== id) }))
  }

  private async work(): Promise<void> {
    if (this.isWorking) return
    this.isWorking = true
    let kept = 0
    for (let next = this.waiting.shift(); next; next = this.waiting.shift()) {
      this.store.setState({ waiting: this.waiting.length })
      const outcome = await this.takeOne(next.item)
      if (outcome === 'kept') kept++
      next.end(outcome)
    }
    this.isWorking = false
    this.store.setState({ current: null })
    this.parts.onThrough(kept)
  }

  private async takeOne(item: IntakeItem<Place>): Promise<Outcome> {
    const { name } = item.task
    const show = (words: string, share: number | null): void =>
      this.store.setState({ current: { name, words, share } })
    show(`Reading ${name}`, null)
    try {
      this.running = this.parts.takeIn(item.task, ({ doing, share }) =>
        show(`${doing === 'reading' ? 'Reading' : 'Cleaning'} ${name}`, share),
      )
      const answer = await this.running.answer
      this.running = null
      if (!answer.ok) return this.refuse(item, answer.sentence)
      show(`Keeping ${name}`, null)
      const result = await this.parts.keep(item, answer)
      return result.ok ? 'kept' : this.refuse(item, result.sentence)
    } catch (error) {
      this.running = null
      if (error instanceof IntakeCancelled) return 'cancelled'
      console.error(error)
      return this.refuse(item, brokenSentence(name))
    }
  }

  private refuse({ rescue }: IntakeItem<Place>, sentence: string): Outcome {
    this.tell(sentence, rescue)
    return 'refused'
  }
}

function brokenSentence(name: string): string {
  return `Something in the program went wrong while “${name}” was read. Nothing was added, and what was there is unchanged. Try it again, or paste its text.`
}
