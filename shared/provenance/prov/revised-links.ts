/**
 * States links that revise others: words that went to another text, or a loose link that was set again. In PROV a link is a
 * relation, and what is a relation can be no entity (PROV-CONSTRAINTS, constraint 54); so the record of such a link, and of each
 * that it revises, is an entity beside it, which came about and went by its own acts.
 */
import type { StoredChange } from '../../lab/change.ts'
import type { LinkId } from '../../lab/ids.ts'
import type { History, PastLink } from './history.ts'
import { named } from './model.ts'
import { nameOfId, nameOfRecord, term } from './names.ts'
import { type, type Statements } from './statements.ts'

/**
 * @param relations the links that the document states as relations
 * @param note told the Changes that are named
 */
export function stateRevisedLinks(
  history: History,
  relations: ReadonlySet<LinkId>,
  statements: Statements,
  note: (change: StoredChange) => void,
): void {
  for (const past of withEarlier(history, relations)) {
    const { link, made, gone } = past
    const name = nameOfRecord(link.id)
    note(made)
    statements.entity(name, [
      type(term('stillroom', 'Link')),
      relations.has(link.id) ? [term('stillroom', 'link'), named(nameOfId(link.id))] : undefined,
    ])
    statements.generated(name, made)
    if (gone) {
      note(gone)
      statements.invalidated(name, gone)
    }
    stateRevision(history, past, statements)
  }
}

/** A revision comes after what it revises; a record that says otherwise, as a foreign file may hold, is an influence. */
function stateRevision(history: History, { link, made, rank }: PastLink, statements: Statements): void {
  const before = link.revises && history.links.get(link.revises)
  if (!before) return
  const [name, earlier] = [nameOfRecord(link.id), nameOfRecord(before.link.id)]
  if (before.rank < rank) statements.derived(name, earlier, made, [type(term('prov', 'Revision'))])
  else statements.influenced(name, earlier)
}

/** Links that revise others, with all that they revise, also where those speak of texts that are not in the document. */
function withEarlier(history: History, relations: ReadonlySet<LinkId>): PastLink[] {
  const found = new Map<LinkId, PastLink>()
  for (const id of relations) {
    let past = history.links.get(id)
    if (!past?.link.revises) continue
    for (; past && !found.has(past.link.id); past = past.link.revises && history.links.get(past.link.revises))
      found.set(past.link.id, past)
  }
  return [...found.values()].sort((one, other) => one.rank - other.rank)
}
