/** What stands elsewhere in the order: runs that stand once on each side among what has no partner. */
import { none, setPair, type Draft } from './partners.ts'
import type { Sides } from './anchors.ts'
import { hashOf, type Hashes } from './runs.ts'

const LENGTHS = [16, 8, 4] as const
/** A run that was moved weighs so much at least; a shorter one stands there by chance. */
const LEAST_WEIGHT = 16
const TWICE = -1

export function pairMoved(draft: Draft, sides: Sides): void {
  for (const length of LENGTHS)
    for (const [from, to] of runsLeft(draft, sides, length)) pairRun(draft, from, to)
}

/** Runs whose tokens have no partners, and which stand once among such on each side. */
function runsLeft(
  { partners, origins }: Draft,
  { olderHashes, newerHashes }: Sides,
  length: number,
): [number, number][] {
  const there = onceAmongFree(partners, olderHashes, length)
  const here = onceAmongFree(origins, newerHashes, length)
  return [...there].flatMap(([hash, from]): [number, number][] => {
    const to = here.get(hash) ?? TWICE
    return from === TWICE || to === TWICE ? [] : [[from, to]]
  })
}

function onceAmongFree(partners: Int32Array, hashes: Hashes, length: number): Map<number, number> {
  const places = new Map<number, number>()
  let free = 0
  for (let end = 1; end <= partners.length; end++) {
    free = partners[end - 1]! < 0 ? free + 1 : 0
    if (free < length) continue
    const hash = hashOf(hashes, { start: end - length, end })
    places.set(hash, places.has(hash) ? TWICE : end - length)
  }
  return places
}

/** Pairs a run and what goes on with it on both sides. */
function pairRun(draft: Draft, from: number, to: number): void {
  const { partners, origins, moved, older, newer } = draft
  const goesOn = (i: number): boolean =>
    partners[from + i] === none && origins[to + i] === none && older.ids[from + i] === newer.ids[to + i]
  if (!goesOn(0)) return
  let [first, last, weight] = [0, 0, 0]
  while (goesOn(first - 1)) first--
  while (goesOn(last + 1)) last++
  for (let i = first; i <= last; i++) weight += older.weights[from + i]!
  if (weight < LEAST_WEIGHT) return
  for (let i = first; i <= last; i++) {
    setPair(draft, from + i, to + i)
    moved[from + i] = 1
  }
}
