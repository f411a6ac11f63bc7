/** Taking one folder for projects away, where those within it stay. */
import type { Change } from './change.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Folder, Project } from './model.ts'

/**
 * Takes one folder away; the folders and projects in it go up by one level.
 * @param all the folders for projects
 */
export function dissolveFolder(
  around: Surroundings,
  folder: Folder,
  all: readonly Folder[],
  projects: readonly Project[],
): Change {
  const { id, parent } = folder
  return makeChange(around, 'remove a folder', [
    ...all.filter((one) => one.parent === id).map((one) => put('folders', { ...one, parent }, one)),
    ...projects
      .filter((one) => one.folder === id)
      .map((one) => put('projects', { ...one, folder: parent }, one)),
    { op: 'remove', table: 'folders', before: folder },
  ])
}
