/** What the learner reads and what it says. */

/** A line as it stood on the screen: wraps joined, trailing blanks trimmed. */
export interface ScreenLine {
  readonly text: string
  /**
   * Whether the program switched bracketed paste on while the cursor stood in this line, as line editors do at a
   * prompt. Left out where that is not known (a paste, an old shell): then the text alone decides.
   */
  readonly isEdited?: boolean
  /**
   * Where the cursor stood then: readline switches it on before it shows the prompt, zsh behind it.
   */
  readonly editedAt?: number
  /** Whether it was written while the line editor was on: typed, not answered. Left out where not known. */
  readonly isTyped?: boolean
  /**
   * Whether its last row reaches the window's edge. Where a long command was edited, editors move to the next row by
   * themselves, and no terminal knows that the two are one line. A blank in the last column then stays in the text.
   */
  readonly isFull?: boolean
  /** Where a prompt at the window's right edge begins, where that is known from how it was written. */
  readonly rightFrom?: number
}

/** Where a prompt says that its command runs. Null for what it does not show. */
export interface PromptPlace {
  readonly host: string | null
  readonly user: string | null
  /** Absolute or beginning with `~`. */
  readonly directory: string | null
  /** The last part of the directory's name, where the prompt shows no more. It is not a place by itself. */
  readonly folder: string | null
  /** Whether the prompt's sign is root's. */
  readonly isRoot: boolean
}

/** A prompt with what was typed at it. Lines are numbered from 0 from the beginning of the reading. */
export interface PromptedCommand {
  /** The first line that belongs to the prompt (of two, the upper one). */
  readonly from: number
  /** Where what was typed begins. */
  readonly typedFrom: { readonly line: number; readonly column: number }
  /** The line behind the last one of the command. Its output begins there. */
  readonly outputFrom: number
  /** The line behind the output. Null while no prompt has come after it. */
  readonly outputTo: number | null
  /** What was typed, lines joined by `\n`, without prompts. Empty where nothing was, or where it was given up. */
  readonly command: string
  /** What stood behind the prompt, also where it was given up or a remark only. */
  readonly typed: string
  /** Text before the prompt in its line: the end of an output that had no line end. */
  readonly before: string
  readonly place: PromptPlace
  /** The program whose prompt it is, where it is not a shell: `python`, `sqlite`. */
  readonly within: string | null
  /** Whether the shell would have asked for a further line that is not there. */
  readonly isUnfinished: boolean
}
