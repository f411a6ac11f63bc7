/** What a figure is: a measurement with a name, and what it must keep to. */

/** A figure's file, `test/bench/<area>.figures.ts`, exports a list of these as `figures`. */
export interface Figure {
  /** The area and the number of the claim that it shows, with a letter where a claim has several: `thread.4`, `thread.4b`. */
  readonly id: string
  /** What is measured, in a few words. */
  readonly what: string
  /** Measures it. A speed is a ratio of two things measured side by side in here, never a time alone. */
  measure(): Promise<Measured>
  /** What the value must keep to; a figure without one is reported only. */
  readonly bound?: Bound
  /** What it is compared with, in words, where there is no bound: a published value, the state before. */
  readonly baseline?: string
  /** Where the bound or the baseline was published. */
  readonly source?: string
  /** Quick enough to be checked with every test run: about a second. */
  readonly quick: boolean
}

export interface Measured {
  readonly value: number
  /** The unit of the value; empty for a plain number or a ratio. */
  readonly unit: string
}

export interface Bound {
  readonly op: '<=' | '>='
  readonly value: number
}

/** Says whether a value keeps to a bound. NaN keeps to none. */
export function isWithin(value: number, bound: Bound): boolean {
  switch (bound.op) {
    case '<=':
      return value <= bound.value
    case '>=':
      return value >= bound.value
  }
}

/** The line of a figure: `<id> <what> = <value> <unit> (<bound or baseline>) [<source>]`. */
export function toLine(figure: Figure, measured: Measured): string {
  const bound =
    figure.bound === undefined ? [] : [`${figure.bound.op === '<=' ? '≤' : '≥'} ${figure.bound.value}`]
  const kept = [...bound, ...(figure.baseline === undefined ? [] : [figure.baseline])].join('; ')
  const words = [figure.id, figure.what, '=', toDigits(measured.value), measured.unit]
  return [...words, kept === '' ? '' : `(${kept})`, figure.source === undefined ? '' : `[${figure.source}]`]
    .filter((word) => word !== '')
    .join(' ')
}

/** A value with at most four digits that mean something, never in exponents. */
function toDigits(value: number): string {
  if (!Number.isFinite(value)) return String(value)
  if (Number.isInteger(value) || Math.abs(value) >= 1000) return String(Math.round(value))
  return String(Number(value.toPrecision(4)))
}

/** Checks the figures of one area's file. @throws when an id is not of that area or stands twice */
export function checkFigures(area: string, figures: readonly Figure[]): void {
  const seen = new Set<string>()
  for (const { id } of figures) {
    if (!new RegExp(`^${area}\\.\\d+[a-z]?$`).test(id)) throw new Error(`${id} is not a figure of ${area}`)
    if (seen.has(id)) throw new Error(`${id} stands twice`)
    seen.add(id)
  }
}

/**
 * The text of test/FIGURES.md after a run: the measured areas' lines are replaced, the others stay.
 *
 * @param before the text as it stood, empty at first
 * @param measured the new lines of each area that was measured in whole
 */
export function toRecord(before: string, measured: ReadonlyMap<string, readonly string[]>): string {
  const areas = new Map<string, readonly string[]>()
  for (const line of before.split('\n')) {
    const area = /^- ([a-z]+)\./.exec(line)?.[1]
    if (area !== undefined) areas.set(area, [...(areas.get(area) ?? []), line.slice(2)])
  }
  for (const [area, lines] of measured) areas.set(area, lines)
  const sections = [...areas].sort(([one], [other]) => (one < other ? -1 : 1))
  const text = sections.map(
    ([area, lines]) => `\n## ${area}\n\n${lines.map((line) => `- ${line}`).join('\n')}\n`,
  )
  return `# Figures\n\nWritten by \`npm run figures\`; not to be edited by hand.\n${text.join('')}`
}
