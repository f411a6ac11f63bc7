/** What matters first among the omissions. */
import { mayBeSamePlace, type Deed } from './deeds.ts'
import { arePair } from './fates.ts'
import type { Omission } from './omissions.ts'

/** What speaks for an omission beside its nearness, the most telling first. */
export const rankReasons = ['leaned', 'pair', 'destroys', 'fix', 'untouched', 'between', 'root'] as const
export type RankReason = (typeof rankReasons)[number]

/** What each reason adds at most. */
const weights: Readonly<Record<RankReason | 'closeness', number>> = {
  closeness: 1,
  untouched: 0.4,
  pair: 0.5,
  between: 0.3,
  leaned: 0.4,
  root: 0.01,
  destroys: 0.3,
  fix: 0.2,
}

/** The steps that hold the nearest covered deeds; empty where there is none. `''` is the procedure itself. */
export interface Near {
  readonly before: readonly string[]
  readonly behind: readonly string[]
}

/**
 * The omissions with their weights, the heaviest first; of equal ones the earlier. Weight comes from how near the carried
 * neighbours are (what lies between two carried commands was most likely forgotten), from touching what nothing in the
 * procedure touches (else it may be done there in another way), from what was carried without what closes it, from loss, and from having ended a problem.
 * Between two steps more is missing than within one, and most of all what a step needs: a file or folder that it names.
 * @param words the commands of the procedure as one text
 * @param stepsOf the steps that hold a covered deed's counterparts; empty for one that is not covered
 * @param touched names of what the procedure changes
 * @param listed the deeds of all omissions and of what is covered, in the journal's order
 */
export function inRank(
  missing: readonly Omission[],
  listed: readonly Deed[],
  stepsOf: (deed: Deed) => readonly string[],
  touched: ReadonlySet<string>,
  words: string,
): Omission[] {
  const carried = listed.map((deed) => stepsOf(deed).length > 0)
  const before = distances(carried)
  const behind = distances([...carried].reverse()).reverse()
  const places = new Map(listed.map((deed, at) => [deed, at]))
  const opening = listed.filter((deed) => stepsOf(deed).length > 0)
  const hasCarriedPair = (deed: Deed): boolean =>
    opening.some((one) => mayBeSamePlace(one.where, deed.where) && arePair(one, deed))
  const closeness = (deed: Deed): number => {
    const at = places.get(deed)!
    return (1 / before[at]! + 1 / behind[at]!) / 2
  }
  const nearOf = (deed: Deed): Near => {
    const at = places.get(deed)!
    const [low, high] = [listed[at - before[at]!], listed[at + behind[at]!]]
    return { before: low ? stepsOf(low) : [], behind: high ? stepsOf(high) : [] }
  }
  return missing
    .map((omission) => {
      const { deed } = omission
      const near = nearOf(deed)
      const isUnknownThere = isUntouched(deed, touched)
      const says = {
        between: !near.before.some((step) => near.behind.includes(step)),
        untouched: isUnknownThere,
        leaned: isUnknownThere && isLeanedOn(deed, words),
        root: deed.effect.effects.includes('root'),
        pair: hasCarriedPair(deed),
        destroys: omission.effect === 'destroys',
        fix: deed.entry.kind === 'fix',
      }
      const reasons = rankReasons.filter((reason) => says[reason])
      const closest = weights.closeness * Math.max(...omission.deeds.map(closeness))
      return {
        ...omission,
        near,
        reasons,
        weight: reasons.reduce((sum, reason) => sum + weights[reason], closest),
      }
    })
    .sort((a, b) => b.weight - a.weight)
}

const isUntouched = ({ changed }: Deed, touched: ReadonlySet<string>): boolean =>
  changed.length > 0 && changed.every(({ name }) => name === null || !touched.has(name))

/** Whether the procedure names what a deed made: by its path, or by a name that says what sort of file it is. */
function isLeanedOn({ changed }: Deed, words: string): boolean {
  return changed.some(({ name, isDestroyed }) => {
    if (isDestroyed || !name?.startsWith('file ')) return false
    const path = name.slice('file '.length)
    const last = path.slice(path.lastIndexOf('/') + 1)
    return (path.length > 3 && words.includes(path)) || (last.includes('.') && words.includes(last))
  })
}

/** How far back the last carried one is, for each, or the journal's end. */
function distances(carried: readonly boolean[]): number[] {
  let far = 0
  return carried.map((is) => {
    const here = far + 1
    far = is ? 0 : here
    return here
  })
}
