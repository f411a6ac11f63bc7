/** How well a library ranks a public collection. */
import { cacmDocuments, cacmQueries } from '../../support/retrieval/collections.ts'
import { averagePrecision, mean } from '../../support/retrieval/measures.ts'
import { makeLibrary, type LibraryName } from './find-libraries.ts'

/** Mean average precision on CACM, words whole. */
export async function mapOf(name: LibraryName): Promise<number> {
  const library = await makeLibrary(name)
  library.add(cacmDocuments())
  library.finish()
  const values = cacmQueries().map(({ typed, relevant }) =>
    averagePrecision(library.search({ typed, isTyping: false, isTolerant: false, limit: 1000 }), relevant),
  )
  return mean(values)
}
