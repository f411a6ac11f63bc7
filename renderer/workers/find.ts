/**
 * Finding, from the screen's side. The index of a lab lives in one worker for each window, until the lab is closed; one of all
 * windows' workers keeps it for the next start.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { LabId } from '../../shared/lab/ids.ts'
import { Asker, type MessageOf, type OpenCall, type RequestOf, type WorkerOf } from './asker.ts'
import type { AnsweredQuestion, CommandsAsk, FindAsk, FoundAnswer, FoundCommands } from './found.ts'

export type * from './found.ts'

export interface FindCalls extends OpenCall {
  readonly find: { readonly argument: FindAsk; readonly answer: FoundAnswer }
  readonly answer: { readonly argument: string; readonly answer: AnsweredQuestion }
  readonly commands: { readonly argument: CommandsAsk; readonly answer: FoundCommands }
}
export type FindCall = keyof FindCalls
export type FindRequest = RequestOf<FindCalls>
export type FindMessage = MessageOf<FindCalls>
export type FindWorker = WorkerOf<FindCalls>

const startWorker = (): FindWorker =>
  new Worker(new URL('./find.worker.ts', import.meta.url), { type: 'module' }) as unknown as FindWorker

/** The worker of one open lab, begun with {@link begin} or the first question. */
export class FindAsker extends Asker<FindCalls> {
  /** 0 to 1 while the index is being built; null otherwise. Answers then come of the part that is there. */
  readonly building: StoreApi<{ readonly share: number | null }> = createStore(() => ({ share: null }))

  constructor(lab: LabId, start: () => FindWorker = startWorker) {
    super(lab, start)
  }

  /** Makes the index ready for the first question. */
  begin(): void {
    this.ensureWorker()
  }

  /**
   * What fits in the lab as it stands now. Never waits for the index to be built anew.
   * @throws Error where the worker broke; the next question begins a new one
   */
  ask(asked: FindAsk): Promise<FoundAnswer> {
    return this.askWorker('find', asked)
  }

  /**
   * Answers a question out of the lab as it stands now. Never waits for the index to be built anew.
   * @param question as the person typed it
   * @throws Error where the worker broke; the next question begins a new one
   */
  answer(question: string): Promise<AnsweredQuestion> {
    return this.askWorker('answer', question)
  }

  /**
   * The commands of the lab in which a part stands, each once for all times that it was run.
   * @throws Error where the worker broke; the next question begins a new one
   */
  commands(part: string, limit: number): Promise<FoundCommands> {
    return this.askWorker('commands', { part, limit })
  }

  protected override onShare(share: number | null): void {
    this.building.setState({ share })
  }

  protected override onBroken(): void {
    this.building.setState({ share: null })
  }
}
