/**
 * Files that nano wrote, read from its screens ("The GNU nano editor manual", 3.1 The Editor, 3.2 Entering Text): the
 * title bar in the first row, the text, and `[ Wrote N lines ]` in the status bar. That number is the proof: only a
 * text of so many lines is given.
 */
import type { ScreenShot } from '../terminal/found.ts'
import { mayHideTabs } from './blanks.ts'
import type { EditorSave } from './editor.ts'
import { withoutEmptyEnd } from './windows.ts'

const title = /^ *GNU nano (\d+)[\d.]*(?: {2,}(.*?))?(?: *| +(?:Modified|\*))$/
const wrote = /^ *\[ Wrote (\d+) lines? \]$/

interface NanoScreen {
  readonly shot: ScreenShot
  /** The title bar's path, as shown; perhaps cut at its beginning. */
  readonly path: string
  readonly hadSpace: boolean
  /** The row of the status bar. */
  readonly status: number
  /** What the status bar says was written. */
  readonly wrote: number | undefined
}

/** Says whether a screen is one of nano's. */
export function isNano({ lines }: ScreenShot): boolean {
  return title.test(lines[0] ?? '')
}

/** What nano wrote, in order, as far as all of it was seen. */
export function nanoSaves(shots: readonly ScreenShot[]): EditorSave[] {
  const screens = shots.flatMap((shot) => maybeScreen(shot) ?? [])
  return screens.flatMap((screen, at) => {
    // The message stays until the next key; only its first screen shows what was written.
    if (screen.wrote === undefined || screens[at - 1]?.wrote !== undefined) return []
    const content = maybeText(screens, at)
      ?.map((line) => `${line}\n`)
      .join('')
    return [{ path: screen.path, content, isProven: false }]
  })
}

function maybeScreen(shot: ScreenShot): NanoScreen | undefined {
  const [, version, label] = title.exec(shot.lines[0] ?? '') ?? []
  if (version === undefined) return undefined
  const last = shot.rows - 1
  // Under the status bar there are two rows of help, or none.
  const said = [last - 2, last].find((row) => wrote.test(shot.lines[row] ?? ''))
  const hasHelp = /^\^[A-Z] /.test(shot.lines[last] ?? '')
  const count = said === undefined ? undefined : Number(wrote.exec(shot.lines[said]!)![1])
  return {
    shot,
    path: (label ?? '').replace(/^File: /, '').trim(),
    // Before version 5 an empty row stood under the title.
    hadSpace: Number(version) < 5,
    status: said ?? (hasHelp ? last - 2 : last),
    wrote: count,
  }
}

/** The lines that were written. Undefined where not all were seen, or where what was seen can be read in two ways. */
function maybeText(screens: readonly NanoScreen[], at: number): readonly string[] | undefined {
  const screen = screens[at]!
  const count = screen.wrote!
  if (count === 0) return rowsOf(screen, 1).every((row) => row === '') ? [] : undefined
  for (const top of screen.hadSpace ? [1, 2] : [1]) {
    const lines = maybeLines(screens, at, top, count)
    if (lines) return isSure(lines, screens.slice(0, at + 1), top) ? lines : undefined
  }
  return undefined
}

/** The lines on one screen, where they are so many. What was on other screens may have been caught while it was painted. */
function maybeLines(
  screens: readonly NanoScreen[],
  at: number,
  top: number,
  count: number,
): readonly string[] | undefined {
  const all = rowsOf(screens[at]!, top)
  const rows = withoutEmptyEnd(all)
  if (rows.length === count) return rows
  if (count === 1 && rows.length === 0) return ['']
  const missing = count - rows.length
  // Empty lines at the end of the text look like the rows behind it; then the first row must be the first line.
  if (missing > 0 && count <= all.length && !mayBeScrolled(screens.slice(0, at + 1), top))
    return [...rows, ...Array.from({ length: missing }, () => '')]
  return undefined
}

/** Whether what stands in the first row at last was ever seen in a lower one. */
function mayBeScrolled(screens: readonly NanoScreen[], top: number): boolean {
  const first = screens.at(-1)!.shot.lines[top]!
  return first === '' || screens.some((screen) => rowsOf(screen, top).slice(1).includes(first))
}

const rowsOf = ({ shot, status }: NanoScreen, top: number): readonly string[] => shot.lines.slice(top, status)

function isSure(lines: readonly string[], screens: readonly NanoScreen[], top: number): boolean {
  const { columns } = screens[0]!.shot
  // A row that fills the screen may be cut (`>`, in older versions `$`), or go on in the next one.
  if (lines.some((line) => line.length >= columns || line.includes('\ufffd'))) return false
  if (lines.every((line, row) => line.trimStart().startsWith(`${row + 1} `))) return false
  if (mayHideTabs(lines, [0])) return false
  if (lines.some((line) => /^[<$]/.test(line) && mayBeShifted(line, screens, top))) return false
  return !hasBlanksBehind(lines, screens, top)
}

/**
 * The row with the cursor is shifted where its line is longer than the screen, and then begins with such a sign. Not so
 * a row that was seen with the cursor in another one, or when its first letter was typed.
 */
function mayBeShifted(line: string, screens: readonly NanoScreen[], top: number): boolean {
  return !screens.some((screen) => {
    const { cursor, lines } = screen.shot
    if (cursor.row < top || cursor.row >= screen.status) return false
    if (lines[cursor.row] === line[0]) return true
    return lines.some((row, at) => at >= top && at < screen.status && at !== cursor.row && row === line)
  })
}

/** Whether the cursor was seen behind the last letter of a line: blanks at its end show by nothing else. */
function hasBlanksBehind(lines: readonly string[], screens: readonly NanoScreen[], top: number): boolean {
  const last = screens.at(-1)!
  return screens.some(({ shot }) => {
    const { row, column } = shot.cursor
    const shown = shot.lines[row]
    if (row < top || row >= last.status || shown === undefined || !lines.includes(shown)) return false
    return shown === last.shot.lines[row] && column > shown.length
  })
}
