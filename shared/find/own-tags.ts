/**
 * How well each of a person's own tags suits a text. Three kinds of evidence, each of which works from the first tagged
 * text on: the nearest tagged texts, the single words of the text, and tags whose name stands in it. All of them lean on
 * how often a tag is used at all as long as they know little. What the person accepted and refused then weighs in.
 */
import { findNeighbours, nearnessTo, toWeights, type Neighbour } from './nearness.ts'
import type { TagModel, Verdict } from './tag-model.ts'
import { findNamedTags, tagNamesOf } from './tag-names.ts'
import { compareText, type TermCounts } from './tag-terms.ts'

/** The constants of the scores. They were fixed by cross-validation; see the tests against debtags. */
export interface OwnTagConstants {
  /** A neighbour's say is its nearness to this power. */
  readonly power: number
  /** How often a tag is used has the say of a neighbour of this weight. */
  readonly habit: number
  /** How much each word adds to the log odds, 0 to 1: words of one text are no independent witnesses. */
  readonly wordSay: number
  /** A word is held to be like any other until it stood in about this many texts. */
  readonly wordDoubt: number
  /** A tag's name is held to be like the other tags' names until it stood in about this many texts. */
  readonly nameDoubt: number
  /** What an acceptance adds to the say of its text. */
  readonly acceptance: number
  /** What a refusal takes, in the says of a text as near as it. */
  readonly refusal: number
  /** A tag keeps this share of its score: (times accepted + trust) / (acceptances that its scores promised + trust). */
  readonly trust: number
}

export const ownTagConstants: OwnTagConstants = {
  power: 2,
  habit: 0.2,
  wordSay: 0.8,
  wordDoubt: 8,
  nameDoubt: 3,
  acceptance: 0.5,
  refusal: 0.3,
  trust: 5,
}

/** So many of a text's weightiest words are asked one by one. */
const MOST_WORDS = 48

/** A tag, how well it suits (0 to 1, exclusive of 0), and why. */
export interface OwnTag {
  readonly tag: string
  readonly score: number
  /** Ids of the nearest texts that carry it, nearest first, at most three; empty where none shares a word. */
  readonly near: readonly string[]
  /** The tag's name stands in the text. */
  readonly isNamed: boolean
}

/**
 * The person's tags that suit a text, best first, equal ones by name. Tags that do not suit at all are absent.
 *
 * @param id that of the text where it may have been learnt: no text is its own neighbour
 */
export function scoreOwnTags(
  model: TagModel,
  terms: TermCounts,
  id?: string,
  constants: OwnTagConstants = ownTagConstants,
): OwnTag[] {
  const weights = toWeights(model, terms)
  const neighbours = findNeighbours(model, weights).filter((neighbour) => neighbour.id !== id)
  const votes = countVotes(model, neighbours, constants)
  const words = oddsByWords(model, weights, constants)
  const named = new Map(findNamedTags(model, weights).map((name) => [name.tag, name]))
  const scored: OwnTag[] = []
  for (const [tag, uses] of model.uses) {
    const said = [...(model.verdicts.get(tag)?.values() ?? [])].filter((verdict) => isInForce(model, verdict))
    const share = uses / (model.texts.size + 1)
    const vote = votes.byTag.get(tag)
    const given =
      (vote?.weight ?? 0) + sayOfVerdicts(model, weights, said, constants) + constants.habit * share
    const byNeighbours = Math.min(1, Math.max(0, given / (votes.all + constants.habit)))
    let score = Math.sqrt(byNeighbours * words.get(tag)!)
    const name = named.get(tag)
    if (name) score = 1 - (1 - score) * (1 - reliabilityOf(model, name, said, constants))
    score *= trustIn(said, constants)
    if (score > 0) scored.push({ tag, score, near: vote?.near ?? [], isNamed: name !== undefined })
  }
  return scored.sort((one, other) => other.score - one.score || compareText(one.tag, other.tag))
}

interface Vote {
  weight: number
  readonly near: string[]
}

