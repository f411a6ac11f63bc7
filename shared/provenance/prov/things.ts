/** States what there is: things, their revisions, who made and unmade them, and what holds them. */
import type { StoredChange } from '../../lab/change.ts'
import type { ProcedureId } from '../../lab/ids.ts'
import type { History, PastMark, PastStrike, Thing, ThingKind, ThingRevision } from './history.ts'
import { named, number, text, type Value } from './model.ts'
import { nameOfId, term, type Name } from './names.ts'
import { ownersOf, recordOf } from './scope.ts'
import { type, type Facts, type Statements } from './statements.ts'
import type { PastTexts } from './texts.ts'

/** Kinds of things that hold others: collections in PROV-DM. */
const holders: ReadonlySet<ThingKind> = new Set(['project', 'procedure', 'step', 'version'])

/** States the things in scope and notes the Changes that they name. */
export class ThingStater {
  constructor(
    private readonly history: History,
    private readonly inScope: ReadonlySet<string>,
    private readonly texts: PastTexts,
    private readonly statements: Statements,
    private readonly note: (change: StoredChange) => void,
  ) {}

  stateAll(): void {
    for (const thing of this.history.things.values()) if (this.inScope.has(thing.id)) this.state(thing)
    for (const past of this.history.marks) if (this.inScope.has(past.mark.entry)) this.stateMark(past)
    for (const past of this.history.strikes) if (this.inScope.has(past.strike.node.id)) this.stateStrike(past)
  }

  private state(thing: Thing): void {
    const { statements } = this
    const name = nameOfId(thing.id)
    statements.entity(name, factsOf(thing, this.titleOf(thing)))
    // A source was there before the lab knew of it: what came about is what is known of it, and what was read of it.
    if (thing.kind !== 'source') {
      this.note(thing.added)
      statements.generated(name, thing.added)
      if (thing.gone) this.invalidate(name, thing.gone)
    }
    thing.revisions.forEach((revision, i) => this.stateRevision(thing, name, revision, i))
    const last = thing.revisions.at(-1)
    if (last && thing.gone) this.invalidate(last.name, thing.gone)
    for (const change of thing.touched) {
      this.note(change)
      statements.influenced(name, nameOfId(change.id))
    }
    this.stateHolder(thing, name)
    if (thing.kind === 'source') this.stateMerge(thing, name)
    if (thing.kind === 'version') this.stateVersion(thing, name)
  }

  private stateRevision(thing: Thing, name: Name, { name: own, change }: ThingRevision, i: number): void {
    const { statements } = this
    this.note(change)
    statements.entity(own, [
      type(term('stillroom', 'Revision')),
      [term('stillroom', 'number'), number(i + 1)],
    ])
    statements.specialized(own, name)
    statements.generated(own, change)
    const before = thing.revisions[i - 1]
    if (before) statements.derived(own, before.name, change, [type(term('prov', 'Revision'))])
  }

  private invalidate(name: Name, change: StoredChange): void {
    this.note(change)
    this.statements.invalidated(name, change)
  }

  private stateHolder(thing: Thing, name: Name): void {
    if (thing.kind === 'source')
      for (const project of recordOf(thing, 'sources').projects)
        if (this.inScope.has(project)) this.statements.member(nameOfId(project), name)
    const [holder] = ownersOf(thing)
    if (holder === undefined || !this.inScope.has(holder)) return
    if (thing.kind === 'capture' || thing.kind === 'version')
      this.statements.specialized(name, nameOfId(holder))
    else this.statements.member(nameOfId(holder), name)
  }

  private stateMerge(thing: Thing, name: Name): void {
    const { mergedInto } = recordOf(thing, 'sources')
    if (mergedInto && this.inScope.has(mergedInto)) this.statements.alternate(name, nameOfId(mergedInto))
  }

