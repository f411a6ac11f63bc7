/** The folders of the lab as a tree to choose in (WAI-ARIA APG: tree view), where they are made, named, moved and removed too. */
import { useId, useLayoutEffect, useRef, useState, type DragEvent, type KeyboardEvent } from 'react'
import type { FolderId, SourceId } from '../../../../shared/lab/ids.ts'
import type { Folder } from '../../../../shared/lab/model.ts'
import { linesOf, type FolderLine, type FolderTree as Tree } from '../../../../shared/sources/folder-tree.ts'
import { bringsFragment, takeFragment } from '../../../editor/fragments.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, Menu, MenuAt, type Box, type MenuLine } from '../../../ui/index.ts'
import {
  AddIcon,
  AmendIcon,
  ChosenIcon,
  ClosedIcon,
  FolderIcon,
  FolderOpenIcon,
  MoreIcon,
  NotChosenIcon,
  OpenIcon,
  RemoveIcon,
} from '../../../ui/icons.tsx'
import { nextPlace, placeOfTyped } from '../../../ui/roving.ts'
import { dropFolder, moveFolder, removalWords } from './folderActs.ts'
import { FolderName, type Naming } from './FolderName.tsx'

/** A folder on its way in a drag. */
const FOLDER_TYPE = 'application/x-stillroom-folder'

export interface FolderTreeProps {
  readonly label: string
  readonly tree: Tree
  /** How many sources each would show; nothing for none. */
  readonly counts: ReadonlyMap<FolderId, number>
  /** Sources in it and below, of the whole lab: what is said before it is removed. */
  readonly heldBy: (id: FolderId) => number
  /** Whether a folder is chosen. With `mixed` several can be: each shows a box. */
  readonly stateOf: (id: FolderId) => boolean | 'mixed'
  readonly choosesMany: boolean
  readonly onChoose: (folder: Folder) => void
  /** A source was dropped on a folder. */
  readonly onDropSource?: (folder: Folder, source: SourceId) => void
  /** A folder was made here. */
  readonly onMade?: (folder: Folder) => void
}

