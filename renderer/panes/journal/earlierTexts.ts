/** What stood in an entry before it was amended, and how the wordings differ. */
import { diffWordsWithSpace } from 'diff'
import type { Revision } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import { changeText } from '../../../shared/lab/text.ts'

/** A wording of a text and since when it stood. */
export interface Wording {
  readonly since: Moment
  readonly text: string
}

/** All wordings of a text, from the first on; a revision that changed nothing makes none. */
export function wordingsOf(revisions: readonly Revision[]): Wording[] {
  const wordings: Wording[] = []
  for (const { changeSet, moment } of revisions) {
    const before = wordings.at(-1)
    const text = changeText(before?.text ?? '', changeSet)
    if (text !== before?.text) wordings.push({ since: moment, text })
  }
  return wordings
}

/** A run of words that both wordings share, or that one of them alone has. */
export interface WordRun {
  readonly fate: 'kept' | 'gone' | 'new'
  readonly text: string
}

/** Above this many differences two texts are told apart as wholes, so that comparing never holds up typing. */
const MOST_EDITS = 2000

/**
 * What became of a text, word by word. Kept and gone runs together are the text before, kept and new ones the text after.
 */
export function compareWords(before: string, after: string): WordRun[] {
  const parts = diffWordsWithSpace(before, after, { maxEditLength: MOST_EDITS })
  if (!parts)
    return [
      { fate: 'gone', text: before },
      { fate: 'new', text: after },
    ]
  return parts.map(({ added, removed, value }) => ({
    fate: added ? 'new' : removed ? 'gone' : 'kept',
    text: value,
  }))
}
