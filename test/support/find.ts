/** Documents and queries for tests of finding. */
import type { FindDocument } from '../../shared/find/document.ts'
import type { FindQuery } from '../../shared/find/query/query.ts'
import { toWords } from '../../shared/find/tokens.ts'

/** A document of words alone. */
export function textDocument({
  id,
  title = '',
  text,
}: {
  readonly id: string
  readonly title?: string
  readonly text: string
}): FindDocument {
  return {
    id,
    thing: 'source',
    title,
    technical: [],
    tags: [],
    text,
    facts: { kind: null, projects: [], places: [], moment: null, isWithdrawn: false },
  }
}

/** A query of words alone, as a collection's queries are meant: nothing in them is a filter. */
export function plainQuery(typed: string, isTyping = false): FindQuery {
  const words = toWords(typed)
  return {
    typed,
    words: words.map(({ written, start, end }, at) => ({
      written,
      isBeginning: isTyping && at === words.length - 1,
      range: { start, end },
    })),
    phrases: [],
    excluded: [],
    filters: [],
  }
}
