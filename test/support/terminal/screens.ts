/** The screens of the alternate screen that a terminal showed, by a terminal-emulation library. */
import { Terminal } from '@xterm/headless'
import type { ScreenShot } from '../../../shared/journal/terminal/found.ts'

/** Control sequences that take something off the screen, or leave it (ECMA-48 ED, EL, DL, SU, SD; DEC private modes). */
const taking = ['J', 'K', 'M', 'S', 'T', 'L']

/**
 * The screens in order, without repeats: before what takes something away, and, where `isAfterEach`, also after each
 * piece.
 */
export async function screensOf(
  pieces: readonly Uint8Array[],
  { columns = 80, rows = 24, isAfterEach = true } = {},
): Promise<ScreenShot[]> {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true })
  const shots: ScreenShot[] = []
  const take = (): false => {
    const buffer = terminal.buffer.active
    if (buffer.type !== 'alternate') return false
    const all = Array.from({ length: rows }, (_, row) => buffer.getLine(row)!)
    const shot = {
      columns,
      rows,
      lines: all.map((line) => line.translateToString(true).trimEnd()),
      wrapped: all.map(({ isWrapped }) => isWrapped),
      cursor: { column: buffer.cursorX, row: buffer.cursorY },
    }
    if (JSON.stringify(shots.at(-1)) !== JSON.stringify(shot)) shots.push(shot)
    return false
  }
  for (const final of taking) terminal.parser.registerCsiHandler({ final }, take)
  terminal.parser.registerCsiHandler({ prefix: '?', final: 'l' }, take)
  for (const piece of pieces) {
    await new Promise<void>((go) => terminal.write(piece, go))
    if (isAfterEach) take()
  }
  terminal.dispose()
  return shots
}
