/** What became of a deed later: undone, replaced by another, or standing. */
import { isSame } from '../../lab/fields.ts'
import type { Entry, Link } from '../../lab/model.ts'
import { wordsOf } from '../../provenance/selectors.ts'
import { undoes, undoPairs } from '../../shell/undo.ts'
import { isChanging, mayBeSamePlace, type Deed } from './deeds.ts'
import type { JournalRecords } from './records.ts'
import type { Touch } from './units.ts'

/** Why a deed needs no counterpart. `by`: the deed that says so. */
export interface Fate {
  readonly is: 'undone' | 'undoes' | 'replaced'
  readonly by: Deed
}

/**
 * The fates of deeds that do not stand, by deed; in the journal's order. Failed deeds have none and bring none. A deed of
 * unknown outcome counts against another one of unknown outcome only.
 * @param answers problems by the ids of the entries that answered them
 *
 * What is opened and closed again around other work (a service stopped and started, a file system mounted) stands.
 */
export function fatesOf(deeds: readonly Deed[], answers: ReadonlyMap<string, Entry>): Map<Deed, Fate> {
  const live = deeds.filter(({ outcome }) => outcome !== 'failed')
  const fates = wrongWaysOf(live, answers)
  live.forEach((deed, at) => {
    const by = live.slice(at + 1).find((later) => counts(later, deed) && replaces(later, deed))
    if (by) fates.set(deed, { is: 'replaced', by })
  })
  for (const { earlier, later } of pairsOf(live, fates)) {
    if (fates.has(later) || isBracket(live, earlier, later, fates)) continue
    fates.set(earlier, { is: 'undone', by: later })
    if (isAllOf(later, earlier)) fates.set(later, { is: 'undoes', by: earlier })
  }
  return fates
}

const counts = (later: Deed, deed: Deed): boolean =>
  (later.outcome === 'succeeded' || deed.outcome === 'unknown') && mayBeSamePlace(later.where, deed.where)

interface UndonePair {
  readonly earlier: Deed
  readonly later: Deed
  readonly distance: number
}

/** What undoes what: the nearest later deed that does; those that lie closest together first. */
function pairsOf(live: readonly Deed[], fates: ReadonlyMap<Deed, Fate>): UndonePair[] {
  const pairs: UndonePair[] = []
  const closing = new Set<Deed>()
  live.forEach((earlier, at) => {
    if (fates.has(earlier) || closing.has(earlier) || !isChanging(earlier)) return
    const behind = live.slice(at + 1)
    const distance = behind.findIndex((later) => counts(later, earlier) && takesBack(later, earlier))
    if (distance < 0) return
    const later = behind[distance]!
    // A removal may take away several things; what closes a bracket closes one.
    if (!isRemoval(later)) closing.add(later)
    pairs.push({ earlier, later, distance })
  })
  return pairs.sort((a, b) => a.distance - b.distance)
}

const removers = new Set(['rm', 'rmdir', 'unlink', 'shred'])

const isRemoval = ({ changed, program }: Deed): boolean =>
  removers.has(program ?? '') && changed.some(({ isDestroyed }) => isDestroyed)

/** Pairs of programs of which one can undo the other, so that most commands need not be read again. */
const mayUndo = new Set(
  undoPairs.flatMap(([does, back]) =>
    namesIn(does).flatMap((one) => namesIn(back).map((other) => `${one} ${other}`)),
  ),
)

function namesIn(written: string): string[] {
  return (written.split(' ')[0] ?? '').split('|')
}

/** Whether two deeds take one another back, as mounting and unmounting do. */
export const arePair = (one: Deed, other: Deed): boolean => takesBack(one, other) || takesBack(other, one)

function takesBack(later: Deed, earlier: Deed): boolean {
  if (later.kind === 'file') return false
  if (
    mayUndo.has(`${earlier.program ?? ''} ${later.program ?? ''}`) &&
    undoes(later.text, earlier.text) === 'whole'
  )
    return true
  if (!isRemoval(later) || earlier.changed.length === 0) return false
  const gone = later.changed.flatMap(({ isDestroyed, name }) => (isDestroyed && name !== null ? [name] : []))
  return earlier.changed.every(
    ({ name, isDestroyed }) => name !== null && !isDestroyed && gone.some((one) => holds(one, name)),
  )
}

/** Whether one thing is another or lies in it. */
const holds = (outer: string, inner: string): boolean => inner === outer || inner.startsWith(`${outer}/`)

/** Programs that make what they name, so that taking it away leaves nothing to tell. */
const makers = new Set(['mkdir', 'touch', 'cp', 'ln', 'install', 'mkfifo', 'tee', 'git', 'curl', 'wget'])

/** Whether a removal takes away nothing but what the earlier deed had made. */
function isAllOf(later: Deed, earlier: Deed): boolean {
  if (!isRemoval(later)) return true
  const hasMade =
    earlier.sets !== null || makers.has(earlier.program ?? '') || /(?<!>)>\|?(?![>&])/u.test(earlier.text)
  return (
    hasMade &&
    later.changed.every(({ name }) => name !== null && earlier.changed.some((one) => one.name === name))
  )
}

