/** Coverage: what of the journal has a counterpart in a procedure, what has none, and what no entry shows to have worked. */
import { sharePieces } from '../../journal/entry-facts.ts'
import type { LeftOut, Link, Outcome, Part, Range, Step } from '../../lab/model.ts'
import { deedsOf, isChanging, mayBeSamePlace, type Deed } from './deeds.ts'
import { answeredBy, besideContent, fatesOf, type Fate } from './fates.ts'
import { heldBy, isCounterpart, type Held } from './held.ts'
import { inRank, type Near, type RankReason } from './rank.ts'
import type { JournalRecords, ProcedureRecords } from './records.ts'

/** Something that changed a machine, as often as it was done in one place. */
export interface Omission {
  /** Stable as long as the words and the machine are the same. */
  readonly id: string
  /** The last time that it worked, else the last time that it may have. */
  readonly deed: Deed
  /** Every time, in order. */
  readonly deeds: readonly Deed[]
  readonly outcome: Extract<Outcome, 'succeeded' | 'unknown'>
  /** `unknown` where no table says what the command does. */
  readonly effect: 'destroys' | 'changes' | 'unknown'
  /** The larger, the more it matters. */
  readonly weight: number
  /** Why it weighs what it does; of those that are missing. */
  readonly reasons: readonly RankReason[]
  /** Its covered neighbours; of those that are missing. */
  readonly near: Near
}

export interface Covered {
  readonly omission: Omission
  readonly by: readonly Counterpart[]
}

export interface Counterpart {
  readonly step: Step | null
  readonly part: Part
  /** `same`: equal words; `carried`: its words were carried there and changed; `file`: the file is set there as a whole. */
  readonly way: 'same' | 'carried' | 'file'
}

/** A command or file of the procedure of which no entry shows that it worked as it is written. */
export interface Unproven {
  readonly step: Step | null
  readonly part: Part
  readonly range: Range
  readonly text: string
  /** `never`: no entry holds it; `reworded`: one that worked was carried there and changed. */
  readonly why: 'failed' | 'unknown' | 'reworded' | 'never'
  /** The entries' deeds that come nearest. */
  readonly deeds: readonly Deed[]
}

export interface Coverage {
  /** Succeeded, not undone, not replaced, no counterpart, not left out. What matters most comes first. */
  readonly omissions: readonly Omission[]
  /** The same where the outcome is unknown, or what the command does. Never counted as succeeded. */
  readonly uncertain: readonly Omission[]
  readonly leftOut: readonly { readonly omission: Omission; readonly says: LeftOut }[]
  readonly covered: readonly Covered[]
  /** What changed something and needs no counterpart. */
  readonly passed: readonly { readonly deed: Deed; readonly fate: Fate }[]
  readonly failed: readonly Deed[]
  readonly unproven: readonly Unproven[]
}

/** How the journal and a procedure cover one another. */
export function omissionsOf(journal: JournalRecords, procedure: ProcedureRecords): Coverage {
  const deeds = deedsOf(journal)
  const fates = fatesOf(deeds, answeredBy(procedure.links, journal))
  const held = heldBy(procedure, journal)
  const carried = carriedDeeds(deeds, held, procedure, journal)
  const listed = deeds.filter((deed) => isListed(deed) && !fates.has(deed))
  const all = groupsOf(listed)
  const covered = all.flatMap((omission): Covered[] => {
    const by = counterpartsOf(omission, held, carried, deeds)
    return by.length > 0 ? [{ omission, by }] : []
  })
  const found = new Set(covered.map(({ omission }) => omission))
  const open = all.filter((one) => !found.has(one))
  const leftOut = open.flatMap((omission) => {
    const says = procedure.leftOut.find((one) => omission.deeds.some((deed) => isLeftOut(one, deed)))
    return says ? [{ omission, says }] : []
  })
  const out = new Set(leftOut.map(({ omission }) => omission))
  const steps = new Map<Deed, string[]>()
  for (const { omission, by } of covered)
    for (const deed of omission.deeds)
      steps.set(
        deed,
        by.map(({ step }) => step?.id ?? ''),
      )
  const missing = inRank(
    open.filter((one) => !out.has(one)),
    listed,
    (deed) => steps.get(deed) ?? [],
    new Set(held.flatMap(({ changed }) => changed.flatMap(({ name }) => (name === null ? [] : [name])))),
    held.map(({ text }) => text).join('\n'),
  )
  const isSure = ({ outcome, effect }: Omission): boolean => outcome === 'succeeded' && effect !== 'unknown'
  return {
    omissions: missing.filter(isSure),
    uncertain: missing.filter((one) => !isSure(one)),
    leftOut,
    covered,
    passed: [...fates].map(([deed, fate]) => ({ deed, fate })),
    failed: deeds.filter((deed) => deed.outcome === 'failed' && isChanging(deed)),
    unproven: unprovenOf(held, deeds, carried),
  }
}

/** Programs that change the shell that they are typed in and nothing else. */
const ofShell = new Set([
  'cd',
  'umask',
  'export',
  'set',
  'unset',
  'alias',
  'exit',
  'logout',
  'history',
  'pushd',
  'popd',
  '',
])

/** Whether a command changes the shell that it is typed in, and nothing else. */
export const isOfShell = ({ program, changed }: Pick<Deed, 'program' | 'changed'>): boolean =>
  changed.length === 0 && ofShell.has(program ?? ' ')

function isListed(deed: Deed): boolean {
  if (deed.outcome === 'failed') return false
  return isChanging(deed) || (!deed.effect.isKnown && !ofShell.has(deed.program ?? ' '))
}

