/** The texts of entries, revision by revision. */
import type { RevisionId } from '../../lab/ids.ts'
import type { Revision } from '../../lab/model.ts'
import { changeText } from '../../lab/text.ts'

/**
 * The whole text that each revision led to. One that cannot be put together (its change set is none, or was made for
 * another text) has none, and neither have those after it.
 * @param revisions of any number of texts, in any order
 */
export function textsOf(revisions: readonly Revision[]): Map<RevisionId, string> {
  const texts = new Map<RevisionId, string>()
  const last = new Map<string, string | null>()
  for (const { id, node, changeSet } of [...revisions].sort((a, b) => a.number - b.number)) {
    const before = last.get(node)
    const text = before === null ? null : maybeChanged(before ?? '', changeSet)
    if (text !== null) texts.set(id, text)
    last.set(node, text)
  }
  return texts
}

function maybeChanged(text: string, changeSet: Revision['changeSet']): string | null {
  try {
    return changeText(text, changeSet)
  } catch {
    return null
  }
}
