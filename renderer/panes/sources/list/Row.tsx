/** One source in the list. */
import { memo, useState, type KeyboardEvent, type MouseEvent, type Ref } from 'react'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { Button, Menu, sourceKindFaces } from '../../../ui/index.ts'
import {
  ChosenIcon,
  DragHandleIcon,
  FolderIcon,
  MergeIcon,
  NotChosenIcon,
  PinIcon,
} from '../../../ui/icons.tsx'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import { TagField } from '../../tagging/index.ts'
import { draggingOf } from '../carryingSource.ts'
import { shortAddress, titleOf } from '../rows.ts'
import { SourceFields } from '../SourceFields.tsx'
import { FolderChoice } from './FolderChoice.tsx'
import { changeFilter, closeRow, openRow, type ListStore, type RowPart } from './listState.ts'
import { rowLines } from './rowMenu.ts'
import type { Listed } from './useListed.ts'
import { factsWords, sameWords, whereWords } from './words.ts'

export interface RowProps {
  readonly row: SourceFacts
  readonly store: ListStore
  readonly listed: Listed
  readonly place: number
  /** Its controls are in reach of Tab. */
  readonly isCurrent: boolean
  /** It was read last. */
  readonly isLast: boolean
  readonly isChoosing: boolean
  readonly isChosen: boolean
  readonly opened: RowPart | null
  readonly index: number
  readonly start: number
  readonly measure: Ref<HTMLLIElement>
  readonly onFocus: () => void
  readonly onPress: (event: MouseEvent) => void
  readonly onRowKey: (event: KeyboardEvent) => void
}

export function Row(props: RowProps) {
  const { row, store, listed, place, isCurrent, isLast, isChoosing, isChosen, opened } = props
  const workspace = useWorkspace()
  const { source } = row
  const classes = [
    'st-source',
    isLast && !isChoosing ? 'st-source--chosen' : '',
    isChosen ? 'st-source--picked' : '',
    source.setAside ? 'st-source--aside' : '',
  ]
  return (
    <li
      ref={props.measure}
      className={classes.filter((name) => name !== '').join(' ')}
      data-node={source.id}
      data-index={props.index}
      aria-posinset={place}
      aria-setsize={listed.shown.length}
      style={{ transform: `translateY(${props.start}px)` }}
      onFocus={props.onFocus}
      onKeyDown={props.onRowKey}
      {...(opened ? {} : draggingOf(workspace, source))}
    >
      {opened === 'fields' ? (
        <SourceFields source={source} onClose={() => closeRow(store, source.id)} />
      ) : (
        <>
          <Open {...props} />
          <Handle row={row} store={store} isCurrent={isCurrent} />
          <More row={row} store={store} listed={listed} isCurrent={isCurrent} />
          {opened ? <Opened part={opened} row={row} store={store} listed={listed} /> : null}
        </>
      )}
    </li>
  )
}

function Open({ row, listed, isCurrent, isLast, isChoosing, isChosen, onPress }: RowProps) {
  const open = useWorkspaceState((state) => state.view?.project)
  const projects = useWorkspaceState((state) => state.projects)
  const { source } = row
  const { icon: Kind } = sourceKindFaces[source.kind]
  const Picture = !isChoosing ? Kind : isChosen ? ChosenIcon : NotChosenIcon
  const where = listed.filter.scope === 'lab' ? whereWords(row, open, projects) : null
  return (
    <button
      type="button"
      className="st-source-open"
      tabIndex={isCurrent ? 0 : -1}
      aria-current={(isLast && !isChoosing) || undefined}
      aria-pressed={isChoosing ? isChosen : undefined}
      aria-keyshortcuts="Alt+C Alt+T Space Enter"
      onClick={onPress}
    >
      <Picture />
      <span className="st-source-title">
        {source.pinned ? (
          <>
            <PinIcon className="st-source-pin" weight="fill" />
            <span className="st-unseen">Pinned: </span>
          </>
        ) : null}
        {titleOf(source)}
      </span>
      {source.address === null ? null : (
        <span className="st-source-address">{shortAddress(source.address)}</span>
      )}
      <span className="st-source-facts">{factsWords(row)}</span>
      {where === null ? null : <span className="st-source-facts st-source-where">{where}</span>}
    </button>
  )
}

interface PartProps {
  readonly row: SourceFacts
  readonly store: ListStore
  readonly isCurrent: boolean
}

