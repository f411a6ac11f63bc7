/** What is done with folders. */
import { addFolder, changeFolder, removeFolder } from '../../../../shared/lab/acts.ts'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import type { Folder } from '../../../../shared/lab/model.ts'
import type { FolderTree } from '../../../../shared/sources/folder-tree.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { commitAndSay, inTurn } from './acts.ts'
import { countWords } from './words.ts'

const foldersNow = ({ state }: Workspace): readonly Folder[] => [
  ...(state.labSources?.folders.values() ?? []),
]

/** A name for a folder as it is kept: one line without white space around it. */
export const toFolderName = (typed: string): string => typed.normalize('NFC').replace(/\s+/gu, ' ').trim()

/** Why a folder cannot have this name at this place; null where it can. @param own the folder itself, when it stands */
export function findNameTrouble(
  tree: FolderTree,
  name: string,
  parent: FolderId | null,
  own: FolderId | null,
): string | null {
  if (toFolderName(name) === '') return 'A folder needs a name.'
  const isTaken = tree
    .childrenOf(parent)
    .some((folder) => folder.id !== own && folder.name === toFolderName(name))
  return isTaken ? `There is a folder “${toFolderName(name)}” here already. Take another name.` : null
}

/** @returns the new folder; null where it was not made, which is said */
export function makeFolder(
  workspace: Workspace,
  name: string,
  parent: FolderId | null,
): Promise<Folder | null> {
  return inTurn(workspace, async () => {
    const { folder, change } = addFolder(workspace.requireLab().surroundings, toFolderName(name), parent)
    return (await commitAndSay(workspace, change, `Folder “${folder.name}” made.`)) ? folder : null
  })
}

export function renameFolder(workspace: Workspace, folder: Folder, typed: string): Promise<boolean> {
  const name = toFolderName(typed)
  if (name === folder.name) return Promise.resolve(true)
  return changeAndSay(workspace, folder, { name }, `“${folder.name}” is called “${name}” now.`)
}

/** Moves a folder with all in it. @param into null for the top */
export function moveFolder(
  workspace: Workspace,
  folder: Folder,
  into: Folder | null,
  tree: FolderTree,
): Promise<boolean> {
  const parent = into?.id ?? null
  if (folder.parent === parent) return Promise.resolve(false)
  const trouble = findNameTrouble(tree, folder.name, parent, folder.id)
  if (trouble) {
    workspace.say('notice', `“${folder.name}” was not moved. ${trouble}`)
    return Promise.resolve(false)
  }
  const where = into ? `lies in “${into.name}” now` : 'lies at the top now'
  return changeAndSay(workspace, folder, { parent }, `“${folder.name}” ${where}.`)
}

function changeAndSay(
  workspace: Workspace,
  { id }: Folder,
  fields: Partial<Pick<Folder, 'name' | 'parent'>>,
  words: string,
): Promise<boolean> {
  return inTurn(workspace, async () => {
    const all = foldersNow(workspace)
    const folder = all.find((one) => one.id === id)
    if (!folder) return false
    const change = changeFolder(workspace.requireLab().surroundings, folder, fields, all)
    if (change) return commitAndSay(workspace, change, words)
    workspace.say(
      'notice',
      `“${folder.name}” was not moved: it cannot lie in a folder that lies in it. Everything is as it was.`,
    )
    return false
  })
}

/** What becomes of a folder's content when it is removed, in a sentence. @param held sources in it and below */
export function removalWords(tree: FolderTree, folder: Folder, held: number): string {
  const below = tree.downFrom(folder.id).length - 1
  const going = below === 0 ? `“${folder.name}”` : `“${folder.name}” and the ${below} in it`
  const staying =
    held === 0
      ? 'No source lies in it.'
      : `The ${countWords(held)} in it ${held === 1 ? 'stays' : 'stay'} in the lab and in other folders.`
  return `Remove ${going}? ${staying}`
}

export function dropFolder(workspace: Workspace, { id, name }: Folder): Promise<boolean> {
  return inTurn(workspace, async () => {
    const all = foldersNow(workspace)
    const folder = all.find((one) => one.id === id)
    if (!folder) return false
    const sources = [...(workspace.state.labSources?.sources.values() ?? [])]
    const change = removeFolder(workspace.requireLab().surroundings, folder, all, sources)
    return commitAndSay(workspace, change, `Folder “${name}” removed. Its sources stay in the lab.`)
  })
}
