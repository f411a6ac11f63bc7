import { useMemo, useState, type FormEvent, type KeyboardEvent } from 'react'
import { toTags } from '../../../../shared/lab/acts.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import { foldText } from '../../../../shared/sources/folded.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, TextInput } from '../../../ui/index.ts'
import { tagSources, untagSources } from './acts.ts'
import { Chip } from './FilterPanel.tsx'
import type { Listed } from './useListed.ts'
import { idsOf } from './useListed.ts'

/** So many tags are offered at once. */
const MOST_OFFERED = 40

export interface BulkTagsProps {
  readonly rows: readonly SourceFacts[]
  readonly listed: Listed
  readonly onClose: () => void
}

/** Tags of all that are chosen, with how many of them carry each; a press gives one to all or takes it off all. */
export function BulkTags({ rows, listed, onClose }: BulkTagsProps) {
  const workspace = useWorkspace()
  const [typed, setTyped] = useState('')
  const own = useMemo(() => countTags(rows), [rows])
  const offers = useMemo(() => {
    const all = [...countTags(listed.all)].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]))
    const wanted = foldText(typed.trim())
    const fitting = all.map(([tag]) => tag).filter((tag) => foldText(tag).includes(wanted))
    // Those that the chosen ones carry stand first.
    return [...fitting.filter((tag) => own.has(tag)), ...fitting.filter((tag) => !own.has(tag))]
  }, [listed.all, own, typed])
  const stateOf = (tag: string): boolean | 'mixed' => {
    const count = own.get(tag) ?? 0
    return count === 0 ? false : count === rows.length ? true : 'mixed'
  }
  const add = async (event: FormEvent): Promise<void> => {
    event.preventDefault()
    const tags = toTags(typed)
    for (const tag of tags) await tagSources(workspace, idsOf(rows), tag)
    setTyped('')
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    event.stopPropagation()
    if (typed === '') onClose()
    else setTyped('')
  }
  return (
    <div className="st-bulk-part st-scroll" onKeyDown={onKeyDown}>
      <form className="st-bulk-new" onSubmit={(event) => void add(event)}>
        <TextInput
          label="Tag for all that are selected"
          hidesLabel
          placeholder="A tag, new or known"
          autoFocus
          autoComplete="off"
          value={typed}
          onChange={({ target }) => setTyped(target.value)}
        />
        <Button type="submit" disabled={toTags(typed).length === 0}>
          Add
        </Button>
      </form>
      <div className="st-chips" role="group" aria-label="Tags of this lab">
        {offers.slice(0, MOST_OFFERED).map((tag) => (
          <Chip
            key={tag}
            word={tag}
            count={own.get(tag) ?? 0}
            pressed={stateOf(tag)}
            onPress={() =>
              void (stateOf(tag) === true ? untagSources : tagSources)(workspace, idsOf(rows), tag)
            }
          />
        ))}
      </div>
      {offers.length > MOST_OFFERED ? (
        <p className="st-list-hint">{`${offers.length - MOST_OFFERED} more. Type to find one.`}</p>
      ) : null}
    </div>
  )
}

function countTags(rows: readonly SourceFacts[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const { source } of rows) for (const tag of source.tags) counts.set(tag, (counts.get(tag) ?? 0) + 1)
  return counts
}