/** The say of the neighbours, for each tag and over all of them. */
function countVotes(model: TagModel, neighbours: readonly Neighbour[], { power }: OwnTagConstants) {
  const byTag = new Map<string, Vote>()
  let all = 0
  for (const { id, nearness } of neighbours) {
    const weight = nearness ** power
    all += weight
    for (const tag of model.texts.get(id)!.tags) {
      const vote = byTag.get(tag)
      if (!vote) byTag.set(tag, { weight, near: [id] })
      else {
        vote.weight += weight
        if (vote.near.length < 3) vote.near.push(id)
      }
    }
  }
  return { byTag, all }
}

/**
 * For each tag its probability by the words of the text, each asked how often the tag comes with it: log odds added up
 * from those of the tag alone, as in naive Bayes (Manning et al. 2008, ch. 13), each word's share of texts drawn towards
 * the tag's own.
 */
function oddsByWords(
  model: TagModel,
  weights: ReadonlyMap<string, number>,
  { wordSay, wordDoubt }: OwnTagConstants,
): ReadonlyMap<string, number> {
  const words = [...weights]
    .filter(([term]) => model.holders.has(term))
    .sort((one, other) => other[1] - one[1] || compareText(one[0], other[0]))
    .slice(0, MOST_WORDS)
    .map(([term]) => ({ counts: tagsWith(model, term), held: model.holders.get(term)!.length }))
  const chances = new Map<string, number>()
  for (const [tag, uses] of model.uses) {
    const share = uses / (model.texts.size + 1)
    const before = logOdds(share)
    let odds = before
    for (const { counts, held } of words) {
      const withWord = ((counts.get(tag) ?? 0) + wordDoubt * share) / (held + wordDoubt)
      odds += wordSay * (logOdds(withWord) - before)
    }
    chances.set(tag, 1 / (1 + Math.exp(-odds)))
  }
  return chances
}

function logOdds(share: number): number {
  return Math.log(share / (1 - share))
}

/** How many of the texts that hold a term carry each tag. */
function tagsWith(model: TagModel, term: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const [id] of model.holders.get(term) ?? [])
    for (const tag of model.texts.get(id)!.tags) counts.set(tag, (counts.get(tag) ?? 0) + 1)
  return counts
}

/** A verdict that the text's tags now gainsay is no longer in force: the person has thought better of it. */
function isInForce(model: TagModel, { id, tag, isAccepted }: Verdict): boolean {
  const tags = model.texts.get(id)?.tags
  return tags === undefined || tags.includes(tag) === isAccepted
}

function sayOfVerdicts(
  model: TagModel,
  weights: ReadonlyMap<string, number>,
  said: readonly Verdict[],
  { power, acceptance, refusal }: OwnTagConstants,
): number {
  let say = 0
  for (const { isAccepted, terms } of inOrder(said))
    say += (isAccepted ? acceptance : -refusal) * nearnessTo(model, weights, terms) ** power
  return say
}

/** How often a tag whose name stands in a text is that text's tag; a refusal of such a text counts as a miss. */
function reliabilityOf(
  model: TagModel,
  name: { readonly shown: ReadonlySet<string>; readonly borne: number },
  said: readonly Verdict[],
  { nameDoubt }: OwnTagConstants,
): number {
  const all = tagNamesOf(model)
  const usual = (all.borne + 2) / (all.shown + 4)
  const missed = said.filter(({ id, isAccepted }) => !isAccepted && !name.shown.has(id)).length
  return (name.borne + nameDoubt * usual) / (name.shown.size + missed + nameDoubt)
}

/**
 * 1 for a tag that is accepted as often as its scores promise, less for one that is refused more often. Never above 1, so
 * that no acceptance can lower a tag.
 */
function trustIn(said: readonly Verdict[], { trust }: OwnTagConstants): number {
  const accepted = said.filter(({ isAccepted }) => isAccepted).length
  const promised = inOrder(said).reduce((sum, { chance }) => sum + chance, 0)
  return Math.min(1, (accepted + trust) / (promised + trust))
}

/** One order for sums over verdicts, whichever was said first. */
function inOrder(said: readonly Verdict[]): Verdict[] {
  return [...said].sort((one, other) => compareText(one.id, other.id))
}
