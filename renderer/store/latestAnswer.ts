/**
 * Something worked out of a project, kept up to the project's last Change. What is shown may be of an older state for a
 * moment; what is acted on never is.
 */
import type { Answered } from '../workers/project.ts'

export interface AnswerState<T> {
  /** The last answer; null until there is one. */
  readonly answered: Answered<T> | null
  readonly hasFailed: boolean
}

export class LatestAnswer<T> {
  private state: AnswerState<T> = { answered: null, hasFailed: false }
  private running: Promise<void> | null = null
  /** Counts up when what was asked before is not to be shown any more. */
  private generation = 0

  /** @param say told every new state */
  constructor(
    private readonly ask: () => Promise<Answered<T>>,
    private readonly say: (state: AnswerState<T>) => void,
  ) {}

  /**
   * The answer that knows of a Change, and of all before it.
   * @throws Error where it could not be worked out
   */
  async upTo(sequence: number): Promise<T> {
    for (;;) {
      const { answered } = this.state
      if (answered && answered.sequence >= sequence) return answered.answer
      this.running ??= this.askOnce().finally(() => {
        this.running = null
      })
      await this.running
    }
  }

  /** What was worked out is not to be shown any more. */
  forget(): void {
    this.generation += 1
    this.set({ answered: null, hasFailed: false })
  }

  private async askOnce(): Promise<void> {
    const { generation } = this
    try {
      const answered = await this.ask()
      if (generation === this.generation) this.set({ answered, hasFailed: false })
    } catch (error) {
      this.set({ ...this.state, hasFailed: true })
      throw error
    }
  }

  private set(state: AnswerState<T>): void {
    this.state = state
    this.say(state)
  }
}
