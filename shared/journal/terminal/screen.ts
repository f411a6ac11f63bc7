/**
 * A terminal's screen, by @xterm/headless: bytes go in, and what stands on the screen can be read, line by line.
 *
 * Rows that scrolled off are final: nothing but a change of width touches them. They are read soon after, so that the
 * memory of a long log stays bounded. The alternate screen (DEC private modes 47, 1047, 1049) is no part of the lines.
 */
import { Terminal, type IBuffer, type IBufferLine, type IMarker } from '@xterm/headless'
import type { ScreenShot } from './found.ts'

/** Rows that are kept above the screen. More than one piece of bytes can scroll off. */
const SCROLLBACK = 20_000
/** Bytes that are interpreted at once. Each may be a line feed, and all lines must still be there afterwards. */
export const PIECE = 12_000
/** How many screens of one full-screen program are kept, the newest. */
const MOST_SHOTS = 400

/** A line as it stood: rows that the terminal wrapped are joined. */
export interface StoodLine {
  readonly text: string
  /** Whether its last row reaches the window's edge. */
  readonly isFull: boolean
  /** Whether a line editor was switched on while the cursor stood in it (bracketed paste, DEC private mode 2004). */
  readonly isEdited: boolean
  /** The column that the cursor was in then, in UTF-16 code units of the text; left out where no editor was. */
  readonly editedAt?: number
  /** Whether it was written while a line editor was on: what was typed, not what was answered. */
  readonly isTyped: boolean
  /** Where a prompt at the window's right edge begins, in a line that was typed in; left out where there is none. */
  readonly rightFrom?: number
  /** When the cursor first came to it; null where no time is known. */
  readonly at: number | null
}

/** A place on the screen that stays with its row. */
export interface Spot {
  readonly row: IMarker
  readonly column: number
}

export interface ScreenListener {
  /** OSC 133: a mark of a shell's prompt, at the cursor. */
  readonly onMark: (words: string) => void
  /** OSC 7: a file URI (RFC 8089) of where the shell is. */
  readonly onDirectory: (uri: string) => void
  /** OSC 0 and 2: the window's title. */
  readonly onTitle: (title: string) => void
  /** What stands is about to be erased. */
  readonly onErase: () => void
  /** The terminal is about to begin anew: `reset` does it. No place from before means anything afterwards. */
  readonly onReset: (reset: () => void) => void
}

export class Screen {
  private readonly terminal: Terminal
  /** Rows that a line editor was on in; the last is open while it still is. */
  private edits: { first: IMarker; last: IMarker | null; readonly column: number }[] = []
  /** The row in which what is being edited was drawn anew, behind erasing; null where it was not. */
  private redrawnAt: number | null = null
  /** How far the cursor had come and when; only of rows that were not read yet. */
  private readonly seen: { readonly row: IMarker; readonly at: number }[] = []
  private atMs: number | null = null
  private shots: ScreenShot[] = []

  constructor(
    private size: { readonly columns: number; readonly rows: number },
    listener: ScreenListener,
  ) {
    this.terminal = new Terminal({
      cols: size.columns,
      rows: size.rows,
      scrollback: SCROLLBACK,
      allowProposedApi: true,
      logLevel: 'off',
    })
    this.listen(listener)
  }

