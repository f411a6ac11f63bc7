/** Stretches of a text that a screen showed one after the other, put together where they overlap. */

/**
 * The lines around a window, as far as other windows of the same text go on from it: in order of nearness to it.
 * Windows that do not lie on it without a contradiction are left out. The caller must know how many lines there are.
 * @param overlap lines that windows must have in common before they are joined, not counting empty ones
 */
export function stitched(
  base: readonly string[],
  others: readonly (readonly string[])[],
  overlap: number,
): readonly string[] {
  let text = withoutEmptyEnd(base)
  for (const other of others) text = joined(text, withoutEmptyEnd(other), overlap) ?? text
  return text
}

function isSame(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((row, at) => row === b[at])
}

/** The windows without those that were caught while one gave way to the next: each of their rows is one of a neighbour's. */
export function settled(windows: readonly (readonly string[])[]): (readonly string[])[] {
  const distinct = windows.filter((window, at) => at === 0 || !isSame(window, windows[at - 1]!))
  return distinct.filter((window, at) => {
    const [before, after] = [distinct[at - 1], distinct[at + 1]]
    return (
      !before ||
      !after ||
      window.some((row, line) => row !== (before[line] ?? '') && row !== (after[line] ?? ''))
    )
  })
}

/** Rows may be empty because they are not painted yet. */
export function withoutEmptyEnd(lines: readonly string[]): readonly string[] {
  let end = lines.length
  while (end > 0 && lines[end - 1] === '') end--
  return lines.slice(0, end)
}

/** The text with the window laid on it in the one place where all lines in common are equal. Undefined where it has none or several. */
function joined(
  text: readonly string[],
  window: readonly string[],
  overlap: number,
): readonly string[] | undefined {
  const places: number[] = []
  for (let at = 1 - window.length; at < text.length; at++)
    if (fits(text, window, at, overlap)) places.push(at)
  if (places.length !== 1) return undefined
  const at = places[0]!
  return [...window.slice(0, Math.max(0, -at)), ...text, ...window.slice(Math.max(0, text.length - at))]
}

function fits(text: readonly string[], window: readonly string[], at: number, overlap: number): boolean {
  let common = 0
  for (let row = Math.max(0, -at); row < window.length && at + row < text.length; row++) {
    if (text[at + row] !== window[row]) return false
    if (window[row] !== '') common++
  }
  return common >= overlap
}
