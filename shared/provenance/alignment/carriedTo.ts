/** Where a stretch of the older text is in the newer one, by the alignment of both texts. */
import type { Range } from '../../lab/model.ts'
import type { TextAlignment } from './partners.ts'
import { survivorsOf, type Survivor } from './survivors.ts'
import { tokenAt, type Wording } from './wording.ts'
import { widened } from './widened.ts'

export interface CarriedTo {
  readonly range: Range
  /** How much of the stretch's words stands there, by weight, 0 to 1. */
  readonly share: number
  /** The same together with what stood right before and right behind it, 0 to 1. */
  readonly score: number
  /** Of the weaker edge: how much of the nearest words, or else of what stood beside them, stands. 0 to 1. */
  readonly firmness: number
}

/** Weight of the words on each side that count as surroundings, and how far from the place they may stand now. */
const AROUND = 32
const MOST_AWAY = 120
/** Weight of the words within the stretch that say whether an edge is firm. */
const AT_EDGE = 24
/** What the stretch itself counts for at most beside its surroundings. */
const MOST_WEIGHT = 64

/** Words by weight, and how much of them stands. */
interface Standing {
  readonly all: number
  readonly standing: number
}

/** @returns null where no word of the stretch is left */
export function carriedTo(alignment: TextAlignment, stretch: Range): CarriedTo | null {
  const tokens = tokensIn(alignment.older, stretch)
  const survivors = survivorsOf(alignment, tokens, stretch)
  if (survivors.length === 0) return null
  const range = widened(alignment, { stretch, tokens, survivors })
  const [own, first, last] = standingWithin(alignment, tokens, survivors)
  const before = surroundings(alignment, range, tokens.start - 1, -1)
  const behind = surroundings(alignment, range, tokens.end, 1)
  const weight = Math.min(own.all, MOST_WEIGHT)
  const standing = shareOf(own) * weight + before.standing + behind.standing
  return {
    range,
    share: shareOf(own),
    score: standing / (weight + before.all + behind.all),
    firmness: Math.min(Math.max(shareOf(first), shareOf(before)), Math.max(shareOf(last), shareOf(behind))),
  }
}

/** Whether most of what stands in a range of the newer text, by weight, was elsewhere in the older one than in the stretch. */
export function isOfOthers({ newer, older, origins }: TextAlignment, range: Range, stretch: Range): boolean {
  const within = tokensIn(older, stretch)
  const { start, end } = tokensIn(newer, range)
  let [all, others] = [0, 0]
  for (let i = start; i < end; i++) {
    const from = origins[i]!
    all += newer.weights[i]!
    if (from >= 0 && (from < within.start || from >= within.end)) others += newer.weights[i]!
  }
  return others * 2 > all
}

/** The tokens that a range holds wholly or in part; none where it is blank. */
function tokensIn({ ids, starts, ends }: Wording, { start, end }: Range): Range {
  const first = tokenAt(ends, start)
  const last = tokenAt(ends, end - 1)
  return { start: first, end: last < ids.length && starts[last]! < end ? last + 1 : last }
}

const shareOf = ({ all, standing }: Standing): number => (all === 0 ? 1 : standing / all)

/** Of the stretch as a whole, and of what is next to each of its edges. */
function standingWithin(
  { older }: TextAlignment,
  { start, end }: Range,
  survivors: readonly Survivor[],
): [Standing, Standing, Standing] {
  const alive = new Set(survivors.map(({ token }) => token))
  const count = (from: number, step: 1 | -1, most: number): Standing => {
    let [all, standing] = [0, 0]
    for (let i = from; i >= start && i < end && all < most; i += step) {
      all += older.weights[i]!
      if (alive.has(i)) standing += older.weights[i]!
    }
    return { all, standing }
  }
  return [count(start, 1, Infinity), count(start, 1, AT_EDGE), count(end - 1, -1, AT_EDGE)]
}

/** The words next to the stretch; those count as standing that stand next to the place on the same side. */
function surroundings(
  { older, newer, partners }: TextAlignment,
  range: Range,
  from: number,
  step: 1 | -1,
): Standing {
  let [all, standing] = [0, 0]
  for (let i = from; i >= 0 && i < older.ids.length && all < AROUND; i += step) {
    all += older.weights[i]!
    const to = partners[i]!
    if (to < 0) continue
    const away = step < 0 ? range.start - newer.ends[to]! : newer.starts[to]! - range.end
    if (away >= -1 && away <= MOST_AWAY) standing += older.weights[i]!
  }
  return { all, standing }
}
