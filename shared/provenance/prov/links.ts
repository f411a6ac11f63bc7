/**
 * States the links. Each is a derivation from the revision of its older end to that of its newer one, under its own id, of the
 * kind that it had when it was made; and once more, of the kind that it has now, for the revision that stands now. The
 * stretches that it carried are entities with the selectors of the Web Annotation Data Model, and the link is an annotation
 * (§3.1) whose body is the newer end and whose target is the older one.
 */
import type { LinkId } from '../../lab/ids.ts'
import type { Link, LinkEnd, LinkState, LinkType } from '../../lab/model.ts'
import { typeWhenMade } from '../linkState.ts'
import { makeSelector } from '../selectors.ts'
import type { History, PastLink, Thing, ThingRevision } from './history.ts'
import { named, text, type Value } from './model.ts'
import { nameOfFragment, nameOfId, term, type Name } from './names.ts'
import { stateRevisedLinks } from './revised-links.ts'
import { toExported, type ExportedSelectors } from './selectors.ts'
import { type, type Facts, type Statements } from './statements.ts'
import type { PastTexts } from './texts.ts'

/** What each link type is in PROV: a type of derivation, or an influence. A run that follows its version will be an association with a plan. */
const derivationTypes = {
  quotes: 'Quotation',
  derives: null,
  cites: 'PrimarySource',
  revises: 'Revision',
} as const satisfies Partial<Record<LinkType, string | null>>

/** One end of a link as an entity that the document states. */
interface EndEntity {
  readonly name: Name
  /** Null for the thing as a whole. */
  readonly revision: ThingRevision | null
  /** -1 for a source, which was there before. */
  readonly rank: number
}

export class LinkStater {
  constructor(
    private readonly history: History,
    private readonly texts: PastTexts,
    private readonly states: ReadonlyMap<string, LinkState>,
    private readonly statements: Statements,
    private readonly note: (change: PastLink['made']) => void,
  ) {}

  /** @param inScope ids of things; what a thing in scope came from is in scope too */
  stateAll(inScope: ReadonlySet<string>): void {
    const stated = new Set<LinkId>()
    for (const past of this.history.links.values())
      if (inScope.has(past.link.newer.node.id) && this.state(past)) stated.add(past.link.id)
    stateRevisedLinks(this.history, stated, this.statements, this.note)
  }

  /** @returns whether it could be stated */
  private state(past: PastLink): boolean {
    const { link, made } = past
    const [newer, older] = [this.endOf(link.newer), this.endOf(link.older)]
    // Whatever is named must be stated.
    if (!newer || !older) return false
    this.note(made)
    const kind = typeWhenMade(link)
    const fragments = {
      newer: this.stateFragments(link, 'newer', newer.name),
      older: this.stateFragments(link, 'older', older.name),
    }
    const facts = [...factsOf(link, kind), ...annotation(fragments.newer, fragments.older)]
    const isOfThisAct = newer.revision?.change === made
    this.relate(kind, newer, older, isOfThisAct ? made : null, facts, nameOfId(link.id))
    if (older.rank < 0 || older.revision?.change !== made) this.statements.used(made, older.name)
    if (past.gone === null) this.statePresent(link, older, fragments.older)
    return true
  }

  /**
   * Derivations make events strictly ordered, so one is stated only where the older end was there first. Where words were
   * linked to what was recorded after them, the influence is stated, with the link's type as it is.
   */
  private relate(
    kind: LinkType,
    newer: EndEntity,
    older: EndEntity,
    change: PastLink['made'] | null,
    facts: Facts,
    id: Name | null,
  ): void {
    if (kind === 'answers' || kind === 'follows' || older.rank >= newer.rank)
      return this.statements.influenced(newer.name, older.name, facts, id)
    const derivation = derivationTypes[kind]
    const own = derivation === null ? [] : [type(term('prov', derivation))]
    this.statements.derived(newer.name, older.name, change, [...own, ...facts], id)
  }

  /** What holds now of a revision that came after the link. */
  private statePresent(link: Link, older: EndEntity, target: readonly Name[]): void {
    const state = this.states.get(link.id)
    const thing = this.history.things.get(link.newer.node.id)
    const last = thing?.revisions.at(-1)
    if (!state || state.loose || !thing || thing.gone || !last) return
    if (link.newer.ranges.length === 0 || last.name === this.endOf(link.newer)?.name) return
    const now = this.texts.lastOf(thing.id)
    const body = state.newer.places.flatMap((place, i) => {
      if (place === null || place.start >= place.end || place.end > now.length) return []
      const name = nameOfFragment(link.id, 'present', i + 1)
      this.stateFragment(name, last.name, toExported(makeSelector(now, place), now))
      return [name]
    })
    const standing = { name: last.name, revision: last, rank: last.rank }
    const facts = [
      [term('stillroom', 'link'), named(nameOfId(link.id))] as const,
      ...annotation(body, target),
    ]
    this.relate(state.type, standing, older, null, facts, null)
  }

  private endOf({ node, revision }: LinkEnd): EndEntity | null {
    const known = revision === null ? undefined : this.history.revisions.get(revision)
    if (known) return { name: known.revision.name, revision: known.revision, rank: known.revision.rank }
    const thing: Thing | undefined = this.history.things.get(node.id)
    if (!thing) return null
    return { name: nameOfId(thing.id), revision: null, rank: thing.kind === 'source' ? -1 : thing.rank }
  }

  private stateFragments(link: Link, side: 'newer' | 'older', of: Name): Name[] {
    const { node, revision, ranges } = link[side]
    const then = ranges.length === 0 ? null : this.texts.at(node, revision)
    return ranges.map((selector, i) => {
      const name = nameOfFragment(link.id, side, i + 1)
      // A text that is too short is not the one that the selector speaks of.
      const fits = then !== null && selector.position.end <= then.length
      this.stateFragment(name, of, toExported(selector, fits ? then : null))
      return name
    })
  }

  private stateFragment(name: Name, of: Name, { quote, position }: ExportedSelectors): void {
    const count = (value: number): Value => ({ kind: 'number', number: value, type: 'nonNegativeInteger' })
    this.statements.entity(name, [
      type(term('oa', 'SpecificResource')),
      [term('prov', 'value'), text(quote.exact)],
      [term('oa', 'hasSource'), named(of)],
      [term('oa', 'exact'), text(quote.exact)],
      [term('oa', 'prefix'), text(quote.prefix)],
      [term('oa', 'suffix'), text(quote.suffix)],
      position ? [term('oa', 'start'), count(position.start)] : undefined,
      position ? [term('oa', 'end'), count(position.end)] : undefined,
    ])
  }
}

function factsOf(link: Link, kind: LinkType): Facts {
  return [
    [term('stillroom', 'linkType'), named(term('stillroom', kind))],
    [term('stillroom', 'way'), text(link.way)],
  ]
}

/** The link as an annotation of what it carried; nothing where it carried no words. */
function annotation(body: readonly Name[], target: readonly Name[]): Facts {
  if (body.length === 0 || target.length === 0) return []
  return [
    type(term('oa', 'Annotation')),
    [term('oa', 'motivatedBy'), named(term('oa', 'linking'))],
    ...body.map((name) => [term('oa', 'hasBody'), named(name)] as const),
    ...target.map((name) => [term('oa', 'hasTarget'), named(name)] as const),
  ]
}
