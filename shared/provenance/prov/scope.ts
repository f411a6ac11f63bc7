/** Which things a document speaks of: what belongs to the procedure, project or lab, and all that it came from. */
import type { Id, ProcedureId, ProjectId } from '../../lab/ids.ts'
import type { Tables } from '../../lab/change.ts'
import type { History, Thing } from './history.ts'

export type Scope =
  | { readonly kind: 'lab' }
  | { readonly kind: 'project'; readonly id: ProjectId }
  | { readonly kind: 'procedure'; readonly id: ProcedureId }

/** The ids of the things in scope. Empty where what is asked for never was in the lab. */
export function thingsInScope(history: History, scope: Scope): ReadonlySet<string> {
  const all = [...history.things.values()]
  if (scope.kind === 'lab') return new Set(all.map(({ id }) => id))
  const own = new Set<string>(history.things.has(scope.id) ? [scope.id] : [])
  // Owners stand before what they own in every order of adding, but for sources, which may join a project later.
  for (const thing of all) if (isOwned(thing, own, scope)) own.add(thing.id)
  return withOrigins(history, own)
}

function isOwned(thing: Thing, own: ReadonlySet<string>, scope: Scope): boolean {
  if (thing.kind === 'source')
    return scope.kind === 'project' && recordOf(thing, 'sources').projects.includes(scope.id)
  return ownersOf(thing).some((owner) => own.has(owner))
}

/** Adds what the things came from, along the links, with whatever holds it. */
function withOrigins(history: History, own: ReadonlySet<string>): Set<string> {
  const older = new Map<string, string[]>()
  for (const { link } of history.links.values()) {
    const known = older.get(link.newer.node.id)
    if (known) known.push(link.older.node.id)
    else older.set(link.newer.node.id, [link.older.node.id])
  }
  const found = new Set<string>()
  const open = [...own]
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const thing = history.things.get(id)
    if (!thing || found.has(id)) continue
    found.add(id)
    open.push(...(older.get(id) ?? []), ...ownersOf(thing))
  }
  return found
}

/** The things that a thing is a part of, nearest first. A source belongs to any number of projects and is held by none. */
export function ownersOf(thing: Thing): readonly Id<string>[] {
  switch (thing.kind) {
    case 'entry':
      return [recordOf(thing, 'entries').project]
    case 'capture':
      return [recordOf(thing, 'captures').source]
    case 'procedure':
      return [recordOf(thing, 'procedures').project]
    case 'step':
    case 'parameter':
    case 'version':
      return [recordOf(thing, 'steps').procedure]
    case 'part': {
      const { step, procedure } = recordOf(thing, 'parts')
      return step ? [step, procedure] : [procedure]
    }
    case 'remark': {
      const { step, procedure } = recordOf(thing, 'remarks')
      return [step, procedure]
    }
    case 'project':
    case 'machine':
    case 'source':
      return []
  }
}

/** A thing's record as one of its table. The caller has looked at the kind. */
export function recordOf<T extends keyof Tables>(thing: Thing, _table: T): Tables[T] {
  return thing.record as unknown as Tables[T]
}
