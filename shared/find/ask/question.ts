/** Reads what a person asks: what sort of answer is wanted, and which of the words say what it is about. */
import { fold } from '../index/fold.ts'
import type { FindQuery } from '../query/query.ts'
import { isFunctionWord, toWords } from '../tokens.ts'
import { doingIn } from './doing.ts'
import { errnoMessages } from './errno.ts'

/**
 * How: steps are wanted. Error: a message was pasted or retold, what ends it is wanted. Why: reasons. When: a moment. What: a
 * thing, a value, a place, a person. Plain: words without a question.
 */
export const questionSorts = ['how', 'error', 'why', 'when', 'what', 'plain'] as const
export type QuestionSort = (typeof questionSorts)[number]

export interface Question {
  readonly typed: string
  readonly sort: QuestionSort
  /** The words that say what it is about, in the order typed. All words where none does. */
  readonly words: readonly string[]
  /** Those of them, folded, that say what is done and not with what; they count less, since people put them in many ways. */
  readonly doing: ReadonlySet<string>
}

/** Everything can be read. */
export function readQuestion(typed: string): Question {
  const written = toWords(typed).map((word) => word.written)
  const words = written.filter((word) => !saysNothing(fold(word)))
  return {
    typed,
    sort: sortOf(typed, written),
    words: words.length > 0 ? words : written,
    doing: doingIn(written.map(fold), saysNothing),
  }
}

/** The question's words as a query of the index: nothing in them is a filter, and none is still being typed. */
export function toQuery(typed: string, words: readonly string[]): FindQuery {
  return {
    typed,
    words: words.map((written) => ({ written, isBeginning: false, range: { start: 0, end: 0 } })),
    phrases: [],
    excluded: [],
    filters: [],
  }
}

/** How a question begins, the first that fits counts; then what a message says; then how it may ask further on. */
function sortOf(typed: string, written: readonly string[]): QuestionSort {
  const begun = beginnings.find(([begins]) => begins.test(typed))
  if (begun) return begun[1]
  if (asksHow.test(typed)) return 'how'
  if (saysError.test(typed) || written.some((word) => errnoMessages[word] !== undefined)) return 'error'
  return asking.find(([asks]) => asks.test(typed))?.[1] ?? 'plain'
}

const asksWhen =
  'when|how long ago|(?:at )?what time|(?:on )?(?:what|which) (?:day|date|month|year|night|evening|morning)'
const beginnings: readonly (readonly [RegExp, QuestionSort])[] = [
  [/^\W*how(?:to)?\b(?! (?:many|much|long|old|often|far|big|large|come)\b)/i, 'how'],
  [/^\W*(?:(?:and|but|so) )?(?:why|how come)\b/i, 'why'],
  [new RegExp(`^\\W*(?:(?:since|until) )?(?:${asksWhen})\\b`, 'i'), 'when'],
  [/^\W*(?:(?:in|on|at|from|to|of) )?(?:what|which|where|who|whom|whose|how)\b/i, 'what'],
]
const asksHow = /\bhow(?:to)? (?:do|does|did|to|can|could|should|would|might|must|shall)\b/i
const asking: readonly (readonly [RegExp, QuestionSort])[] = [
  [/\b(?:why|how come)\b/i, 'why'],
  [new RegExp(`\\b(?:${asksWhen})\\b`, 'i'), 'when'],
  [/\b(?:what|which|where|who|whom|whose|how (?:many|much|long|old|often|far|big|large))\b/i, 'what'],
]

/** What programs say when something went wrong; and a status of HTTP of 400 and more (RFC 9110 §15) with its words. */
const saysError = new RegExp(
  "\\b(?:error|fatal|fail(?:s|ed|ure|ing)?|cannot|can[’']?t|could(?:n[’']t| not)|unable|refus\\w+|denied|invalid|" +
    'unknown|unexpected|no such|not (?:found|permitted|allowed|defined|supported|empty)|panic|timed? ?out|aborted|' +
    'malformed|corrupt\\w*|is busy|reject\\w*|unreachable|segfault|emerg|crit|warn(?:ing)?|(?:exit|return) code|' +
    'status=\\d+|no [^.]{1,40} (?:matches|defined))\\b|\\b[45]\\d\\d [A-Z][a-z]+|^\\S+: .+: ',
  'i',
)

/** Words that ask, beg and fill, and verbs that go with anything; beside the words that only join others. */
const fillers: ReadonlySet<string> = new Set(
  (
    "please help hi hello thanks cant can't dont don't doesnt doesn't didnt didn't isnt isn't wont won't wasnt wasn't ain't " +
    "it's i'm we're what's how's where's actually really just again now right still already ever even kind sort thing " +
    'things stuff somebody someone something somehow anybody anyone anything get gets got getting make makes made want ' +
    'wants wanted need needs needed try tries tried keep keeps kept let lets go goes went going come comes came put puts ' +
    'take takes took give gives gave tell tells told say says said mean means meant know known happen happens happened ' +
    'actual way ways whether instead another many much sure whole else together certain'
  ).split(' '),
)

function saysNothing(form: string): boolean {
  return isFunctionWord(form) || fillers.has(form) || /^(?:\d|[a-z])$/.test(form)
}