  private listen({ onMark, onDirectory, onTitle, onErase, onReset }: ScreenListener): void {
    const { parser } = this.terminal
    parser.registerOscHandler(133, (words) => (this.isAlternate || onMark(words), true))
    parser.registerOscHandler(7, (uri) => (onDirectory(uri), true))
    for (const ident of [0, 2]) parser.registerOscHandler(ident, (title) => (onTitle(title), false))
    parser.registerCsiHandler({ final: 'J' }, (params) => {
      if (this.isAlternate) this.shoot()
      else if (params[0] === 2 || params[0] === 3 || (params[0] === 0 && this.isAtHome)) {
        onErase()
        this.noteRedrawn()
      }
      return false
    })
    for (const final of ['K', 'M', 'S', 'T', 'L'])
      parser.registerCsiHandler({ final }, () => (this.isAlternate && this.shoot(), false))
    parser.registerCsiHandler({ prefix: '?', final: 'h' }, (params) => {
      if (params.includes(2004) && !this.isAlternate) this.noteEdited()
      return false
    })
    parser.registerCsiHandler({ prefix: '?', final: 'l' }, (params) => {
      if (this.isAlternate && [47, 1047, 1049].some((mode) => params.includes(mode))) this.shoot()
      if (params.includes(2004) && !this.isAlternate) this.noteEditEnd()
      return false
    })
    // RIS (ECMA-48 §8.3.105), as by `reset`: everything is forgotten, and with the rows the places in them.
    parser.registerEscHandler({ final: 'c' }, () => {
      onReset(() => {
        this.terminal.reset()
        this.forgetRows()
      })
      return true
    })
  }

  /** Forgets what was kept for rows that are gone. */
  private forgetRows(): void {
    this.edits = []
    this.redrawnAt = null
    this.seen.length = 0
  }

  get columns(): number {
    return this.size.columns
  }

  get isAlternate(): boolean {
    return this.terminal.buffer.active.type === 'alternate'
  }

  private get isAtHome(): boolean {
    const { cursorX, cursorY } = this.terminal.buffer.active
    return cursorX === 0 && cursorY === 0
  }

  private get lines(): IBuffer {
    return this.terminal.buffer.normal
  }

  /** The row of the cursor, from the oldest that is kept. */
  private get cursorRow(): number {
    return this.lines.baseY + this.lines.cursorY
  }

  /** Interprets at most PIECE bytes. @param at when they came, milliseconds since 1970 */
  write(bytes: Uint8Array, at: number | null): Promise<void> {
    this.atMs = at
    return new Promise((done) =>
      this.terminal.write(bytes, () => {
        this.noteRows()
        if (this.isAlternate) this.shoot()
        done()
      }),
    )
  }

  resize(columns: number, rows: number): void {
    this.size = { columns, rows }
    this.terminal.resize(Math.max(2, columns), Math.max(1, rows))
  }

  /** Where the cursor is. Undefined on the alternate screen. */
  spot(): Spot | undefined {
    if (this.isAlternate) return undefined
    const row = this.terminal.registerMarker(0)
    return row && { row, column: this.lines.cursorX }
  }

  /** The beginning of a row of the screen's own lines. */
  private spotAt(row: number): Spot | undefined {
    if (this.isAlternate) return undefined
    const marker = this.terminal.registerMarker(row - this.cursorRow)
    return marker && { row: marker, column: 0 }
  }

  /** Remembers when the cursor had come this far. One marker for each piece: markers cost something with each line. */
  private noteRows(): void {
    if (this.atMs === null || this.isAlternate) return
    if (this.seen.at(-1)?.row.line === this.cursorRow) return
    const row = this.terminal.registerMarker(0)
    if (row) this.seen.push({ row, at: this.atMs })
  }

  private timeOf(row: number): number | null {
    return this.seen.find((one) => one.row.line >= row)?.at ?? this.atMs
  }

  private noteEdited(): void {
    const first = this.terminal.registerMarker(0)
    // Whatever ended the one before did not say so.
    const before = this.edits.at(-1)
    if (before?.last === null) before.last = before.first
    if (first) this.edits.push({ first, last: null, column: this.lines.cursorX })
    this.redrawnAt = null
  }

  /** An editor that clears the screen goes on at the top, and the marker goes with the row that is erased. */
  private noteRedrawn(): void {
    if (this.edits.at(-1)?.last === null) this.redrawnAt = this.cursorRow
  }

  /** Some editors go to the next row before they switch it off, some behind. */
  private noteEditEnd(): void {
    const edit = this.edits.at(-1)
    if (edit?.last === null && this.redrawnAt !== null)
      edit.first = this.terminal.registerMarker(this.redrawnAt - this.cursorRow) ?? edit.first
    this.redrawnAt = null
    if (edit?.last === null)
      edit.last = this.terminal.registerMarker(this.lines.cursorX === 0 ? -1 : 0) ?? null
  }

