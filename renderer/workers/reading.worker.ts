/** Does one heavy part of reading. */
import { compareTexts } from '../../shared/sources/difference.ts'
import { toOriginal } from '../../shared/sources/original.ts'
import type { ReadingAnswers, ReadingMessage, ReadingTask } from './reading.ts'

const say = (message: ReadingMessage): void => postMessage(message)

addEventListener('message', ({ data }: MessageEvent<ReadingTask>) => {
  void work(data).then(
    (answer) => say({ kind: 'answer', answer }),
    (error: unknown) => say({ kind: 'broken', reason: String(error) }),
  )
})

async function work(task: ReadingTask): Promise<ReadingAnswers[keyof ReadingAnswers]> {
  return task.kind === 'difference'
    ? compareTexts(task.older, task.newer)
    : toOriginal(task.bytes, task.mediaType, task.nonce)
}
