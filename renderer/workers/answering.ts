/** The worker's side of an asker (`asker.ts`). */
import type { Calls, MessageOf, RequestOf } from './asker.ts'

/** What a worker needs of its scope. */
export interface AnsweringScope<C extends Calls<C>> {
  addEventListener(type: 'message', listen: (event: { readonly data: RequestOf<C> }) => void): void
  postMessage(message: MessageOf<C>): void
}

/**
 * Answers every question that comes in; what is thrown is told as that the worker broke.
 * @returns how to say how far the worker is, 0 to 1; null when it is done
 */
export function answerQuestions<C extends Calls<C>>(
  scope: AnsweringScope<C>,
  answer: (request: RequestOf<C>) => Promise<C[keyof C]['answer']>,
): (share: number | null) => void {
  scope.addEventListener('message', ({ data }) => {
    const { number } = data
    void answer(data).then(
      (answered) => scope.postMessage({ kind: 'answer', number, answer: answered }),
      (error: unknown) => scope.postMessage({ kind: 'broken', number, reason: String(error) }),
    )
  })
  return (share) => scope.postMessage({ kind: 'progress', share })
}
