/** Questions that follow each other faster than they are answered. */

/** When the next frame is drawn. */
export type NextFrame = (then: () => void) => void

const drawnFrame: NextFrame = (then) => void requestAnimationFrame(then)

/**
 * One question at a time, and one a frame: while one is on its way only the newest of those that came meanwhile is kept, and
 * an answer to a question that was replaced is dropped.
 */
export class LatestQuestion<Q, A> {
  private isAsking = false
  private isFrameUsed = false
  private next: { readonly question: Q } | null = null
  private waiting: (() => void)[] = []

  /**
   * @param show told each answer that is still wanted
   * @param onFailed told that the newest question has no answer
   */
  constructor(
    private readonly ask: (question: Q) => Promise<A>,
    private readonly show: (answer: A, question: Q) => void,
    private readonly onFailed: (error: unknown) => void,
    private readonly frame: NextFrame = drawnFrame,
  ) {}

  want(question: Q): void {
    this.next = { question }
    this.sendNext()
  }

  /** Nothing that was asked is wanted any more. */
  drop(): void {
    this.next = null
    this.generation += 1
    this.settle()
  }

  /** When the newest question is answered, has failed, or was dropped. */
  settled(): Promise<void> {
    if (!this.isAsking && !this.next) return Promise.resolve()
    return new Promise((resolve) => this.waiting.push(resolve))
  }

  private generation = 0

  private sendNext(): void {
    if (this.isAsking || this.isFrameUsed || !this.next) return
    const { question } = this.next
    this.next = null
    this.isAsking = true
    this.isFrameUsed = true
    this.frame(() => {
      this.isFrameUsed = false
      this.sendNext()
    })
    void this.askOnce(question)
  }

  private async askOnce(question: Q): Promise<void> {
    const { generation } = this
    const isWanted = (): boolean => this.next === null && generation === this.generation
    try {
      const answer = await this.ask(question)
      if (isWanted()) this.show(answer, question)
    } catch (error) {
      if (isWanted()) this.onFailed(error)
    }
    this.isAsking = false
    if (this.next) this.sendNext()
    else this.settle()
  }

  private settle(): void {
    const waiting = this.waiting
    this.waiting = []
    for (const resolve of waiting) resolve()
  }
}
