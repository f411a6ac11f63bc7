/** What a terminal's log holds, once it is read: commands with their outputs, places and outcomes, and files. */

/** Where a command ran, as far as the log shows it. Null where it does not. */
export interface FoundPlace {
  /** The host's name as the prompt or the shell gave it. */
  readonly host: string | null
  readonly user: string | null
  /** As shown or reported: absolute, or beginning with `~`. */
  readonly directory: string | null
}

/** How a command was told from what stands around it. */
export type FoundBy = 'marks' | 'prompt'

export interface FoundFile {
  readonly path: string
  /** The whole content as it was written. A file that did not stand in the log as a whole is not given. */
  readonly content: string
  /** What wrote it. */
  readonly by: 'heredoc' | 'editor'
}

/** One command and what it answered. */
export interface FoundCommand {
  /**
   * Exactly what was run: no prompt, no line end behind it; lines of one command are joined by `\n`. Empty where the
   * output came at a prompt at which nothing was typed: a job in the background, or word from the system.
   */
  readonly command: string
  /** What stood on the screen: wraps joined, trailing blanks of lines trimmed, the alternate screen left out. */
  readonly output: string
  readonly exitCode: number | null
  readonly place: FoundPlace
  /** Milliseconds since 1970-01-01T00:00:00Z, null where the log tells no time. */
  readonly started: number | null
  readonly ended: number | null
  readonly foundBy: FoundBy
  readonly files: readonly FoundFile[]
  /** Sentences about what was cut off or could not be read. */
  readonly notes: readonly string[]
}

/** A screen that a full-screen program showed on the alternate screen, as it stood before something changed it for good. */
export interface ScreenShot {
  readonly columns: number
  readonly rows: number
  /** One string a row, trailing blanks trimmed. */
  readonly lines: readonly string[]
  /** For each row, whether it goes on from the row above (the terminal wrapped it). */
  readonly wrapped: readonly boolean[]
  readonly cursor: { readonly column: number; readonly row: number }
}
