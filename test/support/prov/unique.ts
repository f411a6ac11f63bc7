/**
 * Constraints 22 to 29 of PROV-CONSTRAINTS: what has one identifier is one thing, and some events are unique. Each merges
 * facts or unifies terms; where that cannot be, the constraint is broken.
 */
import { signatures } from './document.ts'
import { groupBy, identified, things, type Fact, type Facts } from './facts.ts'

/**
 * One round. Times of activities are looked at only when all events that are one have been merged, so that the constraint
 * that is named is the nearest.
 * @returns whether something was merged or unified
 */
export function applyUniqueness(facts: Facts): boolean {
  const merged = [
    mergeByKey(facts),
    // 24 unique-generation, 25 unique-invalidation: of one entity by one activity there is one.
    unifyEvents(facts, 'wasGeneratedBy', ['entity', 'activity'], 24),
    unifyEvents(facts, 'wasInvalidatedBy', ['entity', 'activity'], 25),
    // 26 unique-wasStartedBy, 27 unique-wasEndedBy: of one activity by one other there is one.
    unifyEvents(facts, 'wasStartedBy', ['activity', 'starter'], 26),
    unifyEvents(facts, 'wasEndedBy', ['activity', 'ender'], 27),
    unifyMentions(facts),
  ]
  if (merged.includes(true)) return true
  // 28 unique-startTime, 29 unique-endTime: an activity's times are those of its start and end.
  return [unifyTimes(facts, 'wasStartedBy', 0, 28), unifyTimes(facts, 'wasEndedBy', 1, 29)].includes(true)
}

/** 22 key-object, 23 key-properties. Facts without an identifier are merged where they are equal. */
function mergeByKey(facts: Facts): boolean {
  const { terms } = facts
  const before = facts.all.length
  let isChanged = false
  const groups = groupBy(facts.all, (fact) =>
    [...things, ...identified].includes(fact.relation)
      ? `${fact.relation} ${terms.find(fact.id)}`
      : `${fact.relation} ${fact.args.map((arg) => terms.find(arg)).join(' ')}`,
  )
  facts.all.length = 0
  for (const [first, ...others] of groups.values()) {
    for (const other of others) isChanged = merge(facts, first!, other) || isChanged
    facts.all.push(first!)
  }
  return isChanged || facts.all.length < before
}

function merge(facts: Facts, first: Fact, other: Fact): boolean {
  const { terms } = facts
  let isChanged = false
  first.args.forEach((arg, i) => {
    if (terms.isSame(arg, other.args[i]!)) return
    if (terms.unify(arg, other.args[i]!)) isChanged = true
    else
      facts.violate(
        things.includes(first.relation) ? 22 : 23,
        `${facts.say(first)} and ${facts.say(other)} have one identifier`,
      )
  })
  for (const attribute of other.attributes) first.attributes.add(attribute)
  return isChanged
}

type Event = 'wasGeneratedBy' | 'wasInvalidatedBy' | 'wasStartedBy' | 'wasEndedBy'

function unifyEvents(facts: Facts, relation: Event, of: readonly string[], constraint: number): boolean {
  const { terms } = facts
  const places = of.map((name) => (signatures[relation] as readonly string[]).indexOf(name))
  const groups = groupBy(facts.of(relation), ({ args }) => places.map((i) => terms.find(args[i]!)).join(' '))
  let isChanged = false
  for (const [first, ...others] of groups.values())
    for (const other of others) {
      if (terms.isSame(first!.id, other.id)) continue
      if (terms.unify(first!.id, other.id)) isChanged = true
      else
        facts.violate(
          constraint,
          `${facts.say(first!)} and ${facts.say(other)} are one event with two identifiers`,
        )
    }
  return isChanged
}

function unifyTimes(
  facts: Facts,
  relation: 'wasStartedBy' | 'wasEndedBy',
  which: 0 | 1,
  constraint: number,
): boolean {
  const { terms } = facts
  const activities = groupBy(facts.of('activity'), ({ id }) => terms.find(id))
  let isChanged = false
  for (const event of facts.of(relation))
    for (const activity of activities.get(terms.find(event.args[0]!)) ?? []) {
      const [said, happened] = [activity.args[which]!, event.args[3]!]
      if (terms.isSame(said, happened)) continue
      if (terms.unify(said, happened)) isChanged = true
      else facts.violate(constraint, `${facts.say(activity)} and ${facts.say(event)} say different times`)
    }
  return isChanged
}

/** Of PROV-LINKS: an entity mentions one entity of one bundle. */
function unifyMentions(facts: Facts): boolean {
  const { terms } = facts
  let isChanged = false
  for (const [first, ...others] of groupBy(facts.of('mentionOf'), ({ args }) =>
    terms.find(args[0]!),
  ).values())
    for (const other of others) isChanged = merge(facts, first!, other) || isChanged
  return isChanged
}
