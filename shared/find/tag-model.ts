/**
 * What was learnt about a person's tags: a plain value that every function leaves as it was and gives anew.
 * What was learnt in which order makes no difference, and taking away what was added gives the value from before.
 */
import { compareText, toTermCounts, type TaggableText, type TermCounts } from './tag-terms.ts'

export interface TaggedText extends TaggableText {
  /** Tells it from every other text; learning the same id again replaces what was learnt of it. */
  readonly id: string
  readonly tags: readonly string[]
}

/** What is kept of a tagged text. */
export interface LearntText {
  /** Each once, sorted. */
  readonly tags: readonly string[]
  readonly terms: TermCounts
}

/** What a person said to one tag that was suggested for one text. A later verdict replaces an earlier one. */
export interface Verdict {
  readonly id: string
  readonly tag: string
  readonly isAccepted: boolean
  /** How likely an acceptance was held to be, 0 to 1: the suggestion's score. */
  readonly chance: number
  readonly terms: TermCounts
}

/** A text that holds a term, and how often the term counts in it. */
export type Holder = readonly [id: string, count: number]

export interface TagModel {
  /** The tagged texts by id. */
  readonly texts: ReadonlyMap<string, LearntText>
  /** The texts that hold a term, sorted by id. Follows from `texts`. */
  readonly holders: ReadonlyMap<string, readonly Holder[]>
  /** How many texts carry a tag. Follows from `texts`. */
  readonly uses: ReadonlyMap<string, number>
  /** By tag, then by the id of the text. */
  readonly verdicts: ReadonlyMap<string, ReadonlyMap<string, Verdict>>
}

export const emptyTagModel: TagModel = {
  texts: new Map(),
  holders: new Map(),
  uses: new Map(),
  verdicts: new Map(),
}

/** The model after these tagged texts. A text without tags is taken away. Many at once cost little more than one. */
export function withTexts(model: TagModel, texts: readonly TaggedText[]): TagModel {
  const learnt = new Map<string, LearntText>()
  for (const text of texts) {
    const tags = [...new Set(text.tags)].sort(compareText)
    learnt.set(text.id, { tags, terms: tags.length === 0 ? [] : toTermCounts(text) })
  }
  return withLearnt(model, learnt)
}

/** The model without these texts. Verdicts stay: what was said to a suggestion was said. */
export function withoutTexts(model: TagModel, ids: readonly string[]): TagModel {
  return withLearnt(model, new Map(ids.map((id) => [id, { tags: [], terms: [] }])))
}

/**
 * The model after a suggestion was accepted or refused. The text's tags are learnt by {@link withTexts}.
 *
 * @param suggestion as it was made; a score above 1 counts as 1
 */
export function withVerdict(
  model: TagModel,
  text: TaggableText & { readonly id: string },
  suggestion: { readonly tag: string; readonly score: number },
  isAccepted: boolean,
): TagModel {
  const { tag, score } = suggestion
  const ofTag = new Map(model.verdicts.get(tag))
  const chance = Math.min(1, Math.max(0, score))
  ofTag.set(text.id, { id: text.id, tag, isAccepted, chance, terms: toTermCounts(text) })
  return { ...model, verdicts: new Map(model.verdicts).set(tag, ofTag) }
}

/** The model without what was said to that tag for that text; for undo and for texts that are struck out. */
export function withoutVerdict(model: TagModel, id: string, tag: string): TagModel {
  const ofTag = new Map(model.verdicts.get(tag))
  if (!ofTag.delete(id)) return model
  const verdicts = new Map(model.verdicts)
  if (ofTag.size === 0) verdicts.delete(tag)
  else verdicts.set(tag, ofTag)
  return { ...model, verdicts }
}

/** The model with these texts in the place of those with the same ids; one without tags only goes. */
export function withLearnt(model: TagModel, learnt: ReadonlyMap<string, LearntText>): TagModel {
  const texts = new Map(model.texts)
  const uses = new Map(model.uses)
  const holders = new Map(model.holders)
  const own = new Set<string>()
  /** The holders of a term as an array that this call may change. */
  const holdersOf = (term: string): Holder[] => {
    const kept = holders.get(term)
    if (kept !== undefined && own.has(term)) return kept as Holder[]
    const copy = [...(kept ?? [])]
    own.add(term)
    holders.set(term, copy)
    return copy
  }
  const take = (id: string, { tags, terms }: LearntText): void => {
    texts.delete(id)
    for (const tag of tags) addUse(uses, tag, -1)
    for (const [term] of terms) {
      const held = holdersOf(term)
      held.splice(placeOf(held, id), 1)
      if (held.length > 0) continue
      holders.delete(term)
      own.delete(term)
    }
  }
  for (const [id, text] of learnt) {
    const before = texts.get(id)
    if (before) take(id, before)
    if (text.tags.length === 0) continue
    texts.set(id, text)
    for (const tag of text.tags) addUse(uses, tag, 1)
    for (const [term, count] of text.terms) {
      const held = holdersOf(term)
      held.splice(placeOf(held, id), 0, [id, count])
    }
  }
  return { ...model, texts, uses, holders }
}

function addUse(uses: Map<string, number>, tag: string, by: number): void {
  const count = (uses.get(tag) ?? 0) + by
  if (count === 0) uses.delete(tag)
  else uses.set(tag, count)
}

/** Where an id stands in a list sorted by id, or would stand. */
function placeOf(held: readonly Holder[], id: string): number {
  let low = 0
  let high = held.length
  // Ids made later sort later, so the end is the likeliest place.
  if (high === 0 || held[high - 1]![0] < id) return high
  while (low < high) {
    const middle = (low + high) >> 1
    if (held[middle]![0] < id) low = middle + 1
    else high = middle
  }
  return low
}