/** Not drawn anew while the list is scrolled. */
const Handle = memo(function Handle({ row, store, isCurrent }: PartProps) {
  const workspace = useWorkspace()
  const isUsedHere = useWorkspaceState(
    (state) => state.view !== null && row.source.projects.includes(state.view.project),
  )
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const title = titleOf(row.source)
  return (
    <Menu
      label={`“${title}”`}
      lines={rowLines(workspace, row, {
        title,
        isUsedHere,
        merged: row.merged.flatMap((id) => sources?.get(id) ?? []),
        open: (part) => openRow(store, row.source.id, part),
      })}
      trigger={(attributes) => (
        <button
          {...attributes}
          type="button"
          className="st-handle"
          tabIndex={isCurrent ? 0 : -1}
          aria-label={`Carry or change “${title}”`}
        >
          <DragHandleIcon />
        </button>
      )}
    />
  )
})

/** So many tags stand in a row; the rest is told by its number. */
const MOST_TAGS = 5

interface MoreProps extends PartProps {
  readonly listed: Listed
}

/** Tags and folders to narrow the list to, and what it is the same as. */
const More = memo(function More({ row, store, listed, isCurrent }: MoreProps) {
  const [showsPaths, setShowsPaths] = useState(false)
  const { source } = row
  const { filter, tree } = listed
  const group = listed.same.get(source.id)
  const folders = source.folders.filter((id) => tree.find(id))
  const tags = source.tags.slice(0, MOST_TAGS)
  const rest = source.tags.length - tags.length
  const tabIndex = isCurrent ? 0 : -1
  if (tags.length + folders.length === 0 && !group) return null
  return (
    <div className="st-source-more">
      {tags.map((tag) => (
        <button
          key={tag}
          type="button"
          className="st-chip st-chip--small"
          tabIndex={tabIndex}
          aria-label={`${tag}: show only sources with this tag`}
          onClick={() => {
            if (!filter.tags.includes(tag)) changeFilter(store, { tags: [...filter.tags, tag] })
          }}
        >
          <span className="st-chip-word">{tag}</span>
        </button>
      ))}
      {rest > 0 ? (
        <button
          type="button"
          className="st-chip st-chip--small"
          tabIndex={tabIndex}
          aria-label={`+${rest} more tags`}
          onClick={() => openRow(store, source.id, 'tags')}
        >
          +{rest}
        </button>
      ) : null}
      {folders.length > 0 ? (
        <button
          type="button"
          className="st-chip st-chip--small st-chip--folder"
          tabIndex={tabIndex}
          aria-expanded={showsPaths}
          onClick={() => setShowsPaths(!showsPaths)}
        >
          <FolderIcon />
          {folders.length === 1 ? tree.find(folders[0]!)!.name : `${folders.length} folders`}
        </button>
      ) : null}
      {group ? (
        <button
          type="button"
          className="st-chip st-chip--small st-chip--same"
          tabIndex={tabIndex}
          onClick={() => store.setState({ merging: group.members.map((one) => one.source.id) })}
        >
          <MergeIcon />
          <span className="st-chip-word">{sameWords(row, group)}</span>
        </button>
      ) : null}
      {showsPaths ? <Paths folders={folders} listed={listed} store={store} tabIndex={tabIndex} /> : null}
    </div>
  )
})

interface PathsProps {
  readonly folders: readonly FolderId[]
  readonly listed: Listed
  readonly store: ListStore
  readonly tabIndex: number
}

function Paths({ folders, listed, store, tabIndex }: PathsProps) {
  return (
    <ul className="st-source-paths" aria-label="Folders that it lies in">
      {folders.map((id) => {
        const path = listed.tree.pathOf(id).join(' / ')
        return (
          <li key={id}>
            <button
              type="button"
              className="st-source-path"
              tabIndex={tabIndex}
              aria-label={`${path}: show only sources in this folder`}
              onClick={() => changeFilter(store, { folder: id })}
            >
              <FolderIcon />
              {path}
            </button>
          </li>
        )
      })}
    </ul>
  )
}

interface OpenedProps {
  readonly part: Exclude<RowPart, 'fields'>
  readonly row: SourceFacts
  readonly store: ListStore
  readonly listed: Listed
}

function Opened({ part, row, store, listed }: OpenedProps) {
  const { source } = row
  const close = (): void => closeRow(store, source.id)
  return (
    <div className="st-source-part">
      {part === 'tags' ? (
        <TagField thing={{ kind: 'source', record: source }} autoFocus onClose={close} />
      ) : (
        <>
          <FolderChoice rows={[row]} listed={listed} onClose={close} />
          <div className="st-button-row">
            <Button look="quiet" keys="Escape" onClick={close}>
              Done
            </Button>
          </div>
        </>
      )}
    </div>
  )
}
