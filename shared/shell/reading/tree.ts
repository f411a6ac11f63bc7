/** A text of shell as a tree. Places are UTF-16 code units in the text that was read. */

/** One word as it is written, before the shell expands it (POSIX.1-2017, Shell Command Language, 2.6). */
export interface ScriptWord {
  readonly from: number
  readonly to: number
  /** As written, with its quotes. */
  readonly text: string
  /**
   * What the shell passes on: quotes removed, lines joined. Null where an expansion decides: parameters, substitutions,
   * arithmetic, braces. Patterns (`*.log`) and a leading `~` stand as written.
   */
  readonly value: string | null
  readonly isQuoted: boolean
  /** Whether names of files are put in its place, where some fit (2.13). */
  readonly isPattern: boolean
}

/** `NAME=value` before a command or as the argument of `export` and the like. */
export interface Assignment {
  readonly from: number
  readonly to: number
  readonly text: string
  readonly name: string
  /** Null where an expansion decides, and for an array. */
  readonly value: string | null
}

export interface DocumentBody {
  readonly from: number
  readonly to: number
  /** As the command gets it where nothing is expanded: leading tabs taken off for `<<-`. */
  readonly text: string
  /** Whether the shell leaves the lines as they are: its delimiter was quoted, or they hold no expansion. */
  readonly isLiteral: boolean
}

export interface Redirection {
  readonly from: number
  readonly to: number
  /** The number or `{name}` before the operator, null where there is none. */
  readonly descriptor: string | null
  readonly operator: string
  /** Null where it is missing, and for `<<` and `<<-`. */
  readonly target: ScriptWord | null
  /** Null for all but `<<` and `<<-`. */
  readonly body: DocumentBody | null
}

/** Compound commands (2.9.4) and functions (2.9.5), with those that bash adds. */
export type GroupKind =
  | 'if'
  | 'for'
  | 'while'
  | 'until'
  | 'case'
  | 'select'
  | 'subshell'
  | 'braces'
  | 'function'
  | 'coproc'
  | 'test'
  | 'arithmetic'

/** What stands around a command: a group, or a word that a substitution gives. */
export type Surrounding = GroupKind | 'substitution'

/** A simple command (2.9.1). */
export interface SimpleNode {
  readonly type: 'simple'
  readonly from: number
  readonly to: number
  readonly assignments: readonly Assignment[]
  /** The command's name and its arguments. Empty where there are only assignments or redirections. */
  readonly words: readonly ScriptWord[]
  readonly redirections: readonly Redirection[]
  /** What stands around it, outermost first. */
  readonly within: readonly Surrounding[]
  /** Commands in its words: `$(…)`, backquotes, `<(…)`. */
  readonly substitutions: readonly ShellNode[]
}

export interface PipelineNode {
  readonly type: 'pipeline'
  readonly from: number
  readonly to: number
  readonly parts: readonly ShellNode[]
  /** What joins each part to the next; `|&` takes the error output along. */
  readonly joints: readonly ('|' | '|&')[]
  /** `!` before it turns its outcome round. */
  readonly isNegated: boolean
  readonly isTimed: boolean
}

/** What joins a part of a list to the next. A line end is `;`. */
export type Joint = '&&' | '||' | ';' | '&'

export interface ListNode {
  readonly type: 'list'
  readonly from: number
  readonly to: number
  readonly parts: readonly ShellNode[]
  /** One behind each part; behind the last one `;`, or `&` where it runs in the background. */
  readonly joints: readonly Joint[]
}

export interface GroupNode {
  readonly type: 'group'
  readonly kind: GroupKind
  readonly from: number
  readonly to: number
  /** Conditions, bodies and branches, each a list, in the order in which they are written. */
  readonly parts: readonly ShellNode[]
  /** What a loop runs over, what `case` looks at, the name of a function. */
  readonly words: readonly ScriptWord[]
  readonly redirections: readonly Redirection[]
  /** Commands in its words and tests. */
  readonly substitutions: readonly ShellNode[]
}

export type ShellNode = SimpleNode | PipelineNode | ListNode | GroupNode

/** What the grammar does not allow at a place. */
export interface ShellProblem {
  readonly at: number
  readonly message: string
}

export interface ShellScript {
  readonly text: string
  readonly root: ListNode
  /** Empty where bash accepts the text (`bash -n`). */
  readonly problems: readonly ShellProblem[]
  /** False where a shell would ask for a further line. */
  readonly isComplete: boolean
}