/** Whether something that stands was done between the two and leaned on the first. */
function isBracket(
  live: readonly Deed[],
  earlier: Deed,
  later: Deed,
  fates: ReadonlyMap<Deed, Fate>,
): boolean {
  const between = live.slice(live.indexOf(earlier) + 1, live.indexOf(later))
  const inner = between.filter(
    (deed) => isChanging(deed) && !fates.has(deed) && mayBeSamePlace(deed.where, earlier.where),
  )
  const names = earlier.changed.flatMap(({ name }) => (name === null ? [] : [name]))
  if (names.some((name) => name.startsWith('service '))) return inner.length > 0
  if (['mount', 'umount', 'cryptsetup', 'losetup', 'swapon'].includes(earlier.program ?? '')) {
    const paths = earlier.text.split(/\s+/u).filter((word) => word.startsWith('/'))
    return inner.some((deed) => paths.some((path) => deed.text.includes(path)) || isWithin(deed, paths))
  }
  return inner.some(({ changed, effect }) => {
    const used = effect.touches.map(({ kind, name }) => `${kind} ${name ?? ''}`)
    const own = changed.flatMap(({ name }) => (name === null ? [] : [name]))
    const isInside = own.length > 0 && own.every((name) => names.some((outer) => holds(outer, name)))
    return !isInside && used.some((name) => names.some((outer) => holds(outer, name)))
  })
}

const isWithin = ({ place }: Deed, paths: readonly string[]): boolean =>
  paths.some((path) => place?.directory === path || place?.directory?.startsWith(`${path}/`) === true)

/** Programs that set what they name as a whole, so that the last one counts. */
const setters = new Set([
  'chmod',
  'chown',
  'chgrp',
  'cp',
  'ln',
  'install',
  'openssl',
  'tee',
  'cat',
  'tar',
  'zip',
  'mkfs',
  'hostnamectl',
])
/** Programs that change of a file what its content does not touch. */
const besideContent = new Set(['chmod', 'chown', 'chgrp', 'setfacl', 'chattr'])

function replaces(later: Deed, earlier: Deed): boolean {
  if (later.key === earlier.key || !isChanging(earlier) || earlier.changed.length === 0) return false
  const names = later.changed.flatMap(({ name }) => (name === null ? [] : [name]))
  const isMirror = later.program === 'rsync' && later.changed.some(({ isDestroyed }) => isDestroyed)
  const isSet = ({ name, isDestroyed }: Touch): boolean =>
    name !== null &&
    !isDestroyed &&
    (isMirror ? names.some((one) => holds(bare(one), bare(name))) : names.includes(name))
  if (!earlier.changed.every(isSet)) return false
  if (later.sets !== null) return !besideContent.has(earlier.program ?? '')
  return earlier.program === later.program && (isMirror || setters.has(later.program ?? ''))
}

const bare = (name: string): string => name.replace(/\/$/u, '')

/** Whether one command is the other with one word said otherwise: a value that was wrong. */
function isSaidOtherwise(later: Deed, earlier: Deed): boolean {
  const [a, b] = [wordsOf(later.key), wordsOf(earlier.key)]
  if (later.program === null || later.program !== earlier.program || a.length !== b.length) return false
  const different = a.flatMap((word, n) => (word === b[n] ? [] : [[word, b[n]!] as const]))
  const [pair] = different
  if (different.length !== 1 || !pair || Math.min(pair[0].length, pair[1].length) < 8) return false
  if (later.changed.length === 0 || !isSame(later.changed, earlier.changed)) return false
  return commonLength(...pair) >= Math.min(pair[0].length, pair[1].length) / 5
}

/** How much two words have in common at their heads and their ends. */
function commonLength(a: string, b: string): number {
  const most = Math.min(a.length, b.length)
  let head = 0
  while (head < most && a[head] === b[head]) head += 1
  let tail = 0
  while (tail < most - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail += 1
  return head + tail
}

/**
 * A fix that says a command of before the problem otherwise: that one was the wrong way.
 * @param answers problems by the fixes that answered them
 */
function wrongWaysOf(live: readonly Deed[], answers: ReadonlyMap<string, Entry>): Map<Deed, Fate> {
  const fates = new Map<Deed, Fate>()
  for (const fix of live) {
    const problem = answers.get(fix.entry.id)
    if (!problem) continue
    const before = live.slice(0, live.indexOf(fix)).filter((deed) => mayBeSamePlace(deed.where, fix.where))
    const wrong = before.filter((deed) => deed.entry.id < problem.id && isSaidOtherwise(fix, deed)).at(-1)
    if (wrong) fates.set(wrong, { is: 'replaced', by: fix })
  }
  return fates
}

/** Which problem each fix or decision answered, by the id of the fix. */
export function answeredBy(
  links: Iterable<Link>,
  { entries }: Pick<JournalRecords, 'entries'>,
): Map<string, Entry> {
  const answered = new Map<string, Entry>()
  for (const { newer, older } of links) {
    const problem = older.node.kind === 'entry' ? entries.get(older.node.id) : undefined
    if (newer.node.kind === 'entry' && problem?.kind === 'problem') answered.set(newer.node.id, problem)
  }
  return answered
}