const unranked = { weight: 0, reasons: [], near: { before: [], behind: [] } } as const

/** Equal deeds on one machine are one. */
function groupsOf(deeds: readonly Deed[]): Omission[] {
  const groups = new Map<string, Deed[]>()
  for (const deed of deeds) {
    const id = JSON.stringify([deed.where, deed.key])
    groups.set(id, [...(groups.get(id) ?? []), deed])
  }
  return [...groups].map(([id, own]): Omission => {
    const worked = own.filter(({ outcome }) => outcome === 'succeeded')
    const deed = (worked.at(-1) ?? own.at(-1))!
    const effect = deed.effect.effects.includes('destroys')
      ? 'destroys'
      : isChanging(deed)
        ? 'changes'
        : 'unknown'
    return { id, deed, deeds: own, outcome: worked.length > 0 ? 'succeeded' : 'unknown', effect, ...unranked }
  })
}

const isLeftOut = ({ entry, command }: LeftOut, deed: Deed): boolean =>
  entry === deed.entry.id && (command === null || sharePieces(command, deed.pieces))

/** What was carried into which commands and files of the procedure, by deed. */
function carriedDeeds(
  deeds: readonly Deed[],
  held: readonly Held[],
  { links, states, parts }: ProcedureRecords,
  { pieces }: Pick<JournalRecords, 'pieces'>,
): Map<Deed, Held[]> {
  const own = new Set<string>(parts.map(({ id }) => id))
  const found = new Map<Deed, Held[]>()
  for (const link of links) {
    if (!own.has(link.newer.node.id) || link.older.node.kind !== 'entry') continue
    const reached = held.filter((one) => one.part.id === link.newer.node.id && isReached(one, link, states))
    if (reached.length === 0) continue
    for (const deed of deeds) {
      if (deed.entry.id !== link.older.node.id || !isTaken(deed, link, states, pieces)) continue
      const here = reached.filter(({ where }) => mayBeSamePlace(where, deed.where))
      found.set(deed, [...(found.get(deed) ?? []), ...here])
    }
  }
  return found
}

function isReached({ range, part }: Held, link: Link, states: ProcedureRecords['states']): boolean {
  const state = states.get(link.id)
  if (state?.newer.loose) return false
  const places = state?.newer.places ?? link.newer.ranges.map(({ position }) => position)
  return part.kind === 'file' || places.some((place) => place !== null && meet(place, range))
}

/** Whether a link took the deed's words: by the identities that it held, else by where they stood. */
function isTaken(
  deed: Deed,
  link: Link,
  states: ProcedureRecords['states'],
  pieces: JournalRecords['pieces'],
): boolean {
  const own = states.get(link.id)?.older.pieces
  if (own && pieces.has(deed.entry.id)) return own.some((range) => sharePieces(range, deed.pieces))
  return link.older.ranges.some(({ position }) => meet(position, deed.range))
}

const meet = (a: Range, b: Range): boolean => a.start < b.end && b.start < a.end

function counterpartsOf(
  omission: Omission,
  held: readonly Held[],
  carried: ReadonlyMap<Deed, readonly Held[]>,
  deeds: readonly Deed[],
): Counterpart[] {
  const { deed } = omission
  const same = held.filter((one) => isCounterpart(one, deed)).map((one) => toCounterpart(one, 'same'))
  const linked = omission.deeds
    .flatMap((one) => carried.get(one) ?? [])
    .map((one) => toCounterpart(one, 'carried'))
  const set = held.filter((one) => setsFileOf(one, deed, deeds)).map((one) => toCounterpart(one, 'file'))
  const all = [...same, ...linked, ...set]
  return all.filter((one, n) => all.findIndex(({ part }) => part.id === one.part.id) === n)
}

const toCounterpart = ({ step, part }: Held, way: Counterpart['way']): Counterpart => ({ step, part, way })

/**
 * Whether the procedure sets the whole file that a deed only changed. Where the file's last state is known from the
 * journal, the procedure must set that one.
 */
function setsFileOf(held: Held, deed: Deed, deeds: readonly Deed[]): boolean {
  const { sets } = held
  if (!sets || !mayBeSamePlace(held.where, deed.where)) return false
  const name = `file ${sets.path}`
  if (deed.changed.length === 0 || !deed.changed.every((one) => one.name === name && !one.isDestroyed))
    return false
  if (besideContent.has(deed.program ?? '')) return false
  const last = deeds
    .filter((one) => one.outcome !== 'failed' && mayBeSamePlace(one.where, deed.where))
    .filter(
      (one) => one.changed.some((touch) => touch.name === name) && !besideContent.has(one.program ?? ''),
    )
    .at(-1)
  return !last?.sets || last.sets.content === sets.content
}

function unprovenOf(
  held: readonly Held[],
  deeds: readonly Deed[],
  carried: ReadonlyMap<Deed, readonly Held[]>,
): Unproven[] {
  return held.flatMap((one): Unproven[] => {
    if (ofShell.has(one.program ?? ' ')) return []
    const same = deeds.filter((deed) => isCounterpart(one, deed))
    if (same.some(({ outcome }) => outcome === 'succeeded')) return []
    const { step, part, range, text } = one
    const linked = deeds.filter((deed) => carried.get(deed)?.includes(one) && deed.outcome === 'succeeded')
    if (same.length > 0) {
      const why = same.every(({ outcome }) => outcome === 'failed') ? 'failed' : 'unknown'
      return [{ step, part, range, text, why, deeds: same }]
    }
    return [{ step, part, range, text, why: linked.length > 0 ? 'reworded' : 'never', deeds: linked }]
  })
}