export function FolderTree(props: FolderTreeProps) {
  const { label, tree, stateOf, choosesMany, onChoose } = props
  const workspace = useWorkspace()
  const box = useRef<HTMLDivElement>(null)
  const [closed, setClosed] = useState<ReadonlySet<FolderId>>(new Set())
  const [current, setCurrent] = useState<FolderId | null>(null)
  const [naming, setNaming] = useState<Naming | null>(null)
  const [removing, setRemoving] = useState<Folder | null>(null)
  const [moving, setMoving] = useState<{ readonly folder: Folder; readonly at: Box } | null>(null)
  const lines = linesOf(tree, (id) => !closed.has(id))
  const at = Math.max(
    0,
    lines.findIndex(({ folder }) => folder.id === current),
  )
  const focus = useItemFocus(box, lines)
  const setOpen = (id: FolderId, isOpen: boolean): void => {
    const next = new Set(closed)
    if (isOpen) next.delete(id)
    else next.add(id)
    setClosed(next)
  }
  const go = (line: FolderLine | undefined): void => {
    if (!line) return
    setCurrent(line.folder.id)
    focus(line.folder.id)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    const line = lines[at]
    if (!(event.target as Element).matches('[role="treeitem"]') || !line) return
    if (event.ctrlKey || event.metaKey || event.altKey) return
    if (!takeKey(event, line)) return
    event.preventDefault()
    event.stopPropagation()
  }
  /** @returns whether the key means something in the tree */
  const takeKey = ({ key }: KeyboardEvent, line: FolderLine): boolean => {
    const { folder, hasChildren } = line
    const isOpen = hasChildren && !closed.has(folder.id)
    if (key === 'Enter' || key === ' ') onChoose(folder)
    else if (key === 'ArrowRight' && isOpen) go(lines[at + 1])
    else if (key === 'ArrowRight') setOpen(folder.id, true)
    else if (key === 'ArrowLeft' && isOpen) setOpen(folder.id, false)
    else if (key === 'ArrowLeft') go(lines.find((one) => one.folder.id === tree.upFrom(folder.id)[1]))
    else if (key === 'F2') setNaming({ kind: 'rename', folder })
    else if (key === 'Delete') setRemoving(folder)
    else {
      const next = nextPlace(key, at, lines.length, 'vertical') ?? (key.length === 1 ? typed(key) : null)
      if (next === null) return false
      go(lines[next])
    }
    return true
  }
  const typed = (key: string): number | null =>
    placeOfTyped(
      key,
      lines.map(({ folder }) => folder.name),
      at,
    )
  const actsOn = (folder: Folder, opener: () => Box): MenuLine[] => [
    { kind: 'heading', id: 'name', word: folder.name },
    {
      id: 'new',
      word: 'New folder in it…',
      icon: AddIcon,
      onChoose: () => {
        setOpen(folder.id, true)
        setNaming({ kind: 'new', parent: folder.id })
      },
    },
    {
      id: 'rename',
      word: 'Rename…',
      icon: AmendIcon,
      hint: 'F2',
      onChoose: () => setNaming({ kind: 'rename', folder }),
    },
    {
      id: 'move',
      word: 'Move…',
      icon: FolderIcon,
      onChoose: () => setMoving({ folder, at: opener() }),
    },
    {
      id: 'remove',
      word: 'Remove…',
      icon: RemoveIcon,
      hint: 'Delete',
      onChoose: () => setRemoving(folder),
    },
  ]
  const endNaming = (folder: Folder | null): void => {
    if (folder && naming?.kind === 'new') props.onMade?.(folder)
    setNaming(null)
    const back = folder?.id ?? (naming?.kind === 'rename' ? naming.folder.id : null)
    if (back) {
      setCurrent(back)
      focus(back)
    } else box.current?.parentElement?.querySelector<HTMLElement>('[data-new-folder]')?.focus()
  }
  const isNaming = (parent: FolderId | null): boolean => naming?.kind === 'new' && naming.parent === parent
  return (
    <div className="st-folders">
      {lines.length > 0 ? (
        <div
          ref={box}
          role="tree"
          aria-label={label}
          aria-multiselectable={choosesMany || undefined}
          className="st-folder-tree"
          onKeyDown={onKeyDown}
        >
          {lines.map((line, place) =>
            naming?.kind === 'rename' && naming.folder.id === line.folder.id ? (
              <FolderName
                key={line.folder.id}
                naming={naming}
                tree={tree}
                level={line.level}
                onEnd={endNaming}
              />
            ) : (
              <Item
                key={line.folder.id}
                line={line}
                isOpen={!closed.has(line.folder.id)}
                isCurrent={place === at}
                state={stateOf(line.folder.id)}
                {...props}
                acts={actsOn}
                onFocus={() => setCurrent(line.folder.id)}
                onToggle={() => setOpen(line.folder.id, closed.has(line.folder.id))}
                onDropFolder={(id) => {
                  const folder = tree.find(id)
                  if (folder) void moveFolder(workspace, folder, line.folder, tree)
                }}
              />
            ),
          )}
        </div>
      ) : (
        <p className="st-list-hint">No folder yet. A source can lie in any number of them.</p>
      )}
      {naming?.kind === 'new' ? (
        <FolderName naming={naming} tree={tree} level={1} onEnd={endNaming} />
      ) : removing && tree.find(removing.id) ? (
        <Removing
          words={removalWords(tree, removing, props.heldBy(removing.id))}
          onRemove={() => void dropFolder(workspace, removing).then(() => setRemoving(null))}
          onLeave={() => {
            setRemoving(null)
            focus(removing.id)
          }}
        />
      ) : (
        <Button
          look="quiet"
          className="st-folder-new"
          icon={AddIcon}
          data-new-folder
          aria-expanded={isNaming(null)}
          onClick={() => setNaming({ kind: 'new', parent: null })}
        >
          New folder
        </Button>
      )}
      {moving ? (
        <MenuAt
          label={`Where “${moving.folder.name}” goes`}
          lines={placesFor(
            moving.folder,
            tree,
            (into) => void moveFolder(workspace, moving.folder, into, tree),
          )}
          at={moving.at}
          onClose={() => setMoving(null)}
        />
      ) : null}
    </div>
  )
}

/** Moves the focus to an item once it is drawn. */
function useItemFocus(box: { readonly current: HTMLElement | null }, lines: readonly FolderLine[]) {
  const wanted = useRef<FolderId | null>(null)
  const settle = (): void => {
    const item =
      wanted.current && box.current?.querySelector<HTMLElement>(`[data-folder="${wanted.current}"]`)
    if (!item) return
    wanted.current = null
    item.focus()
  }
  useLayoutEffect(settle, [lines, box])
  return (id: FolderId): void => {
    wanted.current = id
    settle()
  }
}

function placesFor(folder: Folder, tree: Tree, onChoose: (into: Folder | null) => void): MenuLine[] {
  const within = new Set(tree.downFrom(folder.id))
  const here = 'It lies there already.'
  return [
    { kind: 'heading', id: 'heading', word: `Move “${folder.name}”` },
    {
      id: 'top',
      word: 'To the top',
      disabledBecause: tree.upFrom(folder.id).length === 1 ? here : undefined,
      onChoose: () => onChoose(null),
    },
    ...linesOf(tree, () => true).map(({ folder: into }): MenuLine => {
      const isWithin = within.has(into.id)
      return {
        id: into.id,
        word: tree.pathOf(into.id).join(' / '),
        icon: FolderIcon,
        disabledBecause: isWithin
          ? 'A folder cannot lie within itself.'
          : folder.parent === into.id
            ? here
            : undefined,
        onChoose: () => onChoose(into),
      }
    }),
  ]
}

