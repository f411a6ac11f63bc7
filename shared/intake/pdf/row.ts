/** One line of text out of its runs: their order, the spaces between them, and what kind of line it is. */
import type { Row, Run } from './page.ts'

export function toRow(unsorted: readonly Run[]): Row {
  const length = unsorted.reduce((sum, { text }) => sum + text.length, 0)
  const share = (isSo: (run: Run) => boolean): number =>
    unsorted.reduce((sum, run) => sum + (isSo(run) ? run.text.length : 0), 0) / length
  const isRightToLeft = share((run) => run.isRightToLeft) > 0.5
  const runs = [...unsorted].sort((a, b) =>
    isRightToLeft ? b.right - a.right || a.order - b.order : a.left - b.left || a.order - b.order,
  )
  const main = mainRun(runs)
  const isMono = share((run) => run.isMono) === 1
  return {
    text: textOf(runs, isRightToLeft),
    runs,
    left: runs.reduce((least, { left }) => Math.min(least, left), Infinity),
    right: runs.reduce((most, { right }) => Math.max(most, right), -Infinity),
    y: main.y,
    size: main.size,
    isMono,
    isTabular: !isMono && (hasWideGap(runs) || leaders.test(runs.map(({ text }) => text).join(''))),
  }
}

/** Dots that lead the eye to a page's number. */
const leaders = /(?:\.\s?){5,}|…{2,}/u

function mainRun(runs: readonly Run[]): Run {
  const lengths = new Map<number, number>()
  for (const { size, text } of runs) lengths.set(size, (lengths.get(size) ?? 0) + text.length)
  return runs.reduce((one, other) => {
    const [a, b] = [lengths.get(one.size)!, lengths.get(other.size)!]
    return b > a ? other : one
  })
}

function hasWideGap(runs: readonly Run[]): boolean {
  return runs.some((run, i) => i > 0 && run.left - runs[i - 1]!.right > 2.5 * run.size)
}

function textOf(runs: readonly Run[], isRightToLeft: boolean): string {
  let text = ''
  for (const [i, run] of runs.entries()) {
    const before = runs[i - 1]
    if (before && isSpaceBetween(before, run, isRightToLeft)) text += ' '
    text += run.text
  }
  return text.replace(/\s+/gu, ' ').trim()
}

function isSpaceBetween(before: Run, run: Run, isRightToLeft: boolean): boolean {
  const gap = isRightToLeft ? before.left - run.right : run.left - before.right
  const size = Math.min(before.size, run.size)
  // Some fonts say their widths so oddly that spaces are told between all parts of a word.
  if (run.order === before.order + 1 && run.isSpaced) return gap > 0.08 * size
  // Runs that were drawn one after the other have their spaces told; others are only told by their places.
  return gap > (run.order === before.order + 1 ? 0.5 : 0.15) * size
}

/** The middle one; 0 of none. */
export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
}

export function differences(values: readonly number[]): number[] {
  return values.slice(1).map((value, i) => value - values[i]!)
}
