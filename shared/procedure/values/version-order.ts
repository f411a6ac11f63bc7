/** The order of versions: Debian Policy Manual 5.6.12.2, and item 11 of Semantic Versioning 2.0.0. */
import { maybeDebianVersion, maybeSemanticVersion } from './version.ts'

/**
 * Which of two versions comes first, by dpkg's order.
 * @returns negative, 0 or positive; undefined where one of them is no version
 */
export function compareDebian(a: string, b: string): number | undefined {
  const [first, second] = [maybeDebianVersion(a), maybeDebianVersion(b)]
  if (!first || !second) return undefined
  return (
    first.epoch - second.epoch ||
    compareParts(first.upstream, second.upstream) ||
    compareParts(first.revision, second.revision)
  )
}

/** Turns about: the longest start without digits, then the longest start of digits, until they differ. */
function compareParts(a: string, b: string): number {
  let [left, right] = [a, b]
  while (left !== '' || right !== '') {
    const [words, others] = [/^\D*/.exec(left)![0], /^\D*/.exec(right)![0]]
    const byWords = compareLexically(words, others)
    if (byWords !== 0) return byWords
    ;[left, right] = [left.slice(words.length), right.slice(others.length)]
    const [digits, otherDigits] = [/^\d*/.exec(left)![0], /^\d*/.exec(right)![0]]
    const byDigits = BigInt(digits || '0') - BigInt(otherDigits || '0')
    if (byDigits !== 0n) return byDigits < 0n ? -1 : 1
    ;[left, right] = [left.slice(digits.length), right.slice(otherDigits.length)]
  }
  return 0
}

/** A tilde comes before everything, even the end; letters come before all other characters. */
function compareLexically(a: string, b: string): number {
  for (let i = 0; i < Math.max(a.length, b.length); i++) {
    const difference = weightAt(a, i) - weightAt(b, i)
    if (difference !== 0) return difference
  }
  return 0
}

function weightAt(text: string, at: number): number {
  const character = text[at]
  if (character === undefined) return 0
  if (character === '~') return -1
  return character.charCodeAt(0) + (/[A-Za-z]/.test(character) ? 0 : 256)
}

/** The same by the precedence of Semantic Versioning; what follows a “+” is ignored. */
export function compareSemantic(a: string, b: string): number | undefined {
  const [first, second] = [maybeSemanticVersion(a), maybeSemanticVersion(b)]
  if (!first || !second) return undefined
  for (const i of [0, 1, 2] as const)
    if (first.numbers[i] !== second.numbers[i]) return first.numbers[i] < second.numbers[i] ? -1 : 1
  // A version with something behind a hyphen comes before the one without.
  if (first.before.length === 0 || second.before.length === 0)
    return second.before.length - first.before.length
  return compareIdentifiers(first.before, second.before)
}

function compareIdentifiers(a: readonly string[], b: readonly string[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [one, other] = [a[i]!, b[i]!]
    if (one === other) continue
    const [isNumber, isOtherNumber] = [/^\d+$/.test(one), /^\d+$/.test(other)]
    if (isNumber !== isOtherNumber) return isNumber ? -1 : 1
    if (isNumber) return BigInt(one) < BigInt(other) ? -1 : 1
    return one < other ? -1 : 1
  }
  return a.length - b.length
}
