/** Reading a unified diff, and applying it without any leniency: every line must stand where the diff says it does. */
import { fail, succeed, type Failure, type Result } from '../../lab/result.ts'
import { linesOf } from './unified.ts'

export interface Hunk {
  /** The header as it stands, for sentences about the hunk. */
  readonly header: string
  /** Lines before the hunk in the older and in the newer text. */
  readonly before: number
  readonly after: number
  /** The hunk's lines in either text, with their line ends. */
  readonly older: readonly string[]
  readonly newer: readonly string[]
}

/** The part of a diff that is about one file. */
export interface FileDiff {
  /** What stands behind `---` and `+++`, without a time. `/dev/null` where there is no file on that side. */
  readonly pathBefore: string
  readonly pathAfter: string
  readonly hunks: readonly Hunk[]
  /** The part itself, from `---` on. */
  readonly text: string
}

export type DiffFailure = Failure<'no diff' | 'misfit' | 'several files'>

const header = /^@@ -(\d+)(?:,(\d+))? \+(\d+)(?:,(\d+))? @@/

/**
 * The files of a unified diff, in order. Words before a file's `---` (a commit's message, `diff …`, `index …`) are
 * skipped. Undefined where the text holds no diff, or one that breaks off or does not hold as many lines as it says.
 */
export function maybeFileDiffs(text: string): FileDiff[] | undefined {
  const lines = linesOf(text.endsWith('\n') || text === '' ? text : `${text}\n`)
  const diffs: FileDiff[] = []
  for (let at = 0; at < lines.length;) {
    const found = maybeFileDiff(lines, at)
    if (found === 'broken') return undefined
    if (found) diffs.push(found.diff)
    at = found?.end ?? at + 1
  }
  return diffs.length === 0 ? undefined : diffs
}

function maybeFileDiff(
  lines: readonly string[],
  start: number,
): { diff: FileDiff; end: number } | 'broken' | undefined {
  const [older, newer] = [/^--- (.+)\n$/, /^\+\+\+ (.+)\n$/].map(
    (line, k) => line.exec(lines[start + k] ?? '')?.[1],
  )
  if (older === undefined || newer === undefined || !header.test(lines[start + 2] ?? '')) return undefined
  const hunks: Hunk[] = []
  let at = start + 2
  while (header.test(lines[at] ?? '')) {
    const read = maybeHunk(lines, at)
    if (!read) return 'broken'
    hunks.push(read.hunk)
    at = read.end
  }
  const diff = {
    pathBefore: pathIn(older),
    pathAfter: pathIn(newer),
    hunks,
    text: lines.slice(start, at).join(''),
  }
  return { diff, end: at }
}

/** Behind a path may stand a tab and a time. */
const pathIn = (label: string): string => label.replace(/\r$/, '').replace(/\t.*$/, '')

function maybeHunk(lines: readonly string[], start: number): { hunk: Hunk; end: number } | undefined {
  const [, from, length, comeFrom, comeLength] = header.exec(lines[start]!)!
  const [olderLength, newerLength] = [Number(length ?? 1), Number(comeLength ?? 1)]
  const [older, newer]: [string[], string[]] = [[], []]
  let at = start + 1
  let last: string[][] = []
  while (older.length < olderLength || newer.length < newerLength || lines[at]?.startsWith('\\')) {
    const line = lines[at++]
    if (line === undefined) return undefined
    // Programs that cut blanks at the ends of lines leave an empty context line without its sign.
    const sign = line === '\n' ? ' ' : line[0]!
    const rest = line === '\n' ? line : line.slice(1)
    if (sign === '\\') last.forEach((side) => side.push(side.pop()!.replace(/\n$/, '')))
    else if (!' -+'.includes(sign)) return undefined
    else last = [...(sign === '+' ? [] : [older]), ...(sign === '-' ? [] : [newer])]
    if (sign !== '\\') last.forEach((side) => side.push(rest))
  }
  if (older.length !== olderLength || newer.length !== newerLength) return undefined
  const placeOf = (number: string, count: number): number =>
    count === 0 ? Number(number) : Number(number) - 1
  const places = { before: placeOf(from!, olderLength), after: placeOf(comeFrom!, newerLength) }
  return { hunk: { header: lines[start]!.replace(/\r?\n$/, ''), ...places, older, newer }, end: at }
}

/** The content after a unified diff of one file. Refuses a hunk whose lines do not stand exactly where it says. */
export function applyUnified(before: string, diff: string): Result<string, DiffFailure> {
  const diffs = maybeFileDiffs(diff)
  if (!diffs) return fail('no diff', 'This is no unified diff, or it is not whole. Nothing was applied.')
  if (diffs.length > 1)
    return fail(
      'several files',
      'This diff is about several files. Nothing was applied; keep one entry for each file.',
    )
  const lines = linesOf(before)
  const after: string[] = []
  let at = 0
  for (const [index, hunk] of diffs[0]!.hunks.entries()) {
    // Overlapping hunks, and hunks that say another place in the newer text than they come to, are refused as well.
    const fits = hunk.before >= at && hunk.before + hunk.older.length <= lines.length
    if (!fits || hunk.older.some((line, k) => line !== lines[hunk.before + k])) return misfit(index, hunk)
    for (; at < hunk.before; at++) after.push(lines[at]!)
    if (after.length !== hunk.after) return misfit(index, hunk)
    for (const line of hunk.newer) after.push(line)
    at += hunk.older.length
  }
  const whole = [...after, ...lines.slice(at)]
  const isJoined = whole.some((line, k) => k < whole.length - 1 && !line.endsWith('\n'))
  return isJoined ? misfit(diffs[0]!.hunks.length - 1, diffs[0]!.hunks.at(-1)!) : succeed(whole.join(''))
}

function misfit(index: number, hunk: Hunk): DiffFailure {
  return fail(
    'misfit',
    `Hunk ${index + 1} (${hunk.header}) does not fit the state before. Nothing was applied; add the file's whole content instead.`,
  )
}
