/**
 * What a line reads like by its looks: an answer of a machine, a sentence of a person, or neither for sure. What is
 * not sure is left as it stands, so "sure" is drawn narrowly on both sides.
 */
import { commandLikelihood } from '../../shell/likely.ts'

const logLines: readonly RegExp[] = [
  // RFC 3339 and its looser kin, the older syslog (RFC 3164), the kernel's seconds, a time with parts of a second.
  /^\[?\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d)?\S*\s+\S/u,
  /^(?:<\d{1,3}>)?(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) [ \d]\d \d\d:\d\d:\d\d\s+\S/u,
  /^\[\s*\d+\.\d{3,6}\]\s+\S/u,
  /^\d\d:\d\d:\d\d[.,]\d{3,}\s+\S/u,
  /^(?:DEBUG|INFO|WARN|WARNING|ERROR|FATAL|CRITICAL|TRACE)[: ]\s*\S+[:[ ]/u,
]
const errors: readonly RegExp[] = [
  /^[\w./+-]+(?: \d+)?: .*(?:[Nn]o such file|[Pp]ermission denied|command not found|[Oo]peration not permitted|[Ii]nvalid argument|[Cc]onnection refused|[Nn]o space left|[Rr]ead-only file system|cannot \w+|[Ii]nput\/output error|not found$)/u,
  /^(?:E|W|N|Err): \S/u,
  /^(?:error|fatal|warning|panic|ERROR|FATAL)(?:\[\w+\])?: \S/u,
  /^Traceback \(most recent call last\):$/u,
  /^ {2}File ".+", line \d+/u,
]
const shapes: readonly RegExp[] = [
  // A long listing, a packet that came back, an interface, packages, units, rules of tables, a dump, a diff's place.
  /^[-dlbcps][-rwxsStTl]{9}[.+@]?\s/u,
  /^\d+ bytes from \S+|^\d+ packets transmitted/u,
  /^\d+: [\w@.-]+: <[A-Z_,]+>/u,
  /^\s+(?:inet6?|link\/\w+) \S+/u,
  /^(?:Hit|Get|Ign|Err):\d+ \w+:/u,
  /^(?:Reading package lists|Building dependency tree|Reading state information)\.\.\./u,
  /^(?:Setting up|Unpacking|Preparing to unpack|Processing triggers for|Selecting previously unselected) \S+.*\.\.\.$/u,
  /^\s*(?:[●○×] )?[\w@\\.-]+\.(?:service|socket|timer|mount|target)\s+(?:- |loaded|enabled|disabled|static)/u,
  /^\s+(?:Loaded|Active|Main PID|Tasks|Memory|CGroup|Docs|CPU|Process|Status): \S/u,
  /^\+(?:[-=]+\+)+$/u,
  /^[-=]{2,}(?: +[-=]{2,})+$|^[-=]+(?:\+[-=]+)+$/u,
  /^[0-9a-f]{6,8}[: ] *(?:[0-9a-f]{2,4} ){4,}/u,
  /^@@ -\d+(?:,\d+)? \+\d+(?:,\d+)? @@/u,
  /[├└│┌┐┘┤┬┴┼─]{2}/u,
  /^\S+: (?:ASCII|UTF-8|ELF|data|directory|symbolic link)\b/u,
]

/** Whether a line by itself is surely a machine's: a log line, a complaint, a shape that nobody types. */
export function isSurelyOutput(text: string): boolean {
  return [...logLines, ...errors, ...shapes].some((pattern) => pattern.test(text))
}

const gap = /(?<=\S)(?: {2,}|[ ]*\t\s*)(?=\S)/gu

/** Where words begin behind a gap of two blanks or a tab. Columns of characters. */
export function columnsOf(text: string): number[] {
  return Array.from(text.trimEnd().matchAll(gap), (match) => match.index + match[0].length)
}

/** Where words end before such a gap: columns of numbers are set to the right. */
function endsOf(text: string): number[] {
  return Array.from(text.trimEnd().matchAll(/\S(?=\s|$)/gu), (match) => match.index + 1)
}

/** Whether two lines stand in the same columns, set to the left or to the right. */
export function areAligned(one: string, other: string): boolean {
  const [a, b] = [columnsOf(one), columnsOf(other)]
  if (a.length === 0 || b.length === 0) return false
  if (one.includes('\t') && other.includes('\t')) return a.length === b.length
  if (a.some((column) => b.includes(column))) return true
  const ends = endsOf(other)
  return endsOf(one).some((column) => column > Math.min(a[0]!, b[0]!) && ends.includes(column))
}

/** The words of a line, told apart by blanks. */
const wordsIn = (text: string): string[] => text.trim().split(/\s+/u)

const proseWords =
  /(?:^|[\s("'“‘])(?:a|about|after|again|all|am|an|and|are|as|at|be|because|been|before|but|by|did|do|does|for|from|had|has|have|he|her|how|i|if|in|into|is|it|its|it's|me|my|not|now|of|on|or|our|she|should|so|some|still|than|that|the|their|then|there|they|this|to|too|two|was|we|were|what|when|where|which|while|who|why|will|with|would|you|your)(?=[\s,.;:!?)"'”’]|$)/giu

/** How many of a line's words are ones that a sentence can hardly do without. */
export function proseWordsIn(text: string): number {
  return text.match(proseWords)?.length ?? 0
}

const own = /(?:^|\s)(?:I|I'm|I’m|I've|I’ve|I'd|I’d|we|We|we've|We've|my|My|our|Our)(?=[\s,])/u

/** Whether a line speaks of the one who writes, as machines do not. */
export function speaksOfSelf(text: string): boolean {
  return own.test(text) && !isSurelyOutput(text) && !hasMachineSigns(text)
}

/**
 * Whether a line is surely what a person wrote, though a command stands above it: it says I or we, or it is a sentence
 * with a beginning and an end and nothing of a machine's in it.
 */
export function isSurelyHuman(text: string): boolean {
  const words = wordsIn(text)
  if (words.length < 3 || isSurelyOutput(text) || hasMachineSigns(text)) return false
  if (proseWordsIn(text) === 0) return false
  if (speaksOfSelf(text)) return true
  return (
    words.length >= 5 && /^\p{Lu}/u.test(text) && proseWordsIn(text) >= 2 && /[.!?]$/u.test(text.trimEnd())
  )
}

/** Whether there are signs that stand in answers and settings, and hardly in sentences. */
export function hasMachineSigns(text: string): boolean {
  return isSurelyOutput(text) || /[=<>{}|\\\t]|::|\.\.\.$|\S@\S|^\s/u.test(text) || columnsOf(text).length > 1
}

/**
 * Whether the spaces within a line may be set right: nothing in it may be a command, an answer or a column. At most
 * every fourth word stands behind a gap.
 */
export function isPlainProse(text: string): boolean {
  const words = wordsIn(text)
  if (words.length < 4 || isSurelyOutput(text) || /[=<>{}|\\]|::/u.test(text)) return false
  if (columnsOf(text).length > words.length / (isSentence(text) ? 3 : 4) || proseWordsIn(text) === 0)
    return false
  return commandLikelihood(text) < 1 && commandLikelihood(withoutMarker(text)) < 1
}

/** Whether a line has the beginning, the end and the words of a sentence. */
export function isSentence(text: string): boolean {
  const line = withoutMarker(text).trim()
  return /^[\p{Lu}"“(]/u.test(line) && /\p{L}[.!?]["”)]?$/u.test(line) && proseWordsIn(line) >= 2
}

const marker = /^\s*(?:[-+*•]|\d{1,9}[.)]|#{1,6})\s+(?:\[[ xX]\]\s+)?/u

/** A line without the sign of an item or a heading. */
export function withoutMarker(text: string): string {
  return text.replace(marker, '')
}
