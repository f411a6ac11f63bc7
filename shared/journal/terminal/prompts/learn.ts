/** Learning the prompts of a session from its lines, as they come. */
import { Counting, noClusters, type Clusters, type Verdicts } from './clusters.ts'
import type { PromptedCommand, ScreenLine } from './line.ts'
import { maybeNoted, withoutRight, type Noted } from './noted.ts'
import { newSession, readNoted, type Session } from './session.ts'

/**
 * What has been read so far. A value: `extend` gives a new one. Prompts are learned from all lines, and a line of the
 * window that looked like output may turn out to be a prompt when more is known.
 */
export interface Reading {
  readonly lines: number
  /** What stands before the window and does not change any more. */
  readonly settled: Session
  readonly clusters: Clusters
  readonly window: readonly Noted[]
  /** The session behind all lines of the window but the last, which is read with the one behind it. */
  readonly session: Session
  readonly lastText: string
}

/** How many lines of interest are read again when more is known. At twice as many the older half is settled. */
export const windowSize = 1000

export const emptyReading: Reading = {
  lines: 0,
  settled: newSession,
  clusters: noClusters,
  window: [],
  session: newSession,
  lastText: '',
}

/** Reads lines from scratch. */
export function learnPrompts(lines: readonly ScreenLine[]): Reading {
  return extend(emptyReading, lines)
}

/** Reads further lines. In whichever portions they come, the outcome is the same. */
export function extend(reading: Reading, lines: readonly ScreenLine[]): Reading {
  let { settled, lastText } = reading
  const counting = new Counting(reading.clusters)
  let window = [...reading.window]
  let n = reading.lines
  // As long as nothing changed in what is known of prompts, what was read holds.
  let held = { session: reading.session, lines: Math.max(0, window.length - 1), verdicts: counting.verdicts }
  for (const line of lines) {
    const above = window.at(-1)
    const isNext = above?.n === n - 1
    if (isNext) window[window.length - 1] = { ...above, after: withoutRight(line) }
    const noted = maybeNoted(n, line, lastText, isNext ? above : null)
    lastText = withoutRight(line)
    n++
    if (!noted) continue
    window.push(noted)
    counting.add(noted)
    if (window.length < 2 * windowSize) continue
    settled = readAll(settled, window.slice(0, windowSize), counting.verdicts)
    window = window.slice(windowSize)
    held = { session: settled, lines: 0, verdicts: counting.verdicts }
  }
  const clusters = counting.end()
  const isHeld = held.verdicts === clusters.verdicts
  const known = isHeld ? held.session : settled
  const session = readAll(known, window.slice(isHeld ? held.lines : 0, -1), clusters.verdicts)
  return { lines: n, settled, clusters, window, session, lastText }
}

/** The prompts found so far, in order, also those at which nothing was typed. */
export function promptsOf({ session, window, clusters }: Reading): PromptedCommand[] {
  return [...readAll(session, window.slice(-1), clusters.verdicts).found]
}

/** The session behind some lines. The one given stays as it is. */
function readAll(session: Session, lines: readonly Noted[], verdicts: Verdicts): Session {
  if (lines.length === 0) return session
  let now: Session = { ...session, found: [...session.found] }
  for (const line of lines) now = readNoted(now, line, verdicts)
  return now
}
