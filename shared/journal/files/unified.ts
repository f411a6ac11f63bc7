/**
 * Unified diffs: made as `diff -u` makes them and applied as strictly as can be (POSIX.1-2017, "diff", "Diff -u Output
 * Format"; GNU diffutils, "Detailed Description of Unified Format").
 */
import { compareLines } from './line-edits.ts'

/** Unchanged lines around a change. */
const CONTEXT = 3
const unended = '\\ No newline at end of file'

/**
 * The difference of two contents as `diff -u --label … --label …` gives it; empty where they are equal.
 * @param pathBefore what stands behind `---`; a path, perhaps with a tab and a time behind it
 */
export function unifiedDiff(
  before: string,
  after: string,
  pathBefore: string,
  pathAfter = pathBefore,
): string {
  const [a, b] = [linesOf(before), linesOf(after)]
  const groups = groupsOf(changesOf(a, b))
  if (groups.length === 0) return ''
  return [`--- ${pathBefore}\n`, `+++ ${pathAfter}\n`, ...groups.map((group) => hunkText(group, a, b))].join(
    '',
  )
}

/** Lines with their line ends; together they are the content. */
export function linesOf(content: string): string[] {
  return content.match(/[^\n]*\n|[^\n]+$/g) ?? []
}

/** Lines `from` up to and without `to` of the older text stand in the newer one's place `comeFrom` to `comeTo`. */
interface LineChange {
  readonly from: number
  readonly to: number
  readonly comeFrom: number
  readonly comeTo: number
}

function changesOf(a: readonly string[], b: readonly string[]): LineChange[] {
  const { gone, come } = compareLines(a, b)
  const changes: LineChange[] = []
  for (let [from, comeFrom] = [0, 0]; from < a.length || comeFrom < b.length;) {
    let [to, comeTo] = [from, comeFrom]
    while (gone[to]) to++
    while (come[comeTo]) comeTo++
    if (to > from || comeTo > comeFrom) changes.push({ from, to, comeFrom, comeTo })
    from = to + 1
    comeFrom = comeTo + 1
  }
  return changes
}

/** Changes whose surroundings touch stand in one hunk. */
function groupsOf(changes: readonly LineChange[]): LineChange[][] {
  const groups: LineChange[][] = []
  for (const change of changes) {
    const last = groups.at(-1)
    if (last && change.from - last.at(-1)!.to <= 2 * CONTEXT) last.push(change)
    else groups.push([change])
  }
  return groups
}

function hunkText(group: readonly LineChange[], a: readonly string[], b: readonly string[]): string {
  const [first, last] = [group[0]!, group.at(-1)!]
  const from = Math.max(0, first.from - CONTEXT)
  const comeFrom = Math.max(0, first.comeFrom - CONTEXT)
  const to = Math.min(a.length, last.to + CONTEXT)
  const comeTo = Math.min(b.length, last.comeTo + CONTEXT)
  let text = `@@ -${rangeText(from, to)} +${rangeText(comeFrom, comeTo)} @@\n`
  let at = from
  for (const change of group) {
    text += signed(' ', a.slice(at, change.from)) + signed('-', a.slice(change.from, change.to))
    text += signed('+', b.slice(change.comeFrom, change.comeTo))
    at = change.to
  }
  return text + signed(' ', a.slice(at, to))
}

/** A range of lines: counted from one, without the length where it is one; an empty one is named by the line before it. */
function rangeText(from: number, to: number): string {
  const length = to - from
  return length === 1 ? `${to}` : `${length === 0 ? from : from + 1},${length}`
}

function signed(sign: string, lines: readonly string[]): string {
  return lines
    .map((line) => (line.endsWith('\n') ? `${sign}${line}` : `${sign}${line}\n${unended}\n`))
    .join('')
}
