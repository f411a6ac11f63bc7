/** What is done with one source or many from the list. Each is one Change with one undo, made of the sources as they stand. */
import {
  changeSources,
  mergeSources,
  separateSource,
  type SourceFields,
} from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import type { Folder, Source } from '../../../../shared/lab/model.ts'
import { offerUndo } from '../../../store/gestures.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { titleOf } from '../rows.ts'
import { countWords } from './words.ts'

const last = new WeakMap<Workspace, Promise<unknown>>()

/** One act after the other, so that two quick ones never undo each other. */
export function inTurn<T>(workspace: Workspace, act: () => Promise<T>): Promise<T> {
  const done = (last.get(workspace) ?? Promise.resolve()).then(act)
  last.set(
    workspace,
    done.catch(() => undefined),
  )
  return done
}

/** Commits a Change, says what was done and offers to take it back. */
export async function commitAndSay(workspace: Workspace, change: Change, words: string): Promise<boolean> {
  if (!(await workspace.commit(change))) return false
  offerUndo(workspace, words, change.id)
  return true
}

/** Changes those of some sources that need it. @param wordsOf says what was done with so many, or with the one */
function changeMany(
  workspace: Workspace,
  ids: readonly SourceId[],
  fieldsOf: (source: Source) => SourceFields | null,
  wordsOf: (which: string) => string,
): Promise<boolean> {
  return inTurn(workspace, async () => {
    const known = workspace.state.labSources?.sources
    const sources = ids.flatMap((id) => known?.get(id) ?? []).filter((source) => fieldsOf(source) !== null)
    const [first, ...more] = sources
    if (!first) return false
    const change = changeSources(workspace.requireLab().surroundings, sources, fieldsOf)
    const which = more.length === 0 ? `“${titleOf(first)}”` : countWords(sources.length)
    return commitAndSay(workspace, change, wordsOf(which))
  })
}

export function tagSources(workspace: Workspace, ids: readonly SourceId[], tag: string): Promise<boolean> {
  const fieldsOf = ({ tags }: Source) => (tags.includes(tag) ? null : { tags: [...tags, tag] })
  return changeMany(workspace, ids, fieldsOf, (which) => `${which} tagged “${tag}”.`)
}

export function untagSources(workspace: Workspace, ids: readonly SourceId[], tag: string): Promise<boolean> {
  const fieldsOf = ({ tags }: Source) =>
    tags.includes(tag) ? { tags: tags.filter((one) => one !== tag) } : null
  return changeMany(workspace, ids, fieldsOf, (which) => `The tag “${tag}” was taken off ${which}.`)
}

export function putIntoFolder(
  workspace: Workspace,
  ids: readonly SourceId[],
  folder: Folder,
): Promise<boolean> {
  const fieldsOf = ({ folders }: Source) =>
    folders.includes(folder.id) ? null : { folders: [...folders, folder.id] }
  return changeMany(workspace, ids, fieldsOf, (which) => `${which} put into the folder “${folder.name}”.`)
}

export function takeOutOfFolder(
  workspace: Workspace,
  ids: readonly SourceId[],
  folder: Folder,
): Promise<boolean> {
  const fieldsOf = ({ folders }: Source) =>
    folders.includes(folder.id) ? { folders: folders.filter((id) => id !== folder.id) } : null
  return changeMany(workspace, ids, fieldsOf, (which) => `${which} taken out of the folder “${folder.name}”.`)
}

export function setAside(workspace: Workspace, ids: readonly SourceId[], isAside: boolean): Promise<boolean> {
  const fieldsOf = (source: Source) => (source.setAside === isAside ? null : { setAside: isAside })
  const words = isAside ? 'set aside. The filter “Set aside” shows what is' : 'brought back into the list'
  return changeMany(workspace, ids, fieldsOf, (which) => `${which} ${words}.`)
}

export function setPinned(
  workspace: Workspace,
  ids: readonly SourceId[],
  isPinned: boolean,
): Promise<boolean> {
  const fieldsOf = (source: Source) => (source.pinned === isPinned ? null : { pinned: isPinned })
  return changeMany(workspace, ids, fieldsOf, (which) =>
    isPinned ? `${which} pinned to the head of the list.` : `The pin was taken off ${which}.`,
  )
}

/** Takes sources into the open project or out of it. They stay in the lab, and so do their links. */
export function setUsedHere(
  workspace: Workspace,
  ids: readonly SourceId[],
  isUsed: boolean,
): Promise<boolean> {
  const { project } = workspace.requireView()
  const fieldsOf = ({ projects }: Source) => {
    if (projects.includes(project) === isUsed) return null
    return { projects: isUsed ? [...projects, project] : projects.filter((id) => id !== project) }
  }
  return changeMany(workspace, ids, fieldsOf, (which) =>
    isUsed
      ? `${which} taken into this project.`
      : `${which} taken out of this project, but not out of the lab.`,
  )
}

/** Makes several sources one: `kept`. */
export function merge(workspace: Workspace, ids: readonly SourceId[], kept: SourceId): Promise<boolean> {
  return inTurn(workspace, async () => {
    const known = workspace.state.labSources?.sources
    const keeping = known?.get(kept)
    const others = ids.filter((id) => id !== kept).flatMap((id) => known?.get(id) ?? [])
    if (!known || !keeping || others.length === 0) return false
    const change = mergeSources(workspace.requireLab().surroundings, keeping, others, [...known.values()])
    const words = `${countWords(others.length + 1)} are one now: “${titleOf(keeping)}”. All links hold.`
    return commitAndSay(workspace, change, words)
  })
}

/** Takes a source out of the one that it was merged into. */
export function separate(workspace: Workspace, id: SourceId): Promise<boolean> {
  return inTurn(workspace, async () => {
    const known = workspace.state.labSources?.sources
    const source = known?.get(id)
    if (!known || !source || source.mergedInto === null) return false
    const from = known.get(source.mergedInto)
    const words = `“${titleOf(source)}” stands by itself again.${from ? ` What the merge added to “${titleOf(from)}” stays there.` : ''}`
    return commitAndSay(workspace, separateSource(workspace.requireLab().surroundings, source), words)
  })
}
