/**
 * Words of a text as they are looked for. Technical words (paths, options, unit names, versions) are kept whole and split
 * as well, so that `foo_bar.service` is found by itself, by `foo`, by `bar` and by `service`.
 */

/** One run of characters that belongs together, as it stands in the text. */
export interface Token {
  /** As written, without the punctuation around it. */
  readonly written: string
  /** What it is found by, each once: itself in lower case, then its parts. Words of letters only are stemmed. */
  readonly terms: readonly string[]
  /** Position in the text, UTF-16 code units, end exclusive. */
  readonly start: number
  readonly end: number
}

/** Longer runs are no words (keys, encoded bytes): they are left out. UTF-16 code units. */
export const LONGEST_TOKEN = 120

const run = /[^\s"`<>()[\]{}|,;!?*=&“”„«»…]+/gu
const letterOrDigit = /[\p{L}\p{N}]/u
/** What may stand before a technical word and belongs to it: `/etc`, `~/.ssh`, `../lib`, `-v`, `--dry-run`. */
const leading = /(?<![/~.-])[/~.-]{1,3}$/
const endsWord = /[\p{L}\p{N}+#]/u
const possessive = /['’]s?$/u
const borders = /[^\p{L}\p{N}\p{M}]+|(?<=\p{Ll})(?=\p{Lu})|(?<=\p{L})(?=\p{N})|(?<=\p{N})(?=\p{L})/u
const versionNumber = /^v?(\d+(?:\.\d+)+)/u

/** A word as it stands in a text. */
export type PlacedWord = Pick<Token, 'written' | 'start' | 'end'>

/** The tokens of a text in text order. Unicode compatibility forms (NFKC) count as the same word. */
export function toTokens(text: string): Token[] {
  // To read a word is far dearer than to find it again, and most words stand in a text more than once.
  const known = new Map<string, readonly string[]>()
  return toWords(text).map(({ written, start, end }) => {
    let terms = known.get(written)
    if (terms === undefined) known.set(written, (terms = termsOfWord(written)))
    return { written, terms, start, end }
  })
}

/** The words of a text in text order, technical ones whole. */
export function toWords(text: string): PlacedWord[] {
  const words: PlacedWord[] = []
  for (const match of text.matchAll(run)) {
    const characters = match[0]
    if (plainWord.test(characters)) {
      if (characters.length <= LONGEST_TOKEN)
        words.push({ written: characters, start: match.index, end: match.index + characters.length })
      continue
    }
    const [before, after] = bordersOf(characters)
    const written = characters.slice(before, after).replace(possessive, '')
    if (written === '' || written.length > LONGEST_TOKEN) continue
    const start = match.index + before
    words.push({ written, start, end: start + written.length })
  }
  return words
}

/** A run that is a word as it is, as most are. */
const plainWord = /^[A-Za-z0-9]+$/

/** Where in a run of characters its word starts and ends, without the punctuation around it; the same twice for no word. */
function bordersOf(characters: string): [number, number] {
  const first = characters.search(letterOrDigit)
  if (first < 0) return [0, 0]
  let end = characters.length
  while (end > first && !endsWord.test(characters.charAt(end - 1)) && !isLowSurrogate(characters, end - 1))
    end--
  const lead = leading.exec(characters.slice(Math.max(0, first - 4), first))?.[0].length ?? 0
  return [first - lead, end]
}

/** Letters beyond U+FFFF end in one; marks and signs there that are no letters stay too, which does no harm. */
function isLowSurrogate(characters: string, at: number): boolean {
  const unit = characters.charCodeAt(at)
  return unit >= 0xdc00 && unit <= 0xdfff
}

/** What one word is found by; see {@link Token.terms}. */
export function termsOfWord(word: string): string[] {
  const plain = word.normalize('NFKC')
  const parts = plain.split(borders).filter((part) => part !== '')
  if (parts.length <= 1 && parts[0] === plain) return [toStem(plain.toLowerCase())]
  const terms = new Set([plain.toLowerCase()])
  for (const prefix of versionPrefixes(plain)) terms.add(prefix)
  for (const part of parts) {
    const lower = part.toLowerCase()
    // A number or a letter torn out of a longer word says nothing by itself.
    if (lower.length > 1 && !/^\p{N}+$/u.test(lower)) terms.add(toStem(lower))
  }
  return [...terms]
}

/** `2.38.1` is also found by `2.38`. */
function versionPrefixes(word: string): string[] {
  const numbers = versionNumber.exec(word)?.[1]?.split('.') ?? []
  return numbers.slice(2).map((_, at) => numbers.slice(0, at + 2).join('.'))
}

/**
 * A lower-case English word without its commonest endings, so that `monitors`, `monitoring` and `monitor` are one.
 * Words of other languages mostly stay as they are. What it gives is a key, not a word to be shown.
 */
export function toStem(word: string): string {
  if (word.length <= 4 || !/^[a-z]+$/.test(word)) return word
  const singular = word
    .replace(/ies$/, 'y')
    .replace(/sses$/, 'ss')
    .replace(/(?<=[^s])s$/, '')
  const bare = singular
    .replace(/(?:ations?|ators?|ating|ated|ate)$/, 'at')
    .replace(/(?:ing|ed|able|ment|ness|ly)$/, '')
    .replace(/(?:er|or)$/, '')
    .replace(/(.)\1$/, '$1')
    .replace(/[eiy]$/, '')
  return bare.length >= 3 ? bare : word
}

/** Says whether a lower-case word only joins others (English and German): it is no tag and starts or ends no phrase. */
export function isFunctionWord(word: string): boolean {
  return functionWords.has(word)
}

const functionWords: ReadonlySet<string> = new Set(
  (
    'a about after all also am an and any are as at be because been before being between both but by can cannot could ' +
    'did do does doing done each either etc every for from had has have he her here his how i if in into is it its ' +
    'itself just let like may me might more most must my no nor not now of off on once one only or other our out over ' +
    'own per same see shall she should since so some still such than that the their them then there these they this ' +
    'those through thus to too under until up upon us use used uses using very via was we were what when where which ' +
    'while who whose why will with within without would you your ' +
    'aber als am an auch auf aus bei bis da das dass dem den der des die doch du durch ein eine einem einen einer eines ' +
    'er es für hat ich ihr im in ist ja kann man mit nach nicht noch nur ob oder sein sich sie sind so um und uns vom ' +
    'von vor war was wenn wie wir wird zu zum zur über'
  ).split(' '),
)
