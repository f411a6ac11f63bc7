/** Tags as a person gives, takes off, accepts and refuses them: calls on the workspace, one after the other. */
import { changeTags, judgeTag, tagsOf, type Tagged } from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { Workspace, WorkspaceState } from '../../store/workspace.ts'
import type { SuggestedTag } from '../../workers/tags.ts'

const last = new WeakMap<Workspace, Promise<unknown>>()

/** Makes a Change of the thing as it stands once all that came before is done: two quick acts never undo each other. */
function actOn(
  workspace: Workspace,
  thing: Tagged,
  toChange: (now: Tagged) => Change | null,
): Promise<boolean> {
  const act = (last.get(workspace) ?? Promise.resolve()).then(() => {
    const change = toChange(asItStands(workspace.state, thing))
    return change ? workspace.commit(change) : true
  })
  last.set(
    workspace,
    act.catch(() => undefined),
  )
  return act
}

/** A thing as the window knows it now, where that is newer than what was given. */
export function asItStands(
  state: Pick<WorkspaceState, 'labSources' | 'projects' | 'view'>,
  thing: Tagged,
): Tagged {
  switch (thing.kind) {
    case 'source': {
      const record = state.labSources?.sources.get(thing.record.id)
      return record ? { ...thing, record } : thing
    }
    case 'project': {
      const record = state.projects.find(({ id }) => id === thing.record.id)
      return record ? { ...thing, record } : thing
    }
    case 'entry': {
      const { id } = thing.record
      const tags = state.view?.entries.has(id) ? state.view.entryTags.get(id) : thing.tags
      // Never none, so that what another window has set meanwhile stays.
      return { ...thing, tags: tags ?? { entry: id, tags: [] } }
    }
  }
}

/** Gives a thing further tags. Those that it has already stay as they are. */
export function addTags(workspace: Workspace, thing: Tagged, tags: readonly string[]): Promise<boolean> {
  return actOn(workspace, thing, (now) => {
    const has = tagsOf(now)
    const fresh = [...new Set(tags)].filter((tag) => !has.includes(tag))
    return fresh.length === 0
      ? null
      : changeTags(workspace.requireLab().surroundings, now, [...has, ...fresh])
  })
}

export function removeTag(workspace: Workspace, thing: Tagged, tag: string): Promise<boolean> {
  return actOn(workspace, thing, (now) => {
    const left = tagsOf(now).filter((one) => one !== tag)
    return left.length === tagsOf(now).length
      ? null
      : changeTags(workspace.requireLab().surroundings, now, left)
  })
}

/** Takes a suggested tag or refuses it; either is remembered. */
export function judgeSuggestion(
  workspace: Workspace,
  thing: Tagged,
  { tag, chance }: Pick<SuggestedTag, 'tag' | 'chance'>,
  isAccepted: boolean,
): Promise<boolean> {
  return actOn(workspace, thing, (now) =>
    judgeTag(workspace.requireLab().surroundings, now, tag, isAccepted, chance),
  )
}
