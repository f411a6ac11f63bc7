/** How well written questions are answered, beside bare BM25. */
import { extractive } from '../../../shared/find/ask/extractive.ts'
import { search } from '../../../shared/find/index/search.ts'
import { plainQuery } from '../find.ts'
import type { AskedLab } from './asked-lab.ts'
import type { WrittenPlace, WrittenQuestion, WrittenQuestions } from './questions.ts'

/** A right place among the first so many. */
const FIRST = 3

export interface Measured {
  /** Questions that were answered with a right place among the first three passages. */
  readonly right: number
  /** Questions with right places of which was said that nothing answers them. */
  readonly refused: number
  /** Questions without an answer that were answered all the same. */
  readonly wrongly: number
  /** Questions for which BM25 has a thing with a right place among the first three; it never refuses. */
  readonly byBm25: number
  readonly questions: number
}

export async function measure(
  { questions, withoutAnswer }: WrittenQuestions,
  lab: AskedLab,
): Promise<Measured> {
  const answers = []
  for (const question of questions)
    answers.push({ question, answer: await extractive.answer(question.typed, lab) })
  const wrong = []
  for (const typed of withoutAnswer) wrong.push(await extractive.answer(typed, lab))
  const isAnswered = ({ kind }: { readonly kind: string }): boolean => kind === 'answered'
  return {
    right: answers.filter(
      ({ question, answer }) =>
        isAnswered(answer) &&
        answer.passages
          .slice(0, FIRST)
          .some(({ id, text }) => isRight(question, lab, id, (words) => text.includes(words))),
    ).length,
    refused: answers.filter(({ answer }) => !isAnswered(answer)).length,
    wrongly: wrong.filter(isAnswered).length,
    byBm25: questions.filter((question) => isFoundByBm25(question, lab)).length,
    questions: questions.length,
  }
}

function isFoundByBm25(question: WrittenQuestion, lab: AskedLab): boolean {
  const { hits } = search(lab.index, plainQuery(question.typed), { limit: FIRST })
  // It gives whole things: of a source every paragraph.
  return hits.some(({ id }) => isRight(question, lab, id, () => true))
}

function isRight(
  { places }: WrittenQuestion,
  { ids }: AskedLab,
  id: string,
  holds: (words: string) => boolean,
): boolean {
  const isPlace = ({ key, words }: WrittenPlace): boolean =>
    ids.get(key) === id && (words === null || holds(words))
  return places.some(isPlace)
}
