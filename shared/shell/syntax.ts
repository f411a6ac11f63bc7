/** What a shell command consists of. Positions are UTF-16 code units in the text that was read. */

/** One word as it stands, before the shell expands it (POSIX.1-2017, Shell Command Language, 2.3 and 2.6). */
export interface ShellWord {
  readonly from: number
  readonly to: number
  /** As written, with its quotes. */
  readonly text: string
  /**
   * What the shell passes on: quotes removed, lines joined. Null where an expansion decides. Patterns (`*.log`) and a
   * leading `~` stand as written.
   */
  readonly value: string | null
  readonly isQuoted: boolean
}

/** The lines of a here-document. */
export interface HereDocument {
  readonly from: number
  readonly to: number
  /** As the command gets it where nothing is expanded: leading tabs taken off for `<<-`, each line with its `\n`. */
  readonly text: string
  /** Whether the shell leaves the lines as they are (its delimiter was quoted). */
  readonly isLiteral: boolean
}

export interface Redirect {
  readonly from: number
  readonly to: number
  /** The number or `{name}` before the operator, null where there is none. */
  readonly descriptor: string | null
  readonly operator: string
  readonly target: ShellWord
  /** Null for all but `<<` and `<<-`. */
  readonly body: HereDocument | null
}

/** A simple command (2.9.1): `NAME=value command word … <redirections`. */
export interface SimpleCommand {
  readonly from: number
  readonly to: number
  readonly assignments: readonly ShellWord[]
  /** The command's name and its arguments. Empty where there are only assignments or redirections. */
  readonly words: readonly ShellWord[]
  readonly redirects: readonly Redirect[]
  /** Whether it stands within a substitution such as `$(…)`. */
  readonly isSubstituted: boolean
}

/** What is typed at one prompt and runs as a whole: a complete command of the grammar (2.10). */
export interface ShellCommand {
  readonly from: number
  readonly to: number
  /** Exactly as written, without blanks or a line end behind it. */
  readonly text: string
  /** False where the shell would ask for a further line. */
  readonly isComplete: boolean
  /** What the grammar does not allow, null where it was read to its end. */
  readonly problem: string | null
  /** All simple commands in it, in the order in which they are written, also those within loops and substitutions. */
  readonly simple: readonly SimpleCommand[]
  /** Redirections of compound commands: `done < file`. */
  readonly redirects: readonly Redirect[]
}
