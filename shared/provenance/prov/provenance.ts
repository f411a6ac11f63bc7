/**
 * The provenance of a procedure, a project or a whole lab as a PROV document: things and their revisions are entities, acts are
 * activities, and links are derivations. Valid by PROV-CONSTRAINTS (W3C Recommendation, 30 April 2013): whatever is said to
 * come before stands before in the order of the Changes, so no circle can arise.
 */
import type { StoredChange } from '../../lab/change.ts'
import type { LabId } from '../../lab/ids.ts'
import type { LinkState } from '../../lab/model.ts'
import { History } from './history.ts'
import { LinkStater } from './links.ts'
import { number, text, type ProvDocument } from './model.ts'
import { nameOfId, nameOfPerson, prefixesOf, SOFTWARE, term, type Name } from './names.ts'
import { thingsInScope, type Scope } from './scope.ts'
import { Statements, type } from './statements.ts'
import { PastTexts } from './texts.ts'
import { ThingStater } from './things.ts'

/** What a document is made of. */
export interface ProvenanceRecords {
  readonly lab: LabId
  /** All of the lab, in the order of their numbers. */
  readonly changes: readonly StoredChange[]
  readonly linkStates: readonly LinkState[]
  /** The texts of captures by their ids. */
  readonly captures: ReadonlyMap<string, string>
}

/** @returns a document that states nothing where what is asked for never was in the lab */
export function provenanceOf(records: ProvenanceRecords, scope: Scope): ProvDocument {
  const history = new History(records.changes)
  const inScope = thingsInScope(history, scope)
  const texts = new PastTexts(history, records.captures)
  const states = new Map<string, LinkState>(records.linkStates.map((state) => [state.link, state]))
  const statements = new Statements()
  const noted = new Set<StoredChange>()
  const note = (change: StoredChange): void => void noted.add(change)
  if (scope.kind === 'lab') records.changes.forEach(note)
  new ThingStater(history, inScope, texts, statements, note).stateAll()
  new LinkStater(history, texts, states, statements, note).stateAll(inScope)
  stateActs(
    [...noted].sort((a, b) => a.sequence - b.sequence),
    history,
    statements,
  )
  return { prefixes: prefixesOf(records.lab), statements: statements.inOrder() }
}

/** Acts, who did them, and what took what back. */
function stateActs(changes: readonly StoredChange[], history: History, statements: Statements): void {
  const people = new People(statements)
  const done = new Set(changes)
  for (const change of changes) {
    const { who, act, at, sequence, reverses } = change
    const name = nameOfId(change.id)
    statements.activity(name, at, [
      type(term('stillroom', act)),
      [term('prov', 'label'), text(act)],
      [term('stillroom', 'sequence'), number(sequence)],
    ])
    statements.associated(name, people.nameOf(who))
    const reversed = reverses === null ? undefined : history.changes.get(reverses)
    if (reversed && done.has(reversed)) statements.informed(change, reversed)
  }
  if (changes.length === 0) return
  statements.agent(SOFTWARE, [
    type(term('prov', 'SoftwareAgent')),
    [term('prov', 'label'), text('Stillroom')],
  ])
  for (const person of people.all()) statements.delegated(SOFTWARE, person)
}

/** Those who acted. Who gave no name is one agent without one. */
class People {
  private readonly known = new Map<string, Name>()

  constructor(private readonly statements: Statements) {}

  nameOf(who: string | null): Name {
    const key = who ?? ''
    const known = this.known.get(key)
    if (known) return known
    const name = nameOfPerson(key === '' ? 0 : this.known.size + (this.known.has('') ? 0 : 1))
    this.known.set(key, name)
    const label = key === '' ? undefined : ([term('prov', 'label'), text(key)] as const)
    this.statements.agent(name, [type(term('prov', 'Person')), label])
    return name
  }

  all(): Name[] {
    return [...this.known.values()]
  }
}
