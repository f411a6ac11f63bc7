/** Learning the prompts of a session from its lines, as they come. */
import { countClusters, type Clusters } from './clusters.ts'
import type { PromptedCommand, ScreenLine } from './line.ts'
import { maybeNoted, type Noted } from './noted.ts'
import { newSession, readNoted, type Session } from './session.ts'

/**
 * What has been read so far. A value: `extend` gives a new one. Prompts are learned from all lines of the window, so
 * a line that looked like output may turn out to be a prompt when more is known, as long as it is in the window.
 */
export interface Reading {
  readonly lines: number
  /** What stands before the window and does not change any more. */
  readonly settled: Session
  readonly counted: Clusters
  readonly window: readonly Noted[]
  readonly lastText: string
}

/** How many lines of interest are read again when more is known. Past twice as many the older half is settled. */
export const windowSize = 4000

export const emptyReading: Reading = {
  lines: 0,
  settled: newSession,
  counted: new Map(),
  window: [],
  lastText: '',
}

/** Reads lines from scratch. */
export function learnPrompts(lines: readonly ScreenLine[]): Reading {
  return extend(emptyReading, lines)
}

/** Reads further lines. In whichever portions they come, the outcome is the same. */
export function extend(reading: Reading, lines: readonly ScreenLine[]): Reading {
  let { settled, counted, lastText } = reading
  let window = [...reading.window]
  let n = reading.lines
  for (const line of lines) {
    const above = window.at(-1)
    if (above?.n === n - 1) window[window.length - 1] = { ...above, after: line.text }
    const noted = maybeNoted(n, line, lastText, above?.n === n - 1 && above.isFull)
    if (noted) window.push(noted)
    lastText = line.text
    n++
    if (window.length < 2 * windowSize) continue
    const old = window.slice(0, windowSize)
    settled = readAll(settled, old, countClusters(window, counted))
    counted = countClusters(old, counted)
    window = window.slice(windowSize)
  }
  return { lines: n, settled, counted, window, lastText }
}

/** The prompts found so far, in order, also those at which nothing was typed. */
export function promptsOf(reading: Reading): PromptedCommand[] {
  const { settled, window, counted } = reading
  return [...readAll(settled, window, countClusters(window, counted)).found]
}

function readAll(session: Session, lines: readonly Noted[], clusters: Clusters): Session {
  let now: Session = { ...session, found: [...session.found] }
  for (const line of lines) now = readNoted(now, line, clusters)
  return now
}
