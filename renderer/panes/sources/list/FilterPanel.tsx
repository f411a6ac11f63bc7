/** What the list can be narrowed to: each choice with how many sources it would leave. */
import { useId, useMemo, useState, type KeyboardEvent, type ReactNode } from 'react'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import { sourceKinds } from '../../../../shared/lab/model.ts'
import { sourceFlags } from '../../../../shared/sources/filter.ts'
import { foldText } from '../../../../shared/sources/folded.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { Button, sourceKindFaces, TextInput } from '../../../ui/index.ts'
import { putIntoFolder } from './acts.ts'
import { FolderTree } from './FolderTree.tsx'
import { changeFilter, clearFilter, toggled, type ListStore } from './listState.ts'
import { idsOf, type Listed } from './useListed.ts'
import { flagWords } from './words.ts'

export interface FilterPanelProps {
  readonly store: ListStore
  readonly listed: Listed
  readonly onClose: () => void
}

export function FilterPanel(props: FilterPanelProps) {
  const { store, listed, onClose } = props
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    event.stopPropagation()
    onClose()
  }
  return (
    <section className="st-sieve" aria-label="Filter the sources" onKeyDown={onKeyDown}>
      <div className="st-sieve-parts st-scroll" tabIndex={-1}>
        <Tags {...props} />
        <Folders {...props} />
        <Kinds {...props} />
        <Projects {...props} />
        <Days {...props} />
      </div>
      <div className="st-sieve-foot">
        <p className="st-list-hint">{`${listed.counts.shown} shown`}</p>
        <Button look="quiet" onClick={() => clearFilter(store)}>
          Show all
        </Button>
        <Button keys="Escape" onClick={onClose}>
          Done
        </Button>
      </div>
    </section>
  )
}

function Part({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  const id = useId()
  return (
    <div role="group" aria-labelledby={id} className="st-sieve-part">
      <h3 id={id} className="st-sieve-title">
        {title}
      </h3>
      {children}
    </div>
  )
}

interface ChipProps {
  readonly word: string
  readonly count: number
  readonly pressed: boolean | 'mixed'
  readonly onPress: () => void
}

/** A word that is on or off, with how many sources it would leave. */
export function Chip({ word, count, pressed, onPress }: ChipProps) {
  return (
    <button type="button" className="st-chip" aria-pressed={pressed} onClick={onPress}>
      <span className="st-chip-word">{word}</span>
      <span className="st-chip-count">{count}</span>
    </button>
  )
}

/** So many are drawn; the rest is found by its first letters. */
const MOST_SHOWN = 60
/** From so many on there is a field to find one in. */
const MANY = 9

function Tags({ store, listed: { counts, filter } }: FilterPanelProps) {
  const [wanted, setWanted] = useState('')
  const all = useMemo(() => {
    const gone = filter.tags.filter((tag) => !counts.tags.has(tag)).map((tag) => [tag, 0] as const)
    return [...gone, ...[...counts.tags].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]))]
  }, [counts, filter.tags])
  const fitting = all.filter(([tag]) => foldText(tag).includes(foldText(wanted.trim())))
  const shown = fitting.slice(0, MOST_SHOWN)
  return (
    <Part title="Tags">
      {all.length >= MANY || wanted !== '' ? (
        <TextInput
          label="Find a tag"
          hidesLabel
          placeholder="Find a tag"
          value={wanted}
          onChange={({ target }) => setWanted(target.value)}
        />
      ) : null}
      {all.length === 0 ? <p className="st-list-hint">None of these sources has a tag yet.</p> : null}
      <div className="st-chips">
        {shown.map(([tag, count]) => (
          <Chip
            key={tag}
            word={tag}
            count={count}
            pressed={filter.tags.includes(tag)}
            onPress={() => changeFilter(store, { tags: toggled(filter.tags, tag) })}
          />
        ))}
      </div>
      {fitting.length > shown.length ? (
        <p className="st-list-hint">{`${fitting.length - shown.length} more. Type to find one.`}</p>
      ) : null}
      {all.length > 0 && fitting.length === 0 ? <p className="st-list-hint">No such tag.</p> : null}
    </Part>
  )
}

