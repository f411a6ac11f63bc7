/** What is done with the folders for projects, each with its undo. All are made of the folders as they stand. */
import { addFolder, changeFolder, changeProject, foldersBelow } from '../../shared/lab/acts.ts'
import type { Change } from '../../shared/lab/change.ts'
import type { FolderId } from '../../shared/lab/ids.ts'
import type { Folder, Project } from '../../shared/lab/model.ts'
import { dissolveFolder } from '../../shared/lab/project-folder-acts.ts'
import { offerUndo } from '../store/gestures.ts'
import type { Workspace } from '../store/workspace.ts'

/** A name as it is kept: one line without white space around it. A slash parts the names of a path, so none may stand in one. */
export const toFolderName = (typed: string): string => typed.normalize('NFC').replace(/\s+/gu, ' ').trim()

/** Why a folder cannot have this name at this place; null where it can. @param own the folder itself, when it stands */
export function findFolderNameTrouble(
  all: readonly Folder[],
  typed: string,
  parent: FolderId | null,
  own: FolderId | null,
): string | null {
  const name = toFolderName(typed)
  if (name === '') return 'A folder needs a name.'
  if (name.includes('/'))
    return 'A slash parts folders that lie in one another. Take a name without, and make a folder in a folder.'
  const isTaken = all.some((one) => one.id !== own && one.parent === parent && one.name === name)
  return isTaken ? `There is a folder “${name}” here already. Take another name.` : null
}

/** The folders that a folder may be moved into: none that is it, that lies in it, or that it lies in already. */
export function folderTargets(folder: Folder, all: readonly Folder[]): Folder[] {
  const below = foldersBelow(folder.id, all)
  return all.filter(({ id }) => id !== folder.id && id !== folder.parent && !below.includes(id))
}

async function commitAndSay(workspace: Workspace, change: Change, words: string): Promise<boolean> {
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, words, change.id)
  return true
}

const present = ({ state }: Workspace, { id }: Folder): Folder | undefined =>
  state.projectFolders.find((one) => one.id === id)

export function makeFolder(workspace: Workspace, typed: string, parent: FolderId | null): Promise<boolean> {
  const { surroundings } = workspace.requireLab()
  const { folder, change } = addFolder(surroundings, toFolderName(typed), parent, 'projects')
  return commitAndSay(workspace, change, `Folder “${folder.name}” made.`)
}

export async function renameFolder(workspace: Workspace, { id }: Folder, typed: string): Promise<boolean> {
  const all = workspace.state.projectFolders
  const folder = all.find((one) => one.id === id)
  const name = toFolderName(typed)
  if (!folder || folder.name === name) return folder !== undefined
  const change = changeFolder(workspace.requireLab().surroundings, folder, { name }, all)
  return change !== null && commitAndSay(workspace, change, `“${folder.name}” is called “${name}” now.`)
}

/** Moves a folder with all in it. @param into null for the top. @returns whether it was moved; why not is said */
export async function moveFolder(
  workspace: Workspace,
  { id }: Folder,
  into: Folder | null,
): Promise<boolean> {
  const all = workspace.state.projectFolders
  const folder = all.find((one) => one.id === id)
  if (!folder) return false
  const parent = into?.id ?? null
  const trouble = findFolderNameTrouble(all, folder.name, parent, id)
  const change = changeFolder(workspace.requireLab().surroundings, folder, { parent }, all)
  if (change && !trouble) return commitAndSay(workspace, change, `“${folder.name}” ${whereWords(into)}.`)
  const why = trouble ?? 'It cannot lie in a folder that lies in it.'
  workspace.say('notice', `“${folder.name}” was not moved. ${why}`)
  return false
}

/** Takes a folder away; what lies in it goes up by one level. @returns whether it went; why not is said */
export async function removeFolder(workspace: Workspace, gone: Folder): Promise<boolean> {
  const { projectFolders: all, projects } = workspace.state
  const folder = present(workspace, gone)
  if (!folder) return false
  const clash = all.find(
    (one) => one.parent === folder.id && findFolderNameTrouble(all, one.name, folder.parent, folder.id),
  )
  if (clash) {
    workspace.say(
      'notice',
      `“${folder.name}” was not removed: where “${clash.name}” in it would go, there is a folder of that name. Rename one of them first.`,
    )
    return false
  }
  const change = dissolveFolder(workspace.requireLab().surroundings, folder, all, projects)
  const where = folder.parent === null ? 'at the top' : 'in the folder above'
  return commitAndSay(workspace, change, `Folder “${folder.name}” removed. What lay in it is ${where} now.`)
}

export async function moveProject(
  workspace: Workspace,
  { id }: Project,
  into: Folder | null,
): Promise<boolean> {
  const project = workspace.state.projects.find((one) => one.id === id)
  const folder = into?.id ?? null
  if (!project || project.folder === folder) return false
  const change = changeProject(workspace.requireLab().surroundings, project, { folder })
  return commitAndSay(workspace, change, `“${project.title}” ${whereWords(into)}.`)
}

const whereWords = (into: Folder | null): string =>
  into ? `lies in “${into.name}” now` : 'lies at the top now'
