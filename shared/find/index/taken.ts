/** What is told of how a query was taken. */
import type { FindQuery } from '../query/query.ts'
import type { TakenQuery } from './answer.ts'
import { toAskedPhrase, type AskedTerm } from './asked.ts'
import type { ReadTerm } from './readings.ts'

export function toTaken(
  query: FindQuery,
  asked: readonly AskedTerm[],
  read: readonly ReadTerm[],
): TakenQuery {
  return {
    words: asked.flatMap(({ form, stem, isBeginning, isOfPhrase }, at) =>
      isOfPhrase ? [] : [{ form, stem, isBeginning, respelt: read[at]!.respelt }],
    ),
    phrases: query.phrases.map((phrase) => toAskedPhrase(phrase).map(({ form }) => form)),
  }
}
