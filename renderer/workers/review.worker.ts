/** Reviews procedures away from the screen. What was read of a part is kept as long as the part stays as it was. */
import { keepingParts } from '../../shared/procedure/review/document.ts'
import { reviewProcedure } from '../../shared/procedure/review/review.ts'
import type { Finding, ReviewedDocument } from '../../shared/procedure/review/types.ts'
import type { ReviewAnswer, ReviewRequest } from './review.ts'

const say = (answer: ReviewAnswer): void => postMessage(answer)

let before: ReviewedDocument | null = null

function review(document: ReviewedDocument): Finding[] {
  const kept = before ? keepingParts(document, before) : document
  before = kept
  return reviewProcedure(kept)
}

addEventListener('message', ({ data: { number, document } }: MessageEvent<ReviewRequest>) => {
  try {
    say({ kind: 'answer', number, findings: review(document) })
  } catch (error) {
    say({ kind: 'broken', number, reason: String(error) })
  }
})
