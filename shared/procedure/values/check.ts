/** Checking a value against its type, and against a rule of its parameter. Start here. */
import { date } from './date.ts'
import { duration, maybeDuration } from './duration.ts'
import { email } from './email.ts'
import { hostName } from './host-name.ts'
import { ipv4 } from './ipv4.ts'
import { ipv6 } from './ipv6.ts'
import { mac } from './mac.ts'
import { network } from './network.ts'
import { packageName } from './package-name.ts'
import { path } from './path.ts'
import { port } from './port.ts'
import { maybeRuleFault } from './rule.ts'
import { maybeBytes, size } from './size.ts'
import { freeText, secret } from './text.ts'
import { wrong, type TypeOfValue, type ValueCheck, type ValueRule, type ValueType } from './types.ts'
import { url } from './url.ts'
import { user } from './user.ts'
import { version } from './version.ts'

const types: Readonly<Record<ValueType, TypeOfValue>> = {
  'host name': hostName,
  'IPv4 address': ipv4,
  'IPv6 address': ipv6,
  network,
  port,
  path,
  user,
  package: packageName,
  version,
  size,
  duration,
  'MAC address': mac,
  URL: url,
  'e-mail address': email,
  date,
  'free text': freeText,
  secret,
}

/** The longest value, in UTF-16 code units. A path can have 4095 bytes; nothing that a command takes is longer. */
export const LONGEST_VALUE = 4096

/**
 * Checks a value. Takes time linear in its length, whatever the rule's pattern.
 * @param rule one that `checkRule` let through; a pattern that cannot be read lets no value through
 */
export function checkValue(type: ValueType, text: string, rule?: ValueRule): ValueCheck {
  const check = checkForm(type, text)
  return check.ok && rule ? (maybeRuleFault(type, text, rule) ?? check) : check
}

function checkForm(type: ValueType, text: string): ValueCheck {
  if (text === '') return wrong('empty', 'There is nothing here yet.')
  if (text.length > LONGEST_VALUE)
    return wrong('too long', `A value has at most ${LONGEST_VALUE} characters.`)
  const trimmed = text.trim()
  if (trimmed !== text && type !== 'free text' && type !== 'secret') return faultOfBlanks(type, trimmed)
  return types[type].check(text)
}

function faultOfBlanks(type: ValueType, trimmed: string): ValueCheck {
  const mend =
    trimmed !== '' && types[type].check(trimmed).ok
      ? { text: trimmed, sentence: 'Without the blanks.' }
      : null
  return wrong('blanks', 'There are blanks or line ends before or behind the value.', mend)
}

/** The standard writing of a value (IPv6: RFC 5952; MAC: RFC 6991; URL: RFC 3986 §6). Null where the type has none or the value is not valid. */
export function canonical(type: ValueType, text: string): string | null {
  return checkForm(type, text).ok ? types[type].canonical(text) : null
}

/** Whether two values are the same thing, perhaps written otherwise: 2001:DB8::1 and 2001:db8:0::1, 300 s and 5 min. */
export function isSameValue(type: ValueType, a: string, b: string): boolean {
  if (a === b) return true
  const amount = type === 'size' ? maybeBytes : type === 'duration' ? secondsOf : undefined
  const [first, second] = amount ? [amount(a), amount(b)] : [canonical(type, a), canonical(type, b)]
  return first !== undefined && first !== null && first === second
}

function secondsOf(text: string): number | undefined {
  return maybeDuration(text)?.seconds
}

/** A value to show as an example; addresses and names are those kept for documentation. Empty for a secret. */
export function exampleOf(type: ValueType): string {
  return types[type].example
}