  /** A version holds the revisions that it names, and revises the version before. */
  private stateVersion(thing: Thing, name: Name): void {
    const version = recordOf(thing, 'versions')
    for (const { revision } of version.parts)
      if (this.history.revisions.has(revision)) this.statements.member(name, nameOfId(revision))
    const before = this.versionsOf(version.procedure)
      .filter((other) => other.rank < thing.rank && recordOf(other, 'versions').number < version.number)
      .at(-1)
    if (before)
      this.statements.derived(name, nameOfId(before.id), thing.added, [type(term('prov', 'Revision'))])
  }

  private versionsOf(procedure: ProcedureId): Thing[] {
    return [...this.history.things.values()].filter(
      (thing) => thing.kind === 'version' && recordOf(thing, 'versions').procedure === procedure,
    )
  }

  /** The text of a procedure's part `title` as it was last; empty for what is no procedure. */
  private titleOf({ kind, id }: Thing): string {
    if (kind !== 'procedure') return ''
    for (const thing of this.history.things.values()) {
      if (thing.kind !== 'part') continue
      const part = recordOf(thing, 'parts')
      if (part.procedure === id && part.kind === 'title') return this.texts.lastOf(part.id)
    }
    return ''
  }

  /** What was set on an entry later: the entry as it is with that set. */
  private stateMark({ mark, change }: PastMark): void {
    const name = nameOfId(mark.id)
    this.note(change)
    this.statements.entity(name, [
      type(term('stillroom', 'Mark')),
      [term('stillroom', 'sets'), text(mark.says.kind)],
    ])
    this.statements.specialized(name, nameOfId(mark.entry))
    this.statements.generated(name, change)
  }

  /** Where a text was struck out, and how often; what it was is nowhere. */
  private stateStrike({ strike, change }: PastStrike): void {
    this.note(change)
    this.statements.influenced(nameOfId(strike.node.id), nameOfId(change.id), [
      type(term('stillroom', 'StrikeOut')),
      [term('stillroom', 'records'), number(strike.records)],
    ])
  }
}

function factsOf(thing: Thing, title: string): Facts {
  const { kind } = thing
  const own = type(term('stillroom', kind[0]!.toUpperCase() + kind.slice(1)))
  return [own, ...(holders.has(kind) ? [type(term('prov', 'Collection'))] : []), ...saidOf(thing, title)]
}

/** What is said of a thing itself. Texts are not: they stand in the lab, and what of them was carried stands with its link. */
function saidOf(thing: Thing, title: string): Facts {
  switch (thing.kind) {
    case 'project':
      return [label(recordOf(thing, 'projects').title)]
    case 'machine':
      return [label(recordOf(thing, 'machines').name)]
    case 'parameter':
      return [label(recordOf(thing, 'parameters').name)]
    case 'source': {
      const { title: own, address, author, dated } = recordOf(thing, 'sources')
      return [
        label(own),
        address === null ? undefined : [term('dcterms', 'source'), { kind: 'address', address }],
        said('creator', author),
        said('date', dated),
      ]
    }
    case 'capture': {
      const { sha256 } = recordOf(thing, 'captures')
      return [[term('stillroom', 'sha256'), text(sha256)]]
    }
    case 'entry': {
      const { kind, moment } = recordOf(thing, 'entries')
      return [label(`${kind}, ${moment}`), kindOf(kind)]
    }
    case 'procedure':
      return [label(title)]
    case 'step':
      return [kindOf(recordOf(thing, 'steps').level)]
    case 'part':
      return [kindOf(recordOf(thing, 'parts').kind)]
    case 'version': {
      const { number: count, line } = recordOf(thing, 'versions')
      const words = `Version ${count}${line === '' ? '' : `: ${line}`}`
      return [type(term('prov', 'Plan')), label(words), [term('stillroom', 'number'), number(count)]]
    }
    case 'remark':
      return []
  }
}

const label = (words: string): readonly [Name, Value] | undefined =>
  words === '' ? undefined : [term('prov', 'label'), text(words)]
const said = (word: string, words: string | null): readonly [Name, Value] | undefined =>
  words === null ? undefined : [term('dcterms', word), text(words)]
const kindOf = (word: string): readonly [Name, Value] => [
  term('stillroom', 'kind'),
  named(term('stillroom', word)),
]
