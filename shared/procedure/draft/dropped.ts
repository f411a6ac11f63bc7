/** Which deeds of a journal are the path that worked, and why each of the others is not. */
import type { Entry } from '../../lab/model.ts'
import { isChanging, mayBeSamePlace, type Deed } from '../coverage/deeds.ts'
import { fatesOf } from '../coverage/fates.ts'
import { isOfShell } from '../coverage/omissions.ts'

export type DropReason =
  | 'failed'
  | 'undone'
  | 'undoes'
  | 'replaced'
  | 'repeated'
  | 'only looks'
  | 'shell only'
  | 'same as the file'
  | 'has it already'
  | 'no answer'
  | 'no step'

/** Something of an entry that no step is made of. */
export interface Dropped {
  readonly entry: Entry
  /** Null for the entry as a whole. */
  readonly deed: Deed | null
  readonly reason: DropReason
  /** The deed that says so. */
  readonly by: Deed | null
}

/** Each reason in a sentence, for the person. */
export const dropSentences: Readonly<Record<DropReason, string>> = {
  failed: 'It failed.',
  undone: 'It was undone later.',
  undoes: 'It only undid something that is left out too.',
  replaced: 'A later one took its place.',
  repeated: 'It was done again later.',
  'only looks': 'It changes nothing, and nothing that is kept is seen by it.',
  'shell only': 'It changes the shell that it was typed in; the step’s place says so.',
  'same as the file': 'It writes the file that stands in a step of its own.',
  'has it already': 'The procedure holds it already.',
  'no answer': 'No fix or decision answered the problem.',
  'no step': 'No step stands near it.',
}

export interface Sorted {
  /** Changed something, or may have. */
  readonly kept: ReadonlySet<Deed>
  /** Looks that show whether a kept one worked. */
  readonly checks: ReadonlySet<Deed>
  readonly dropped: readonly Dropped[]
}

/** @param deeds in the journal's order @param answers problems by the fixes that answered them */
export function sortDeeds(
  deeds: readonly Deed[],
  answers: ReadonlyMap<string, Entry>,
  isCarried: (deed: Deed) => boolean,
): Sorted {
  const fates = fatesOf(deeds, answers)
  const dropped: Dropped[] = []
  const drop = (deed: Deed, reason: DropReason, by: Deed | null = null): void => {
    dropped.push({ entry: deed.entry, deed, reason, by })
  }
  const kept = new Set<Deed>()
  const looks: Deed[] = []
  for (const deed of deeds) {
    const fate = fates.get(deed)
    if (deed.outcome === 'failed') drop(deed, 'failed')
    else if (fate) drop(deed, fate.is, fate.by)
    else if (isOfShell(deed)) drop(deed, 'shell only')
    else if (!isChanging(deed) && deed.effect.isKnown) looks.push(deed)
    else if (isCarried(deed)) drop(deed, 'has it already')
    else kept.add(deed)
  }
  const among = new Kept(kept)
  for (const deed of [...kept]) {
    const by = maybeTwin(deed, among)
    if (!by) continue
    kept.delete(deed)
    among.drop(deed)
    drop(deed, by.kind === 'file' && deed.kind === 'command' ? 'same as the file' : 'repeated', by)
  }
  const checks = checksOf(deeds, kept, looks)
  for (const look of looks) if (!checks.has(look)) drop(look, 'only looks')
  return { kept, checks, dropped }
}

/** What is kept, in order, by what is done. */
class Kept {
  private readonly order: readonly Deed[]
  private readonly places: ReadonlyMap<Deed, number>
  private readonly byKey = new Map<string, Deed[]>()
  private readonly dropped = new Set<Deed>()

  constructor(kept: Iterable<Deed>) {
    this.order = [...kept]
    this.places = new Map(this.order.map((deed, at) => [deed, at]))
    for (const deed of this.order) {
      const own = this.byKey.get(deed.key)
      if (own) own.push(deed)
      else this.byKey.set(deed.key, [deed])
    }
  }

  drop(deed: Deed): void {
    this.dropped.add(deed)
  }

  /** The others that do the same in the same place. */
  sameAs(deed: Deed): Deed[] {
    return (this.byKey.get(deed.key) ?? []).filter(
      (one) => one !== deed && !this.dropped.has(one) && mayBeSamePlace(one.where, deed.where),
    )
  }

  isBehind(one: Deed, other: Deed): boolean {
    return this.places.get(one)! > this.places.get(other)!
  }

  isAnyBetween(earlier: Deed, later: Deed): boolean {
    const between = this.order.slice(this.places.get(earlier)! + 1, this.places.get(later))
    return between.some((deed) => !this.dropped.has(deed))
  }
}

/** The one that stands for a deed: the file entry of the same file, or the last time that the same was done. */
function maybeTwin(deed: Deed, among: Kept): Deed | null {
  const same = among.sameAs(deed)
  const file = same.find((one) => one.kind === 'file')
  if (deed.kind === 'command' && file) return file
  const later = same.find((one) => one.kind === deed.kind && among.isBehind(one, deed))
  if (!later) return null
  return isOfState(deed) && among.isAnyBetween(deed, later) ? null : later
}

/** What is worth doing again after other work: services are restarted, file systems mounted once more. */
const isOfState = ({ changed, program }: Deed): boolean =>
  ['mount', 'umount', 'systemctl', 'service'].includes(program ?? '') ||
  changed.some(({ name }) => name?.startsWith('service ') === true)

/**
 * Looks behind a kept deed, before the next one: those that failed before and do no more, those that were made before it too,
 * and those that name what the deed touched. Of equal ones in one stretch the last.
 */
function checksOf(
  deeds: readonly Deed[],
  kept: ReadonlySet<Deed>,
  looks: readonly Deed[],
): ReadonlySet<Deed> {
  const checks = new Map<string, Deed>()
  const isLook = new Set(looks)
  const failed = new Set<string>()
  let last: Deed | null = null
  let stretch = 0
  const seen = new Map<string, number>()
  for (const deed of deeds) {
    if (kept.has(deed)) {
      last = deed
      stretch += 1
    }
    if (deed.outcome === 'failed') failed.add(deed.key)
    if (!isLook.has(deed)) continue
    const isHere = last !== null && mayBeSamePlace(last.where, deed.where)
    const isOther = failed.delete(deed.key) || (seen.get(deed.key) ?? stretch) < stretch
    if (isHere && (isOther || namesWhat(deed, last!))) checks.set(`${stretch} ${deed.key}`, deed)
    seen.set(deed.key, stretch)
  }
  return new Set(checks.values())
}

/** Whether a look names what a deed touched: a path, a folder of it, a service, an account. */
function namesWhat(look: Deed, { changed }: Deed): boolean {
  return changed.some(({ name }) => {
    if (name === null) return false
    const bare = name.slice(name.indexOf(' ') + 1)
    const last = bare.slice(bare.lastIndexOf('/') + 1)
    return [bare, last].some((word) => word.length >= 3 && look.text.includes(word))
  })
}
