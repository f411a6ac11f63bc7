/** Takes out pairs that stand by chance: light runs with long stretches without partners on both sides. */
import { none, type Draft } from './partners.ts'
import type { Wording } from './wording.ts'

/** A run stays that weighs so much, or so much of the code units of the shorter stretch beside it. */
const HEAVY = 24
const SHARE = 0.25

interface Run {
  readonly from: number
  readonly to: number
  readonly count: number
  readonly weight: number
}

export function withoutStrays(draft: Draft): void {
  let runs = runsOf(draft)
  for (let before = Infinity; runs.length < before;) {
    before = runs.length
    const kept: Run[] = []
    runs.forEach((run, i) => {
      if (isStray(run, kept.at(-1), runs[i + 1], draft)) dropRun(run, draft)
      else kept.push(run)
    })
    runs = kept
  }
}

function runsOf({ partners, older }: Draft): Run[] {
  const runs: Run[] = []
  for (let from = 0; from < partners.length; from++) {
    const to = partners[from]!
    if (to < 0) continue
    let [count, weight] = [0, 0]
    while (partners[from + count] === to + count) weight += older.weights[from + count++]!
    runs.push({ from, to, count, weight })
    from += count - 1
  }
  return runs
}

function isStray(run: Run, before: Run | undefined, behind: Run | undefined, draft: Draft): boolean {
  if (run.weight >= HEAVY) return false
  const gap = Math.min(gapBetween(before, run, draft), gapBetween(run, behind, draft))
  return run.weight < gap * SHARE
}

/** Code units between two runs, on the side where there are more; from or to the edge of the text where there is none. */
function gapBetween(a: Run | undefined, b: Run | undefined, { older, newer }: Draft): number {
  return Math.max(
    between(older, a && a.from + a.count - 1, b?.from),
    between(newer, a && a.to + a.count - 1, b?.to),
  )
}

function between({ starts, ends }: Wording, last: number | undefined, first: number | undefined): number {
  const to = first === undefined ? (ends.at(-1) ?? 0) : starts[first]!
  return to - (last === undefined ? 0 : ends[last]!)
}

function dropRun({ from, to, count }: Run, { partners, origins }: Draft): void {
  partners.fill(none, from, from + count)
  origins.fill(none, to, to + count)
}
