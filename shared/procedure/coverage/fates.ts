/** What became of a deed later: undone, replaced by another, or standing. */
import { isSame } from '../../lab/fields.ts'
import type { Entry, Link } from '../../lab/model.ts'
import { remembered } from '../../lab/remembered.ts'
import { wordsOf } from '../../provenance/selectors.ts'
import { undoes, undoKeys, type UndoKeys } from '../../shell/undo.ts'
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
  const setting = new LaterDeeds(live, ({ changed }) => changed.map(({ name }) => name ?? ''))
  const mirrors = new LaterDeeds(live, (deed) => (isMirror(deed) ? [''] : []))
  live.forEach((deed, at) => {
    const named = setting.behind(at, [deed.changed[0]?.name ?? ''])
    const found = [...named, ...mirrors.behind(at, [''])]
      .filter((place) => counts(live[place]!, deed) && replaces(live[place]!, deed))
      .reduce((least, place) => Math.min(least, place), live.length)
    if (found < live.length) fates.set(deed, { is: 'replaced', by: live[found]! })
  })
  const places = new Map(live.map((deed, at) => [deed, at]))
  for (const { earlier, later } of pairsOf(live, fates)) {
    const between = live.slice(places.get(earlier)! + 1, places.get(later))
    if (fates.has(later) || isBracket(between, earlier, fates)) continue
    fates.set(earlier, { is: 'undone', by: later })
    if (isAllOf(later, earlier)) fates.set(later, { is: 'undoes', by: earlier })
  }
  return fates
}

/** Deeds by what they are looked for by, so that a long journal need not be gone through again for each of its deeds. */
class LaterDeeds {
  private readonly places = new Map<string, number[]>()

  constructor(live: readonly Deed[], keysOf: (deed: Deed) => Iterable<string>) {
    live.forEach((deed, at) => {
      for (const key of new Set(keysOf(deed))) {
        const own = this.places.get(key)
        if (own) own.push(at)
        else this.places.set(key, [at])
      }
    })
  }

  /** The places of those behind one that have one of the keys. */
  behind(at: number, keys: Iterable<string>): number[] {
    return [...keys].flatMap((key) => (this.places.get(key) ?? []).filter((place) => place > at))
  }
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
  const undoing = new LaterDeeds(live, (deed) => keysOf(deed).undoes)
  const removing = new LaterDeeds(live, (deed) => (isRemoval(deed) ? goneBy(deed) : []))
  live.forEach((earlier, at) => {
    if (fates.has(earlier) || closing.has(earlier) || !isChanging(earlier)) return
    const candidates = [
      ...undoing.behind(at, keysOf(earlier).does),
      ...removing.behind(at, outersOf(earlier.changed[0]?.name ?? '')),
    ].sort((a, b) => a - b)
    const found = candidates.find(
      (place) => counts(live[place]!, earlier) && takesBack(live[place]!, earlier),
    )
    if (found === undefined) return
    const later = live[found]!
    const distance = found - at - 1
    // A removal may take away several things; what closes a bracket closes one.
    if (!isRemoval(later)) closing.add(later)
    pairs.push({ earlier, later, distance })
  })
  return pairs.sort((a, b) => a.distance - b.distance)
}

const removers = new Set(['rm', 'rmdir', 'unlink', 'shred'])

const isRemoval = ({ changed, program }: Deed): boolean =>
  removers.has(program ?? '') && changed.some(({ isDestroyed }) => isDestroyed)

const noKeys: UndoKeys = { does: new Set(), undoes: new Set() }
/** So many are kept, by the command's text. */
const MOST_KEYS = 20_000
const keysOfText = remembered(MOST_KEYS, (text: string) => text, undoKeys)

/** By what it is known that one command may undo another; of one that is several programs nothing is. */
const keysOf = ({ kind, program, text }: Deed): UndoKeys =>
  kind === 'file' || program === null ? noKeys : keysOfText(text)

function mayUndo(later: Deed, earlier: Deed): boolean {
  const { undoes: taken } = keysOf(later)
  return taken.size > 0 && [...keysOf(earlier).does].some((key) => taken.has(key))
}

/** Whether two deeds take one another back, as mounting and unmounting do. */
export const arePair = (one: Deed, other: Deed): boolean => takesBack(one, other) || takesBack(other, one)

function takesBack(later: Deed, earlier: Deed): boolean {
  if (later.kind === 'file') return false
  if (mayUndo(later, earlier) && undoes(later.text, earlier.text) === 'whole') return true
  if (!isRemoval(later) || earlier.changed.length === 0) return false
  const gone = goneBy(later)
  return earlier.changed.every(
    ({ name, isDestroyed }) => name !== null && !isDestroyed && gone.some((one) => holds(one, name)),
  )
}

const goneBy = ({ changed }: Deed): string[] =>
  changed.flatMap(({ isDestroyed, name }) => (isDestroyed && name !== null ? [name] : []))

/** A thing and all that it may lie in. */
function outersOf(name: string): string[] {
  const cuts = [...name.matchAll(/\//gu)].map(({ index }) => name.slice(0, index))
  return [...cuts, name]
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
function isBracket(between: readonly Deed[], earlier: Deed, fates: ReadonlyMap<Deed, Fate>): boolean {
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
export const besideContent = new Set(['chmod', 'chown', 'chgrp', 'setfacl', 'chattr'])

function replaces(later: Deed, earlier: Deed): boolean {
  if (later.key === earlier.key || !isChanging(earlier) || earlier.changed.length === 0) return false
  const names = later.changed.flatMap(({ name }) => (name === null ? [] : [name]))
  const isWhole = isMirror(later)
  const isSet = ({ name, isDestroyed }: Touch): boolean =>
    name !== null &&
    !isDestroyed &&
    (isWhole ? names.some((one) => holds(bare(one), bare(name))) : names.includes(name))
  if (!earlier.changed.every(isSet)) return false
  if (later.sets !== null) return !besideContent.has(earlier.program ?? '')
  return earlier.program === later.program && (isWhole || setters.has(later.program ?? ''))
}

/** Makes one folder the same as another. */
const isMirror = ({ program, changed }: Deed): boolean =>
  program === 'rsync' && changed.some(({ isDestroyed }) => isDestroyed)

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
