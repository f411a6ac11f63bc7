/** The rule that one parameter can have beyond its type. */
import { RE2JS, RE2JSException } from 're2js'
import { fail, succeed, type Result } from '../../lab/result.ts'
import { isDate } from './date.ts'
import { maybeDuration } from './duration.ts'
import { isWithin, maybeAddress, maybeNetwork } from './network.ts'
import { maybePort } from './port.ts'
import { maybeBytes } from './size.ts'
import { wrong, type ValueCheck, type ValueRule, type ValueType } from './types.ts'
import { compareDebian, compareSemantic } from './version-order.ts'

/** The longest pattern. RE2's own limits (a repeat of at most 1000, a bounded program) hold its cost down as well. */
export const LONGEST_PATTERN = 500

type Compare = (a: string, b: string) => number | undefined

/** How values of a type are ordered; undefined for types without an order. Its answer is undefined for what it cannot read. */
function maybeOrder(type: ValueType, rule: ValueRule): Compare | undefined {
  if (type === 'port') return byAmount(maybePort)
  if (type === 'size') return byAmount(maybeBytes)
  if (type === 'duration') return byAmount((text) => maybeDuration(text)?.seconds)
  if (type === 'date') return (a, b) => (isDate(a) && isDate(b) ? Number(a > b) - Number(a < b) : undefined)
  if (type === 'version') return rule.order === 'semver' ? compareSemantic : compareDebian
  return undefined
}

function byAmount(amount: (text: string) => number | bigint | undefined): Compare {
  return (a, b) => {
    const [first, second] = [amount(a), amount(b)]
    if (first === undefined || second === undefined) return undefined
    return Number(first > second) - Number(first < second)
  }
}

const hasNetwork = (type: ValueType): boolean => ['IPv4 address', 'IPv6 address', 'network'].includes(type)

/** Why a value of the right form is against a rule. The sentence repeats the rule, never the value. */
export function maybeRuleFault(type: ValueType, text: string, rule: ValueRule): ValueCheck | undefined {
  if (rule.allowed && !rule.allowed.includes(text))
    return wrong('rule', `Only these will do: ${rule.allowed.join(', ')}.`)
  if (rule.pattern !== undefined && !matches(rule.pattern, text))
    return wrong('rule', `It does not fit the pattern ${rule.pattern}.`)
  if (rule.within !== undefined && hasNetwork(type) && !liesWithin(text, rule.within))
    return wrong('rule', `It must lie in ${rule.within}.`)
  return maybeBoundFault(text, rule, maybeOrder(type, rule))
}

function maybeBoundFault(
  text: string,
  { least, most }: ValueRule,
  order: Compare | undefined,
): ValueCheck | undefined {
  if (!order) return undefined
  const [low, high] = [
    least === undefined ? 0 : order(text, least),
    most === undefined ? 0 : order(text, most),
  ]
  if (low === undefined || high === undefined)
    return wrong('rule', `It cannot be compared with ${low === undefined ? least : most}.`)
  if (low < 0) return wrong('rule', `The least is ${least}.`)
  return high > 0 ? wrong('rule', `The most is ${most}.`) : undefined
}

function liesWithin(text: string, within: string): boolean {
  const inner = maybeAddress(text) ?? maybeNetwork(text)
  const outer = maybeNetwork(within)
  return inner !== undefined && outer !== undefined && isWithin(inner, outer)
}

const compiled = new Map<string, RE2JS | string>()

/** The compiled pattern, or what is wrong with it. */
function compile(pattern: string): RE2JS | string {
  const known = compiled.get(pattern)
  if (known !== undefined) return known
  if (compiled.size > 100) compiled.clear()
  const made = makePattern(pattern)
  compiled.set(pattern, made)
  return made
}

function makePattern(pattern: string): RE2JS | string {
  if (pattern.length > LONGEST_PATTERN) return `a pattern has at most ${LONGEST_PATTERN} characters`
  try {
    return RE2JS.compile(pattern)
  } catch (problem) {
    if (problem instanceof RE2JSException) return problem.message
    throw problem
  }
}

function matches(pattern: string, text: string): boolean {
  const made = compile(pattern)
  return typeof made !== 'string' && made.matches(text)
}

/** Checks a rule itself: whether its pattern can be read, its bounds are values of the type, and it fits the type at all. */
export function checkRule(type: ValueType, rule: ValueRule): Result<ValueRule> {
  const sentence = maybeRuleProblem(type, rule)
  return sentence === undefined ? succeed(rule) : fail('rule', sentence)
}

function maybeRuleProblem(type: ValueType, rule: ValueRule): string | undefined {
  if (rule.allowed && type === 'secret')
    return 'A list of allowed secrets would store them. Take a pattern instead.'
  if (rule.allowed?.length === 0) return 'The list of allowed values is empty, so no value would do.'
  const made = rule.pattern === undefined ? undefined : compile(rule.pattern)
  if (typeof made === 'string') return `The pattern cannot be read: ${made}.`
  if (rule.within !== undefined) {
    if (!hasNetwork(type)) return 'Only an address or a network can lie in a network.'
    if (!maybeNetwork(rule.within)) return `${rule.within} is no network. One is written as in 192.0.2.0/24.`
  }
  return maybeBoundProblem(type, rule)
}

function maybeBoundProblem(type: ValueType, rule: ValueRule): string | undefined {
  const { least, most } = rule
  if (least === undefined && most === undefined) return undefined
  const order = maybeOrder(type, rule)
  if (!order) return `A value of the type ${type} has no smallest and largest.`
  const unread = [least, most].find((bound) => bound !== undefined && order(bound, bound) === undefined)
  if (unread !== undefined) return `${unread} is no ${type} that can be compared.`
  if (least !== undefined && most !== undefined && order(least, most)! > 0)
    return 'The least is larger than the most, so no value would do.'
  return undefined
}