function Folders({ store, listed }: FilterPanelProps) {
  const workspace = useWorkspace()
  const { filter, tree, counts } = listed
  return (
    <Part title="Folders">
      <FolderTree
        label="Folders"
        tree={tree}
        counts={counts.folders}
        heldBy={(id) => heldBy(listed, id)}
        choosesMany={false}
        stateOf={(id) => filter.folder === id}
        onChoose={({ id }) => changeFilter(store, { folder: filter.folder === id ? null : id })}
        onDropSource={(folder, source) => {
          const chosen = idsOf(listed.chosen)
          void putIntoFolder(workspace, chosen.includes(source) ? chosen : [source], folder)
        }}
      />
    </Part>
  )
}

/** How many sources of the lab lie in a folder or below it. */
export function heldBy({ all, tree }: Listed, id: FolderId): number {
  const within = new Set(tree.downFrom(id))
  return all.filter(({ source }) => source.folders.some((one) => within.has(one))).length
}

function Kinds({ store, listed: { counts, filter } }: FilterPanelProps) {
  const kinds = sourceKinds.filter((kind) => counts.kinds.has(kind) || filter.kinds.includes(kind))
  const flags = sourceFlags.filter((flag) => counts.flags.has(flag) || filter.flags.includes(flag))
  return (
    <>
      <Part title="Kind">
        <div className="st-chips">
          {kinds.map((kind) => (
            <Chip
              key={kind}
              word={sourceKindFaces[kind].word}
              count={counts.kinds.get(kind) ?? 0}
              pressed={filter.kinds.includes(kind)}
              onPress={() => changeFilter(store, { kinds: toggled(filter.kinds, kind) })}
            />
          ))}
        </div>
      </Part>
      <Part title="Only those that are">
        {flags.length === 0 ? (
          <p className="st-list-hint">None is pinned, unused, without text, twice here or set aside.</p>
        ) : null}
        <div className="st-chips">
          {flags.map((flag) => (
            <Chip
              key={flag}
              word={flagWords[flag]}
              count={counts.flags.get(flag) ?? 0}
              pressed={filter.flags.includes(flag)}
              onPress={() => changeFilter(store, { flags: toggled(filter.flags, flag) })}
            />
          ))}
        </div>
      </Part>
    </>
  )
}

function Projects({ store, listed: { counts, filter } }: FilterPanelProps) {
  const projects = useWorkspaceState((state) => state.projects)
  const lines = [...projects.map(({ id, title }) => [id, title] as const), ['none', 'No project'] as const]
  const shown = lines.filter(([id]) => counts.projects.has(id) || filter.project === id)
  return (
    <Part title="Used in project">
      <div className="st-chips">
        {shown.map(([id, title]) => (
          <Chip
            key={id}
            word={title}
            count={counts.projects.get(id) ?? 0}
            pressed={filter.project === id}
            onPress={() => changeFilter(store, { project: filter.project === id ? null : id })}
          />
        ))}
      </div>
    </Part>
  )
}

function Days({ store, listed: { filter } }: FilterPanelProps) {
  const { from, to } = filter
  const isWrong = from !== null && to !== null && from > to
  return (
    <Part title="Added">
      <div className="st-sieve-days">
        <TextInput
          type="date"
          label="From"
          value={from ?? ''}
          onChange={({ target }) => changeFilter(store, { from: target.value || null })}
        />
        <TextInput
          type="date"
          label="Until"
          value={to ?? ''}
          error={isWrong ? 'This day is before the first one, so nothing is left.' : undefined}
          onChange={({ target }) => changeFilter(store, { to: target.value || null })}
        />
      </div>
    </Part>
  )
}