  private editIn(from: number, to: number): { readonly row: number; readonly column: number } | null {
    const edit = this.edits.find(({ first: { line } }) => line >= from && line < to)
    return edit ? { row: edit.first.line, column: edit.column } : null
  }

  private isTypedIn(from: number, to: number): boolean {
    return this.edits.some(
      ({ first, last }) => first.line >= 0 && first.line < to && (last === null || last.line >= from),
    )
  }

  /**
   * Lines from a place to the cursor.
   * @param kind `settled`: only those that scrolled off and are whole; `all`: all that stand, the one that the cursor is
   *   in as far as it goes, unless the cursor is at its beginning; `written`: all that stand, wherever the cursor has
   *   gone, but for what is being typed
   */
  read(
    from: Spot,
    kind: 'settled' | 'all' | 'written',
  ): { readonly lines: StoodLine[]; readonly next: Spot | undefined } {
    // Erasing a row disposes the markers in it: what stands now begins at the top of the screen.
    const start = from.row.line < 0 ? this.lines.baseY : from.row.line
    const startColumn = from.row.line < 0 ? 0 : from.column
    const cursor = this.cursorRow
    const isWhole = kind === 'settled'
    let end = isWhole ? Math.min(this.lines.baseY, cursor) : cursor + (this.lines.cursorX > 0 ? 1 : 0)
    // A line whose wrap goes on is not whole.
    if (isWhole) while (end > start && this.lines.getLine(end)?.isWrapped) end--
    if (kind === 'written') end = this.writtenTo(start)
    const cutAt = kind === 'all' ? cursor : null
    const lines = this.linesBetween(start, startColumn, Math.max(start, end), cutAt)
    return { lines, next: end > start ? this.spotAt(end) : from }
  }

  /** The row behind the last one that something stands in, or the first one of what is being typed. */
  private writtenTo(start: number): number {
    const edit = this.edits.at(-1)
    if (edit?.last === null && edit.first.line >= start) return edit.first.line
    let end = this.lines.baseY + this.terminal.rows
    while (end > start && (this.lines.getLine(end - 1)?.translateToString(true) ?? '') === '') end--
    return end
  }

  /** @param cutAt the row that is read up to the cursor only */
  private linesBetween(start: number, startColumn: number, end: number, cutAt: number | null): StoodLine[] {
    const found: StoodLine[] = []
    for (let row = start; row < end;) {
      let next = row + 1
      while (next < end && this.lines.getLine(next)?.isWrapped) next++
      found.push(this.lineOf(row, next, row === start ? startColumn : 0, cutAt))
      row = next
    }
    return found
  }

  private lineOf(from: number, to: number, column: number, cutAt: number | null): StoodLine {
    let text = ''
    let isFull = false
    for (let row = from; row < to; row++) {
      const line = this.lines.getLine(row)
      const first = row === from ? column : 0
      const cut = row === cutAt && !this.hasBehindCursor(row) ? this.lines.cursorX : undefined
      const isLast = row === to - 1
      const own = line?.translateToString(isLast, first, cut) ?? ''
      isFull = (line?.translateToString(true).length ?? 0) >= this.size.columns
      text += own
    }
    const isTyped = this.isTypedIn(from, to)
    const rightFrom =
      isTyped && to === from + 1 && column === 0 ? maybeRightEdge(this.lines.getLine(from)) : null
    const edit = this.editIn(from, to)
    const editedAt =
      edit?.row === from && column === 0
        ? this.lines.getLine(from)?.translateToString(false, 0, edit.column).length
        : undefined
    return {
      text: isFull ? text : text.trimEnd(),
      isFull,
      isEdited: edit !== null,
      ...(editedAt === undefined ? {} : { editedAt }),
      isTyped,
      ...(rightFrom === null ? {} : { rightFrom }),
      at: this.timeOf(from),
    }
  }

