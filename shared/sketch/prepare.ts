/** The text of a diagram as it is given to the library, with the way back from its lines to those that were written. */

export interface Prepared {
  readonly text: string
  /** The written line for a line of `text`, both counted from 1. */
  lineOf(line: number): number
}

/**
 * Leaves out comments, which the library would leave out itself without a trace in the lines that it then names, and
 * blank lines at the beginning.
 */
export function toPrepared(text: string): Prepared {
  const kept = text
    .replace(/\r\n?/gu, '\n')
    .split('\n')
    .map((line, at) => ({ line, at: at + 1 }))
    .filter(({ line }) => !/^\s*%%(?!\{)/u.test(line))
  while (kept.length > 0 && kept[0]!.line.trim() === '') kept.shift()
  return {
    text: kept.map(({ line }) => line).join('\n'),
    lineOf: (line) => (kept[line - 1] ?? kept.at(-1))?.at ?? 1,
  }
}