interface ItemProps extends FolderTreeProps {
  readonly line: FolderLine
  readonly isOpen: boolean
  readonly isCurrent: boolean
  readonly state: boolean | 'mixed'
  readonly acts: (folder: Folder, opener: () => Box) => MenuLine[]
  readonly onFocus: () => void
  readonly onToggle: () => void
  readonly onDropFolder: (id: FolderId) => void
}

function Item(props: ItemProps) {
  const { line, isOpen, isCurrent, state, counts, choosesMany, onChoose, onFocus, onToggle } = props
  const { folder, level, place, siblings, hasChildren } = line
  const count = counts.get(folder.id) ?? 0
  const more = useRef<HTMLSpanElement>(null)
  const { isOver, listeners } = useFolderDrops(props)
  const Picture = hasChildren && isOpen ? FolderOpenIcon : FolderIcon
  const classes = ['st-folder', state === true ? 'st-folder--chosen' : '', isOver ? 'st-landing--over' : '']
  return (
    <div
      role="treeitem"
      data-folder={folder.id}
      aria-level={level}
      aria-posinset={place}
      aria-setsize={siblings}
      aria-expanded={hasChildren ? isOpen : undefined}
      aria-checked={choosesMany ? state : undefined}
      aria-selected={choosesMany ? undefined : state === true}
      tabIndex={isCurrent ? 0 : -1}
      className={classes.filter((name) => name !== '').join(' ')}
      style={{ paddingInlineStart: `${Math.min(level - 1, 12) * 0.9}rem` }}
      draggable
      onDragStart={(event) => {
        event.stopPropagation()
        event.dataTransfer.setData(FOLDER_TYPE, folder.id)
        event.dataTransfer.effectAllowed = 'move'
      }}
      onFocus={onFocus}
      onClick={() => onChoose(folder)}
      {...listeners}
    >
      <span
        className="st-folder-turn"
        aria-hidden="true"
        onClick={(event) => {
          if (!hasChildren) return
          event.stopPropagation()
          onToggle()
        }}
      >
        {!hasChildren ? null : isOpen ? <OpenIcon size="0.8rem" /> : <ClosedIcon size="0.8rem" />}
      </span>
      {choosesMany ? <Check state={state} /> : <Picture />}
      {/* The name of the line is what stands in it, with a space between name and count. */}
      <span className="st-folder-name">{folder.name}</span> <span className="st-chip-count">{count}</span>
      <span ref={more} onClick={(event) => event.stopPropagation()}>
        <Menu
          label={`Folder “${folder.name}”`}
          lines={props.acts(folder, () => more.current!.getBoundingClientRect())}
          trigger={(attributes) => (
            <button
              {...attributes}
              type="button"
              className="st-folder-more"
              tabIndex={isCurrent ? 0 : -1}
              aria-label={`More for the folder “${folder.name}”`}
            >
              <MoreIcon />
            </button>
          )}
        />
      </span>
    </div>
  )
}

export function Check({ state }: { readonly state: boolean | 'mixed' }) {
  if (state === 'mixed') return <span className="st-check-some" aria-hidden="true" />
  return state ? <ChosenIcon /> : <NotChosenIcon />
}

/** A source or a folder that is dragged over a folder, and what becomes of it there. */
function useFolderDrops({ line: { folder }, onDropSource, onDropFolder }: ItemProps) {
  const [isOver, setOver] = useState(false)
  const brings = (transfer: DataTransfer): 'source' | 'folder' | null => {
    if (transfer.types.includes(FOLDER_TYPE)) return 'folder'
    return bringsFragment(transfer) && onDropSource ? 'source' : null
  }
  return {
    isOver,
    listeners: {
      onDragOver: (event: DragEvent) => {
        const what = brings(event.dataTransfer)
        if (!what) return
        event.preventDefault()
        event.stopPropagation()
        event.dataTransfer.dropEffect = what === 'folder' ? 'move' : 'copy'
        setOver(true)
      },
      onDragLeave: () => setOver(false),
      onDrop: (event: DragEvent) => {
        setOver(false)
        const what = brings(event.dataTransfer)
        if (!what) return
        event.preventDefault()
        event.stopPropagation()
        const node = what === 'source' ? takeFragment(event.dataTransfer)?.node : null
        if (what === 'folder') onDropFolder(event.dataTransfer.getData(FOLDER_TYPE) as FolderId)
        else if (node?.kind === 'source') onDropSource?.(folder, node.id)
      },
    },
  }
}

interface RemovingProps {
  readonly words: string
  readonly onRemove: () => void
  readonly onLeave: () => void
}

function Removing({ words, onRemove, onLeave }: RemovingProps) {
  const id = useId()
  return (
    <div
      role="group"
      aria-labelledby={id}
      className="st-folder-asked"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        event.preventDefault()
        event.stopPropagation()
        onLeave()
      }}
    >
      <p id={id}>{words}</p>
      <div className="st-button-row">
        <Button autoFocus onClick={onLeave}>
          Leave it
        </Button>
        <Button onClick={onRemove}>Remove the folder</Button>
      </div>
    </div>
  )
}