  /** Whether something stands right of the cursor: a line that is being edited, or drawn over from its beginning. */
  private hasBehindCursor(row: number): boolean {
    return (this.lines.getLine(row)?.translateToString(true).length ?? 0) > this.lines.cursorX
  }

  /** What stands between two places, each row a line unless it was wrapped. */
  between(from: Spot, to: Spot): { readonly row: number; readonly text: string; readonly isFull: boolean }[] {
    const [start, end] = [from.row.line, to.row.line]
    if (start < 0 || end < start) return []
    const rows: { row: number; text: string; isFull: boolean }[] = []
    for (let row = start; row <= end; row++) {
      const line = this.lines.getLine(row)
      if (row === end && to.column === 0) break
      const isWrapped = row > start && line?.isWrapped === true
      const goesOn = this.lines.getLine(row + 1)?.isWrapped === true && row < end
      const text = line?.translateToString(
        !goesOn,
        row === start ? from.column : 0,
        row === end ? to.column : undefined,
      )
      const isFull = (line?.translateToString(true).length ?? 0) >= this.size.columns
      if (isWrapped)
        rows[rows.length - 1] = { ...rows.at(-1)!, text: rows.at(-1)!.text + (text ?? ''), isFull }
      else rows.push({ row, text: text ?? '', isFull })
    }
    return rows
  }

  /** Forgets what is kept for rows above a place. */
  forgetBefore(spot: Spot): void {
    const row = spot.row.line
    let gone = 0
    while (gone < this.seen.length && this.seen[gone]!.row.line < row) this.seen[gone++]!.row.dispose()
    this.seen.splice(0, gone)
    const old = this.edits.filter(({ first, last }) => (last ?? first).line < row && last !== null)
    for (const { first, last } of old) [first, last].forEach((marker) => marker?.dispose())
    if (old.length > 0) this.edits = this.edits.filter((edit) => !old.includes(edit))
  }

  private shoot(): void {
    const buffer = this.terminal.buffer.active
    const { cols: columns, rows } = this.terminal
    const all = Array.from({ length: rows }, (_, row) => buffer.getLine(buffer.baseY + row))
    const shot: ScreenShot = {
      columns,
      rows,
      lines: all.map((line) => line?.translateToString(true).trimEnd() ?? ''),
      wrapped: all.map((line) => line?.isWrapped ?? false),
      cursor: { column: buffer.cursorX, row: buffer.cursorY },
    }
    const last = this.shots.at(-1)
    if (last && isSameShot(last, shot)) return
    this.shots.push(shot)
    if (this.shots.length > MOST_SHOTS) this.shots.splice(0, this.shots.length - MOST_SHOTS)
  }

  /** The screens of full-screen programs since it was asked last. */
  takeShots(): ScreenShot[] {
    const { shots } = this
    this.shots = []
    return shots
  }

  dispose(): void {
    this.terminal.dispose()
  }
}

/**
 * Where the text at the right edge begins, behind places that nothing was written to: editors jump over them to show a
 * second prompt there, while blanks that were typed are written. Null where there is none. An index into the row's text.
 */
function maybeRightEdge(line: IBufferLine | undefined): number | null {
  if (!line) return null
  const isEmpty = (x: number): boolean => (line.getCell(x)?.getCode() ?? 0) === 0
  let x = line.length - 1
  while (x >= 0 && (isEmpty(x) || line.getCell(x)?.getChars() === ' ')) x--
  if (x < line.length - 3) return null
  // The second half of a wide character has no code of its own.
  while (x > 1 && !(isEmpty(x - 1) && isEmpty(x - 2))) x--
  return x <= 1 ? null : line.translateToString(false, 0, x).length
}

function isSameShot(a: ScreenShot, b: ScreenShot): boolean {
  return (
    a.rows === b.rows &&
    a.columns === b.columns &&
    a.cursor.row === b.cursor.row &&
    a.cursor.column === b.cursor.column &&
    a.lines.every((line, i) => line === b.lines[i])
  )
}
