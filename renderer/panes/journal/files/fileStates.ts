/** The entries about one file, in the order of the journal. */
import { fileOf, inJournalOrder, placeOf } from '../../../../shared/journal/entry-facts.ts'
import type { Entry } from '../../../../shared/lab/model.ts'
import type { ProjectView } from '../../../store/view.ts'

type Told = Pick<ProjectView, 'entries' | 'withdrawn' | 'marks'>

/** The file entries with the same path on the same machine as one; withdrawn ones left out, but for that one itself. */
export function statesInOrder(entry: Entry, { entries, withdrawn, marks }: Told): Entry[] {
  const keyOf = (one: Entry): string => {
    const own = marks.get(one.id)
    const place = placeOf(one, own)
    return `${fileOf(one, own)?.path ?? ''} ${place?.machine ?? place?.host ?? ''}`
  }
  const key = keyOf(entry)
  const same = [...entries.values()].filter(
    (one) => one.kind === 'file' && (one.id === entry.id || !withdrawn.has(one.id)) && keyOf(one) === key,
  )
  return inJournalOrder(same, marks)
}
