/** Folders: nested. A source lies in any number of those for sources, a project in one of those for projects at most. */
import type { Change, Operation } from './change.ts'
import type { FolderId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Folder, Project, Source } from './model.ts'

/** @param parent of the same sort */
export function addFolder(
  around: Surroundings,
  name: string,
  parent: FolderId | null,
  holds: Folder['holds'] = 'sources',
) {
  const folder: Folder = { id: around.ids.make(), name, parent, holds }
  return { folder, change: makeChange(around, 'add a folder', [put('folders', folder)]) }
}

/**
 * Another name or another place for a folder.
 * @param all every folder of the lab
 * @returns null where the folder would come to lie within itself
 */
export function changeFolder(
  around: Surroundings,
  folder: Folder,
  fields: Partial<Pick<Folder, 'name' | 'parent'>>,
  all: readonly Folder[],
): Change | null {
  const { parent } = { ...folder, ...fields }
  if (parent !== null && [parent, ...foldersAbove(parent, all)].includes(folder.id)) return null
  return makeChange(around, 'change a folder', [put('folders', { ...folder, ...fields }, folder)])
}

/** Takes a folder away with those in it. The sources and projects in them stay in the lab. */
export function removeFolder(
  around: Surroundings,
  folder: Folder,
  all: readonly Folder[],
  sources: readonly Source[],
  projects: readonly Project[] = [],
): Change {
  const going = [folder.id, ...foldersBelow(folder.id, all)]
  const isGoing = new Set(going)
  const emptied = sources.filter((source) => source.folders.some((id) => isGoing.has(id)))
  return makeChange(around, 'remove a folder', [
    ...emptied.map((source) =>
      put('sources', { ...source, folders: source.folders.filter((id) => !isGoing.has(id)) }, source),
    ),
    ...projects
      .filter(({ folder: id }) => id !== null && isGoing.has(id))
      .map((project) => put('projects', { ...project, folder: null }, project)),
    // The innermost first, since a folder that another one lies in cannot go.
    ...going
      .reverse()
      .map((id) => ({ op: 'remove', table: 'folders', before: all.find((one) => one.id === id)! }) as const),
  ])
}

/** Ids of the folders that a folder lies in, the nearest first. Ends where two windows have made a ring. */
export function foldersAbove(id: FolderId, all: readonly Folder[]): FolderId[] {
  const parents = new Map(all.map((folder) => [folder.id, folder.parent]))
  const above: FolderId[] = []
  for (let at = parents.get(id) ?? null; at !== null && !above.includes(at); at = parents.get(at) ?? null)
    above.push(at)
  return above
}

/** Ids of the folders within a folder, at any depth; each behind the one that it lies in. */
export function foldersBelow(id: FolderId, all: readonly Folder[]): FolderId[] {
  const below = new Set<FolderId>([id])
  for (const at of below) for (const { id: child, parent } of all) if (parent === at) below.add(child)
  below.delete(id)
  return [...below]
}

/** The names of the folders that lead to a folder, its own last; empty for none. */
export function pathOfFolder(id: FolderId | null, all: readonly Folder[]): string[] {
  if (id === null) return []
  const names = new Map(all.map((folder) => [folder.id, folder.name]))
  return [id, ...foldersAbove(id, all)].reverse().flatMap((one) => names.get(one) ?? [])
}

/**
 * The operations that put a project into the folder at the end of a path of names, making those that are missing and
 * taking away those that nothing lies in any more.
 * @param fields further fields of the project to set
 * @param all the folders for projects
 */
export function fileProject(
  around: Surroundings,
  project: Project,
  fields: Partial<Pick<Project, 'title' | 'aim' | 'status'>>,
  path: readonly string[],
  all: readonly Folder[],
  projects: readonly Project[],
): Change {
  const finder = new FolderFinder(around, all, 'projects')
  const folder = finder.ensure(path)
  const next = { ...project, ...fields, folder }
  const left = foldersLeft(project.folder, folder, [...all, ...finder.made], projects, project)
  return makeChange(around, 'change a project', [
    ...finder.operations,
    put('projects', next, project),
    ...left.map((before) => ({ op: 'remove', table: 'folders', before }) as const),
  ])
}

/** The folders that nothing lies in once a project leaves them, the innermost first. */
function foldersLeft(
  from: FolderId | null,
  to: FolderId | null,
  all: readonly Folder[],
  projects: readonly Project[],
  leaving: Project,
): Folder[] {
  if (from === null || from === to) return []
  const stays = new Set([to, ...(to ? foldersAbove(to, all) : [])])
  const left: Folder[] = []
  for (const id of [from, ...foldersAbove(from, all)]) {
    const holdsFolder = all.some((one) => one.parent === id && !left.includes(one))
    const holdsProject = projects.some((one) => one.folder === id && one.id !== leaving.id)
    const folder = all.find((one) => one.id === id)
    if (!folder || holdsFolder || holdsProject || stays.has(id)) break
    left.push(folder)
  }
  return left
}

/** Finds folders by the names that lead to them, and says how those that are missing are made. One for one Change. */
export class FolderFinder {
  readonly operations: Operation[] = []
  /** Those that were missing. */
  readonly made: Folder[] = []
  private readonly known = new Map<string, FolderId>()

  constructor(
    private readonly around: Surroundings,
    all: readonly Folder[],
    private readonly holds: Folder['holds'] = 'sources',
  ) {
    for (const folder of all.filter((one) => one.holds === holds))
      this.known.set(keyOf(folder.parent, folder.name), folder.id)
  }

  /** The folder at the end of a path of names, the outermost first; null for an empty path. */
  ensure(path: readonly string[]): FolderId | null {
    return path.reduce<FolderId | null>((parent, name) => this.ensureIn(parent, name), null)
  }

  private ensureIn(parent: FolderId | null, name: string): FolderId {
    const key = keyOf(parent, name)
    const known = this.known.get(key)
    if (known) return known
    const folder: Folder = { id: this.around.ids.make(), name, parent, holds: this.holds }
    this.made.push(folder)
    this.operations.push(put('folders', folder))
    this.known.set(key, folder.id)
    return folder.id
  }
}

const keyOf = (parent: FolderId | null, name: string): string => `${parent ?? ''}/${name}`
