/**
 * Tag suggestion measured on debtags: the packages of Debian 12 (bookworm) with their one-line descriptions and the tags
 * that people gave them (https://wiki.debian.org/Debtags). One half is for learning, the other for testing only. Which is
 * which was fixed before any constant was chosen; the constants were chosen by repeated draws within the learning half.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { findKeyPhrases } from '../../../shared/find/key-phrases.ts'
import { mostUsedTags, nearestTags } from '../../../shared/find/plain-tags.ts'
import { suggestTags } from '../../../shared/find/suggest-tags.ts'
import { emptyTagModel, withTexts, type TagModel, type TaggedText } from '../../../shared/find/tag-model.ts'
import { termsOfTag } from '../../../shared/find/tag-names.ts'
import { toTermCounts } from '../../../shared/find/tag-terms.ts'
import { toTokens } from '../../../shared/find/tokens.ts'

const folder = process.env.STANDARDS_DIR ?? join(import.meta.dirname, '../../../../shared/standards')
export const debtagsPath = join(folder, 'keyphrase/debian-debtags-bookworm.jsonl')
export const hasDebtags = existsSync(debtagsPath)

/** Decides which half a text is in, and with it the order in which the learning half is learnt. */
const SPLIT_SEED = 20240
const LEARNING = 1254
/** So many suggestions are looked at. */
const AT = 7

/** How many texts are learnt, and how many draws of so many are averaged: few texts are a matter of luck. */
export const sizes = [
  { learnt: 10, draws: 10 },
  { learnt: 50, draws: 10 },
  { learnt: 250, draws: 10 },
  { learnt: 1254, draws: 1 },
] as const
export type Size = (typeof sizes)[number]['learnt']

export const ways = ['ours', 'most used', 'nearest', 'phrases'] as const
export type Way = (typeof ways)[number]

/** F1 at 7 of each test text, averaged over the draws, in one order for all ways. */
export type Scores = Readonly<Record<Way, readonly number[]>>

let halves: { learning: TaggedText[]; testing: TaggedText[] } | undefined

/** The two halves. @throws where the file is not there */
export function debtagsHalves(): { readonly learning: TaggedText[]; readonly testing: TaggedText[] } {
  if (halves) return halves
  const texts = readFileSync(debtagsPath, 'utf8')
    .trim()
    .split('\n')
    .map((line): TaggedText => {
      const {
        package: id,
        summary,
        tags,
      } = JSON.parse(line) as Record<'package' | 'summary', string> & {
        tags: string[]
      }
      return { id, title: '', text: summary, tags }
    })
  const mixed = shuffled(texts, SPLIT_SEED)
  halves = { learning: mixed.slice(0, LEARNING), testing: mixed.slice(LEARNING) }
  return halves
}

const known = new Map<Size, Scores>()

/** Scores of all four ways after so many learnt texts, on the whole testing half. */
export function scoresAfter(size: Size): Scores {
  const before = known.get(size)
  if (before) return before
  const { learning, testing } = debtagsHalves()
  const { draws } = sizes.find(({ learnt }) => learnt === size)!
  const sums = Object.fromEntries(ways.map((way) => [way, testing.map(() => 0)])) as Record<Way, number[]>
  for (let draw = 0; draw < draws; draw++) {
    const learnt = draws === 1 ? learning : shuffled(learning, draw + 1).slice(0, size)
    const model = withTexts(emptyTagModel, learnt)
    for (const [at, text] of testing.entries())
      for (const way of ways) sums[way][at]! += scoreOf(way, model, text) / draws
  }
  known.set(size, sums)
  return sums
}

function scoreOf(way: Way, model: TagModel, { title, text, tags }: TaggedText): number {
  const untagged = { title, text }
  switch (way) {
    case 'ours':
      return f1(
        suggestTags(model, untagged).map(({ tag }) => tag),
        tags,
      )
    case 'most used':
      return f1(mostUsedTags(model), tags)
    case 'nearest':
      return f1(nearestTags(model, toTermCounts(untagged)), tags)
    case 'phrases':
      // No phrase is spelt like `works-with::mail`: one that says the last part of a tag counts as that tag.
      return f1(
        findKeyPhrases(model, untagged, AT).map(({ phrase }) => keyOf(toTokens(phrase).flatMap(nameOf))),
        tags.map((tag) => keyOf(termsOfTag(tag))),
      )
  }
}

function nameOf({ written }: { readonly written: string }): string[] {
  return termsOfTag(written)
}

function keyOf(terms: readonly string[]): string {
  return terms.join(' ')
}

/** The harmonic mean of precision at 7 and recall at 7 of one text; fewer than 7 suggestions are not rewarded. */
export function f1(suggested: readonly string[], gold: readonly string[]): number {
  const wanted = new Set(gold)
  const hits = new Set(suggested.slice(0, AT).filter((tag) => wanted.has(tag))).size
  return (2 * hits) / (AT + wanted.size)
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** The better of the three baselines by its mean. */
export function bestBaseline(scores: Scores): Exclude<Way, 'ours'> {
  const baselines = ['most used', 'nearest', 'phrases'] as const
  return baselines.reduce((best, way) => (meanOf(scores[way]) > meanOf(scores[best]) ? way : best))
}

/**
 * Fisher's paired randomisation test, two-sided, by 9,999 random flips of the signs of the differences (E. S. Edgington,
 * Randomization Tests, 1980): the chance of a mean difference as great if the two ways were one.
 */
export function pairedRandomisation(one: readonly number[], other: readonly number[], seed = 7): number {
  const differences = one.map((value, at) => value - other[at]!).filter((difference) => difference !== 0)
  const seen = Math.abs(differences.reduce((sum, difference) => sum + difference, 0))
  const random = randomOf(seed)
  const flips = 9999
  let asGreat = 1
  for (let flip = 0; flip < flips; flip++) {
    let sum = 0
    for (const difference of differences) sum += random() < 0.5 ? difference : -difference
    if (Math.abs(sum) >= seen - 1e-9) asGreat++
  }
  return asGreat / (flips + 1)
}

/** The items in an order that the seed decides (Fisher and Yates). */
export function shuffled<T>(items: readonly T[], seed: number): T[] {
  const random = randomOf(seed)
  const mixed = [...items]
  for (let at = mixed.length - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1))
    ;[mixed[at], mixed[other]] = [mixed[other]!, mixed[at]!]
  }
  return mixed
}

/** Numbers from 0 to 1, exclusive, that a seed decides (mulberry32). */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}
