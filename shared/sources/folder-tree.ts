/** Folders as the tree that they make. Whatever is stored, every folder stands in it exactly once. */
import type { FolderId } from '../lab/ids.ts'
import type { Folder } from '../lab/model.ts'

export interface FolderTree {
  /** Those within a folder (null: at the top), by name. */
  childrenOf(parent: FolderId | null): readonly Folder[]
  find(id: FolderId): Folder | undefined
  /** A folder and those that it lies in, the nearest first; empty for an id that is none of these. */
  upFrom(id: FolderId): readonly FolderId[]
  /** A folder and those within it at any depth, in the order in which they are shown. */
  downFrom(id: FolderId): readonly FolderId[]
  /** Names from the outermost folder to this one. */
  pathOf(id: FolderId): readonly string[]
}

/** One folder as a line of the tree that is shown. */
export interface FolderLine {
  readonly folder: Folder
  /** 1 at the top. */
  readonly level: number
  /** Its place among those beside it, from 1 on, and how many these are. */
  readonly place: number
  readonly siblings: number
  readonly hasChildren: boolean
}

const byName = new Intl.Collator('en', { numeric: true, sensitivity: 'base' })

/**
 * The tree of folders. One whose parent is not there stands at the top, and of a ring, which two windows can make by
 * moving folders at the same time, the first by id does.
 */
export function toFolderTree(folders: Iterable<Folder>): FolderTree {
  const all = new Map([...folders].map((folder) => [folder.id, folder]))
  const parents = standingParents(all)
  const children = new Map<FolderId | null, Folder[]>()
  for (const folder of all.values()) {
    const parent = parents.get(folder.id)!
    const beside = children.get(parent)
    if (beside) beside.push(folder)
    else children.set(parent, [folder])
  }
  for (const beside of children.values())
    beside.sort((a, b) => byName.compare(a.name, b.name) || (a.id < b.id ? -1 : 1))
  const childrenOf = (parent: FolderId | null): readonly Folder[] => children.get(parent) ?? []
  const upFrom = (id: FolderId): readonly FolderId[] => {
    const up: FolderId[] = []
    for (let at: FolderId | null = all.has(id) ? id : null; at !== null; at = parents.get(at) ?? null)
      up.push(at)
    return up
  }
  const downFrom = (id: FolderId): readonly FolderId[] =>
    all.has(id) ? [id, ...childrenOf(id).flatMap((child) => downFrom(child.id))] : []
  return {
    childrenOf,
    find: (id) => all.get(id),
    upFrom,
    downFrom,
    pathOf: (id) => [...upFrom(id)].reverse().map((one) => all.get(one)!.name),
  }
}

/** For each folder the one that it stands in. */
function standingParents(all: ReadonlyMap<FolderId, Folder>): Map<FolderId, FolderId | null> {
  const parents = new Map<FolderId, FolderId | null>()
  for (const { id, parent } of all.values())
    parents.set(id, parent !== null && all.has(parent) ? parent : null)
  for (const id of [...all.keys()].sort()) if (liesInItself(id, parents)) parents.set(id, null)
  return parents
}

function liesInItself(id: FolderId, parents: ReadonlyMap<FolderId, FolderId | null>): boolean {
  const seen = new Set<FolderId>()
  let at = parents.get(id) ?? null
  while (at !== null && at !== id && !seen.has(at)) {
    seen.add(at)
    at = parents.get(at) ?? null
  }
  return at === id
}

/** The lines of a tree that are shown, from the top on. @param isOpen whether a folder shows those within it */
export function linesOf(tree: FolderTree, isOpen: (id: FolderId) => boolean): FolderLine[] {
  const linesIn = (parent: FolderId | null, level: number): FolderLine[] => {
    const beside = tree.childrenOf(parent)
    return beside.flatMap((folder, at) => {
      const hasChildren = tree.childrenOf(folder.id).length > 0
      const line = { folder, level, place: at + 1, siblings: beside.length, hasChildren }
      return [line, ...(hasChildren && isOpen(folder.id) ? linesIn(folder.id, level + 1) : [])]
    })
  }
  return linesIn(null, 1)
}
