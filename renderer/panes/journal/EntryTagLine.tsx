/** An entry's tags below its text, and the field in which they are changed. The entry itself stays as it was written. */
import { useMemo, type ReactNode } from 'react'
import type { Entry } from '../../../shared/lab/model.ts'
import { Button } from '../../ui/index.ts'
import { TagIcon } from '../../ui/icons.tsx'
import { TagField } from '../tagging/index.ts'
import { focusEntry, setIn, toggleTag, type JournalStore } from './journalState.ts'
import { useEntryTags } from './useEntry.ts'

export interface EntryTagLineProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly isTagging: boolean
  readonly tabIndex: number
}

export function EntryTagLine({ entry, store, isTagging, tabIndex }: EntryTagLineProps): ReactNode {
  const tags = useEntryTags(entry.id)
  const thing = useMemo(() => ({ kind: 'entry', record: entry, tags }) as const, [entry, tags])
  if (isTagging)
    return (
      <TagField
        thing={thing}
        autoFocus
        onClose={() => {
          setIn(store, 'tagging', entry.id, false)
          focusEntry(store, entry.id)
        }}
      />
    )
  if (!tags || tags.tags.length === 0) return null
  return (
    <div className="st-entry-tags" role="group" aria-label="Tags of this entry">
      <TagIcon />
      {tags.tags.map((tag) => (
        <Button
          key={tag}
          look="quiet"
          className="st-entry-tag"
          label={`${tag}: show entries with this tag`}
          tabIndex={tabIndex}
          onClick={() => toggleTag(store, tag)}
        >
          {tag}
        </Button>
      ))}
    </div>
  )
}
