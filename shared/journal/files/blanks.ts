/** Blanks on a screen that may be tabs in the file: a tab shows as the blanks up to the next tab stop. */

const STOP = 8

/**
 * Says whether blanks in these lines may be tabs. One blank alone is taken for a blank, and so is an indentation where
 * a smaller one cannot be a tab, which shows that the file is indented by blanks.
 * @param offsets columns that may stand before each line on the screen (a prompt's); tab stops are counted from them
 */
export function mayHideTabs(lines: readonly string[], offsets: readonly number[]): boolean {
  if (lines.some((line) => line.includes('\t'))) return false
  const indents = lines.filter((line) => line.trim() !== '').map((line) => line.search(/\S/))
  return offsets.some((offset) => {
    const isStop = (column: number): boolean => (offset + column) % STOP === 0
    const least = indents
      .filter((indent) => indent > 0 && !isStop(indent))
      .reduce((a, b) => Math.min(a, b), Infinity)
    return lines.some((line) =>
      Array.from(line.matchAll(/ {2,}/g)).some(({ index, 0: run }) => {
        const end = index + run.length
        if (index === 0) return isStop(end) && end < line.length && least > end
        return isStop(end) || hasOtherWidths(line.slice(0, index))
      }),
    )
  })
}

/** Letters that may take no column or two. */
const hasOtherWidths = (text: string): boolean => /[^\0-\u02ff]/.test(text)

/**
 * The lines as they are in a file of so many bytes (UTF-8, line ends counted): as they stand, or with a tab wherever
 * one can stand. Undefined where neither fits, or where it is not sure which blanks are tabs.
 */
export function maybeOfLength(
  lines: readonly string[],
  bytes: number,
  lengthOf: (lines: readonly string[]) => number,
): readonly string[] | undefined {
  if (lengthOf(lines) === bytes) return lines
  const tabbed = lines.map(maybeTabbed)
  // In a file with tabs, a blank alone before a tab stop may be one too.
  if (tabbed.includes(undefined) || lines.some(hasBlankBeforeStop)) return undefined
  return lengthOf(tabbed as string[]) === bytes ? (tabbed as string[]) : undefined
}

/** A line with a tab wherever one can stand in the place of several blanks. Undefined where there is more than one way. */
function maybeTabbed(line: string): string | undefined {
  if (hasOtherWidths(line)) return undefined
  let text = ''
  let column = 0
  for (const part of line.match(/ +|[^ ]+/g) ?? []) {
    const end = column + part.length
    const firstStop = (Math.floor(column / STOP) + 1) * STOP
    if (part.length === 1 || part[0] !== ' ' || end < firstStop) text += part
    else if (firstStop - column === 1) return undefined
    else text += '\t'.repeat(Math.floor((end - firstStop) / STOP) + 1) + ' '.repeat(end % STOP)
    column = end
  }
  return text
}

const hasBlankBeforeStop = (line: string): boolean =>
  Array.from(line.matchAll(/(?<! ) (?! )/g)).some(({ index }) => index % STOP === STOP - 1)

/** Bytes of a text in UTF-8. */
export function bytesOf(text: string): number {
  let bytes = 0
  for (const sign of text) {
    const code = sign.codePointAt(0)!
    bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4
  }
  return bytes
}
