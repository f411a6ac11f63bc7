/** What of a stretch of the older text stands still, in one place of the newer one. */
import type { Range } from '../../lab/model.ts'
import type { TextAlignment } from './partners.ts'

/** A token of the stretch, with the code units that it has in the newer text. */
export interface Survivor extends Range {
  readonly token: number
  readonly weight: number
}

/** The place is at most so much longer than the stretch: so many times, and so many code units. */
const MOST_TIMES = 2
const MOST_MORE = 40
/** A run that was moved to an edge, or stayed while the rest was moved, is let go from so many times its weight away. */
const FAR = 2

/** By their place in the newer text. */
export function survivorsOf(alignment: TextAlignment, tokens: Range, stretch: Range): readonly Survivor[] {
  const all: Survivor[] = []
  for (let i = tokens.start; i < tokens.end; i++)
    if (alignment.partners[i]! >= 0) all.push(survivorAt(i, alignment, stretch))
  all.sort((a, b) => a.start - b.start)
  return withoutFarEdges(densest(all, MOST_TIMES * (stretch.end - stretch.start) + MOST_MORE), alignment)
}

/** Tokens at the edges may have been carried in part. */
function survivorAt(token: number, { older, newer, partners }: TextAlignment, stretch: Range): Survivor {
  const to = partners[token]!
  return {
    token,
    weight: older.weights[token]!,
    start: newer.starts[to]! + Math.max(0, stretch.start - older.starts[token]!),
    end: newer.ends[to]! - Math.max(0, older.ends[token]! - stretch.end),
  }
}

/** Those that weigh most together within so many code units. */
function densest(all: readonly Survivor[], most: number): readonly Survivor[] {
  let best = { from: 0, to: 0, weight: 0 }
  let [from, weight] = [0, 0]
  all.forEach((one, at) => {
    weight += one.weight
    while (one.end - all[from]!.start > most) weight -= all[from++]!.weight
    if (weight > best.weight) best = { from, to: at + 1, weight }
  })
  return all.slice(best.from, best.to)
}

/** Tokens that stand side by side in the newer text. */
interface Run {
  readonly survivors: Survivor[]
  weight: number
}

/** The lighter edge is let go first. */
function withoutFarEdges(all: readonly Survivor[], alignment: TextAlignment): readonly Survivor[] {
  const runs = runsOf(all, alignment)
  while (runs.length > 1) {
    const edges = [
      { run: runs[0]!, isFar: isFar(runs[0]!, runs[1]!, runs[0]!, alignment) },
      { run: runs.at(-1)!, isFar: isFar(runs.at(-2)!, runs.at(-1)!, runs.at(-1)!, alignment) },
    ]
    const far = edges.filter((edge) => edge.isFar).sort((a, b) => a.run.weight - b.run.weight)[0]
    if (!far) break
    runs.splice(runs.indexOf(far.run), 1)
  }
  return runs.flatMap(({ survivors }) => survivors)
}

function runsOf(all: readonly Survivor[], { partners }: TextAlignment): Run[] {
  const runs: Run[] = []
  for (const one of all) {
    const last = runs.at(-1)
    if (last && partners[one.token] === partners[last.survivors.at(-1)!.token]! + 1) {
      last.survivors.push(one)
      last.weight += one.weight
    } else runs.push({ survivors: [one], weight: one.weight })
  }
  return runs
}

/** Whether more stands between an edge and its neighbour than stood there, and one of both alone was moved. */
function isFar(first: Run, second: Run, edge: Run, { older, moved }: TextAlignment): boolean {
  const [a, b] = [first.survivors.at(-1)!, second.survivors[0]!]
  if (moved[a.token] === moved[b.token]) return false
  const here = b.start - a.end
  const there = older.starts[b.token]! - older.ends[a.token]!
  return edge.weight * FAR < (there < 0 ? here : here - MOST_TIMES * there)
}
