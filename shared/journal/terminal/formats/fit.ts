/** Whether a timing file belongs to a log, told by what both count. */
import type { Measured } from './sessions.ts'
import { layoutByNames, type Counted, type Layout } from './timing.ts'

export interface Fit {
  readonly layout: 'output' | 'both'
  /** The first session that it is of: script(1) appends to a log with `-a`, but begins its timing file anew. */
  readonly from: number
}

/**
 * How a timing file fits its log. `typed`: the log holds only keys. `untold`: it holds keys, and nothing tells which bytes
 * they are. Null: it does not fit, and nothing says that keys are in the log.
 */
export function findFit(
  counted: Counted,
  logName: string,
  measured: Measured | null,
): Fit | 'typed' | 'untold' | null {
  if (counted.records === 0) return null
  const named = layoutByNames(counted.names, logName)
  if (named === 'typed') return 'typed'
  const all = counted.output + counted.input
  const [ofOutput, ofAll] = [findFrom(counted.output, measured), findFrom(all, measured)]
  if (named === 'both') return toFit('both', ofAll ?? findCut(all, measured)) ?? 'untold'
  if (ofOutput !== null) return { layout: 'output', from: ofOutput }
  if (counted.input === 0 || named === 'output') return toFit('output', findCut(counted.output, measured))
  if (findFrom(counted.input, measured) !== null) return 'typed'
  return toFit('both', ofAll) ?? 'untold'
}

function toFit(layout: Layout & Fit['layout'], from: number | null): Fit | null {
  return from === null ? null : { layout, from }
}

/** The first session from which on there are exactly so many bytes; null where there is none. */
function findFrom(bytes: number, measured: Measured | null): number | null {
  if (measured === null) return 0
  const { bodies } = measured
  if (bytes === bodies.reduce((sum, body) => sum + body, 0)) return 0
  return bytes === bodies.at(-1) ? bodies.length - 1 : null
}

/** What ended a recording may have cut both files, each somewhere; then the records still lie over the first bytes. */
function findCut(bytes: number, measured: Measured | null): number | null {
  if (measured === null) return 0
  return measured.isClosed || bytes === 0 ? null : measured.bodies.length - 1
}
