/** Telling a command from prose by its words alone, where nothing else tells. */
import { ambiguousNames, commandNames } from './names.ts'

/** Words that commands rarely have as arguments of their own and sentences can hardly do without. */
const proseWords = new Set(
  'a an and are as be been but by can do does for from had has have how if into is it its may must not of on one or our shall she should so that the their then there these they this to too was we were when where will with would you your'.split(
    ' ',
  ),
)
const path = /^(?:\.{1,2}|~|\$\w+)?\/\S*$|^\.{1,2}$|^~$/u
const option = /^--?[A-Za-z0-9][\w-]*(?:=.*)?$/u
const operator = /(?:^|\s)(?:\||\|\||&&|;|[012]?>{1,2}|<|<<-?['"]?\w+['"]?)(?=\s|$)|2>&1|[^\s];(?=\s|$)/u

/**
 * How much a line reads like a command: from about -4 (prose) to 4 (surely a command). An unknown word alone gives 0.
 *
 * A known name that is no English word +2, one that is +0.5; a path as the name +2; an option +1, an operator +1, a
 * path among the arguments +1, an assignment +2. A capital or a number at the head -2, words of prose -1 each down to
 * -3, an end as a sentence has it -1, a second word `=` or `:` -2.
 */
export function commandLikelihood(line: string): number {
  const words = line.trim().split(/\s+/u)
  const [first = '', ...rest] = words
  if (first === '') return 0
  const head = headScore(first, rest)
  const prose = Math.min(3, rest.filter((word) => proseWords.has(word.toLowerCase())).length)
  const hasOption = rest.some((word) => option.test(word))
  const quotes = line.includes('"') || line.includes("'")
  let score = head + (hasOption ? 1 : 0) + (operator.test(line) ? 1 : 0)
  if (
    rest.some(
      (word) => path.test(word) || /^[\w.-]+\/\S*$/u.test(word) || /^[\w-]+\.[a-z]\w{0,4}$/u.test(word),
    )
  )
    score += 1
  // What stands in quotes is the command's text, and may be any.
  score -= quotes && head > 0 ? Math.min(1, prose) : prose
  if (/[\p{L}\d][.!?:,]$/u.test(line.trimEnd()) && !path.test(words.at(-1) ?? '')) score -= 1
  if (/^(?:=|:|==|->|–|-|—)$/u.test(rest[0] ?? '')) score -= 2
  return Math.max(-4, Math.min(4, score))
}

function headScore(first: string, rest: readonly string[]): number {
  if (/^[A-Za-z_]\w*=\S*$/u.test(first)) return 2
  if (path.test(first) && first.length > 1) return 2
  const name = first.replace(/;$/u, '')
  if (commandNames.has(name)) return ambiguousNames.has(name) ? (rest.length === 0 ? 1 : 0.5) : 2
  if (/^[\p{Lu}\d]/u.test(first) || !/^[\w.[({!:~-]/u.test(first)) return -2
  if (/^(?:if|for|while|until|case|\[\[?|\(|\{|!|:)$/u.test(first)) return 1
  return /[:,]$/u.test(first) ? -2 : 0
}
