/** Lines worth keeping: those that may begin with a prompt, go on with a command, or fence a text. */
import { candidatesOf, editedCandidatesOf, type Candidate } from './candidate.ts'
import { EDITED_HEAD, headKey } from './heads.ts'
import type { ScreenLine } from './line.ts'
import { innerPrompts } from './programs.ts'

export interface Noted {
  readonly n: number
  readonly text: string
  readonly before: string
  /** What the line above is as the upper line of a prompt; empty where it is none. */
  readonly head: string
  /** The end of an output without a line end that stands before that upper line, in it. */
  readonly beforeHead: string
  /** The line behind it, null while there is none. */
  readonly after: string | null
  readonly isEdited: boolean | undefined
  readonly editedAt: number | null
  readonly isFull: boolean
  readonly isTyped: boolean
  /** How long the line is with a second prompt at its right edge, which is no part of the text; null where none is known. */
  readonly edge: number | null
  readonly candidates: readonly Candidate[]
}

const inner = new RegExp(
  innerPrompts
    .flatMap(({ prompt, further }) =>
      [prompt, ...(further ? [further] : [])].map(({ source }) => `(?:${source})`),
    )
    .join('|'),
  'u',
)
/** What may be the prompt for a further line of a shell's command: a few signs, or the words that zsh shows. */
export const furtherPrompt = /^\s{0,12}[^\p{L}\p{N}\s"'$({[/\\-]{1,4}(?: |$)/u
export const zshFurther =
  /^(?:(?:for|while|until|repeat|if|then|else|elif|do|case|select|function|foreach|cmdsubst|cmdand|cmdor|pipe|quote|dquote|bquote|heredoc|heredocd|subsh|array|math|braceparam|cursh|always|noglob|nocorrect|condition) )*(?:for|while|until|repeat|if|then|else|elif|do|case|select|function|foreach|cmdsubst|cmdand|cmdor|pipe|quote|dquote|bquote|heredoc|heredocd|subsh|array|math|braceparam|cursh|always|noglob|nocorrect|condition)>(?: |$)/u
export const fence = /^(?:```|~~~)/u

/** What stands in a line but for a prompt at its right edge. */
export const withoutRight = ({ text, rightFrom }: ScreenLine): string =>
  rightFrom === undefined ? text : text.slice(0, rightFrom).trimEnd()

/**
 * Whether a line may be the one above it with its history expansion carried out, which bash and zsh print before they
 * run it: `sudo !!` gives `sudo cat /root/rack.txt`. Bash Reference Manual, “History Expansion”.
 */
export function mayBeExpanded(above: string, text: string): boolean {
  const at = above.search(historyEvent)
  return at >= 0 && text !== above && !historyEvent.test(text)
}

const historyEvent = /(?<=^|[\s;&|("])!(?:!|\$|\^|\*|-?\d|[A-Za-z?])/u

/** What stands before the first history expansion of a command; null where there is none. */
export function beforeExpansion(command: string): string | null {
  const at = command.search(historyEvent)
  return at === -1 ? null : command.slice(0, at)
}

/**
 * The line as it is kept, null where it is of no interest. Behind a full line, any is.
 * @param above the line directly above, where it was kept
 */
export function maybeNoted(n: number, line: ScreenLine, before: string, above: Noted | null): Noted | null {
  const isBehindFull = above?.isFull === true
  const isBehindEdited = line.isTyped === true && line.isEdited === false && above?.isEdited === true
  const headFrom = isBehindEdited ? (above.editedAt ?? 0) : 0
  const { isEdited } = line
  const text = withoutRight(line)
  const candidates = isEdited === true ? editedCandidatesOf(text, line.editedAt ?? 0) : candidatesOf(text)
  const isKept =
    isBehindFull ||
    line.isTyped === true ||
    mayBeExpanded(before, text) ||
    candidates.length > 0 ||
    furtherPrompt.test(text) ||
    fence.test(text) ||
    inner.test(text)
  return isKept
    ? {
        n,
        text,
        before,
        head: headKey(before.slice(headFrom)) || (isBehindEdited ? EDITED_HEAD : ''),
        beforeHead: before.slice(0, headFrom),
        after: null,
        isEdited,
        editedAt: line.editedAt ?? null,
        isFull: line.isFull === true,
        isTyped: line.isTyped === true,
        edge: line.rightFrom === undefined ? null : line.text.length,
        candidates,
      }
    : null
}
