/**
 * Constraints 30 to 49 of PROV-CONSTRAINTS: which events precede which. There is no order of all events that fits where
 * events in a circle precede each other and one of them does so strictly.
 */
import type { Relation } from './document.ts'
import { groupBy, type Fact, type Facts } from './facts.ts'
import type { Term } from './terms.ts'

/** That one event does not come after another; strictly: that it comes before. */
export interface Precedence {
  readonly from: Term
  readonly to: Term
  readonly isStrict: boolean
  readonly constraint: number
}

/** All precedences between the events of facts that are complete (unique.ts, infer.ts). */
export function precedencesOf(facts: Facts): Precedence[] {
  const all: Precedence[] = []
  const { terms } = facts
  const rule = (constraint: number, from: readonly Fact[], to: readonly Fact[], isStrict = false): void => {
    for (const one of from)
      for (const other of to)
        if (isStrict || !terms.isSame(one.id, other.id))
          all.push({ from: terms.find(one.id), to: terms.find(other.id), isStrict, constraint })
  }
  const by = (relation: Relation, place: number): ((term: Term) => readonly Fact[]) => {
    const groups = groupBy(facts.of(relation), ({ args }) => terms.find(args[place]!))
    return (term) => groups.get(terms.find(term)) ?? []
  }
  const startsOf = by('wasStartedBy', 0)
  const endsOf = by('wasEndedBy', 0)
  const generationsOf = by('wasGeneratedBy', 0)
  const invalidationsOf = by('wasInvalidatedBy', 0)

  for (const start of facts.of('wasStartedBy')) {
    const [activity, trigger] = start.args as [Term, Term]
    rule(30, [start], endsOf(activity))
    rule(31, [start], startsOf(activity))
    rule(43, generationsOf(trigger), [start])
    rule(43, [start], invalidationsOf(trigger))
  }
  for (const end of facts.of('wasEndedBy')) {
    const [activity, trigger] = end.args as [Term, Term]
    rule(32, [end], endsOf(activity))
    rule(44, generationsOf(trigger), [end])
    rule(44, [end], invalidationsOf(trigger))
  }
  for (const use of facts.of('used')) {
    const [activity, entity] = use.args as [Term, Term]
    rule(33, startsOf(activity), [use])
    rule(33, [use], endsOf(activity))
    rule(37, generationsOf(entity), [use])
    rule(38, [use], invalidationsOf(entity))
  }
  for (const generation of facts.of('wasGeneratedBy')) {
    const [entity, activity] = generation.args as [Term, Term]
    rule(34, startsOf(activity), [generation])
    rule(34, [generation], endsOf(activity))
    rule(36, [generation], invalidationsOf(entity))
    rule(39, [generation], generationsOf(entity))
  }
  for (const invalidation of facts.of('wasInvalidatedBy'))
    rule(40, [invalidation], invalidationsOf(invalidation.args[0]!))
  for (const { args } of facts.of('wasInformedBy')) rule(35, startsOf(args[1]!), endsOf(args[0]!))
  for (const { args } of facts.of('wasDerivedFrom')) {
    const [newer, older, , generation, usage] = args as [Term, Term, Term, Term, Term]
    if (args.every((arg) => !terms.isPlaceholder(arg)))
      all.push({ from: terms.find(usage), to: terms.find(generation), isStrict: false, constraint: 41 })
    rule(42, generationsOf(older), generationsOf(newer), true)
  }
  for (const { args } of facts.of('specializationOf')) {
    const [specific, general] = args as [Term, Term]
    rule(45, generationsOf(general), generationsOf(specific))
    rule(46, invalidationsOf(specific), invalidationsOf(general))
  }
  for (const { args } of facts.of('wasAssociatedWith')) {
    const [activity, agent] = args as [Term, Term]
    rule(47, startsOf(activity), invalidationsOf(agent))
    rule(47, generationsOf(agent), endsOf(activity))
    rule(47, startsOf(activity), endsOf(agent))
    rule(47, startsOf(agent), endsOf(activity))
  }
  for (const { args } of facts.of('wasAttributedTo')) {
    const [entity, agent] = args as [Term, Term]
    rule(48, generationsOf(agent), generationsOf(entity))
    rule(48, startsOf(agent), generationsOf(entity))
  }
  for (const { args } of facts.of('actedOnBehalfOf')) {
    const [delegate, responsible] = args as [Term, Term]
    rule(49, generationsOf(responsible), invalidationsOf(delegate))
    rule(49, startsOf(responsible), endsOf(delegate))
  }
  return all
}

/** Says of each circle with a strict step which constraints make it. */
export function checkOrder(facts: Facts): void {
  const precedences = precedencesOf(facts)
  const componentOf = components(precedences)
  const circles = new Map<number, Set<number>>()
  for (const { from, to, isStrict } of precedences)
    if (isStrict && componentOf.get(from) === componentOf.get(to))
      circles.set(componentOf.get(from)!, new Set())
  for (const { from, to, constraint } of precedences) {
    const component = componentOf.get(from)!
    if (component === componentOf.get(to)) circles.get(component)?.add(constraint)
  }
  for (const [component, constraints] of circles) {
    const events = [...componentOf]
      .filter(([, own]) => own === component)
      .map(([event]) => facts.terms.say(event))
    for (const constraint of constraints)
      facts.violate(constraint, `events precede each other in a circle: ${events.slice(0, 6).join(', ')}`)
  }
}

/** The strongly connected component of every event, by the algorithm of Tarjan (1972), without recursion. */
function components(precedences: readonly Precedence[]): Map<Term, number> {
  const next = new Map<Term, Term[]>()
  for (const { from, to } of precedences) {
    if (!next.has(from)) next.set(from, [])
    if (!next.has(to)) next.set(to, [])
    next.get(from)!.push(to)
  }
  const order = new Map<Term, number>()
  const low = new Map<Term, number>()
  const component = new Map<Term, number>()
  const open: Term[] = []
  for (const root of next.keys()) {
    if (order.has(root)) continue
    const path: { readonly term: Term; at: number }[] = [{ term: root, at: 0 }]
    while (path.length > 0) {
      const step = path.at(-1)!
      const { term } = step
      if (step.at === 0) {
        order.set(term, order.size)
        low.set(term, order.get(term)!)
        open.push(term)
      }
      const child = next.get(term)![step.at++]
      if (child !== undefined) {
        if (!order.has(child)) path.push({ term: child, at: 0 })
        else if (!component.has(child)) low.set(term, Math.min(low.get(term)!, order.get(child)!))
        continue
      }
      path.pop()
      const above = path.at(-1)
      if (above) low.set(above.term, Math.min(low.get(above.term)!, low.get(term)!))
      if (low.get(term) === order.get(term))
        for (let member: Term | undefined; member !== term;)
          component.set((member = open.pop()!), order.get(term)!)
    }
  }
  return component
}
