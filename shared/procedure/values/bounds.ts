/**
 * What, standing beside a value, makes it part of a longer word: for each type the end of the text before it and the start of
 * the text behind it.
 */
import { maybeNetwork } from './network.ts'
import type { ValueType } from './types.ts'

interface Joins {
  readonly left: RegExp
  readonly right: RegExp
}

const word: Joins = { left: /[\p{L}\p{N}_]$/u, right: /^[\p{L}\p{N}_]/u }
/** Words that go on over a dot, a hyphen and the like where a letter or a digit stands behind it: eth0.5, web-1, eth0:1. */
const compound: Joins = {
  left: /[\p{L}\p{N}_]$|[\p{L}\p{N}][.-]$/u,
  right: /^[\p{L}\p{N}_]|^[.:-][\p{L}\p{N}]/u,
}
/** Numbers go on over a point and a hyphen between digits; a number of hours over a colon. */
const number: Joins = {
  left: /[\p{L}\p{N}_]$|\d[.,-]$|(?<![\d.\p{L}-])\d{1,2}:$/u,
  right: /^[\p{L}\p{N}_]|^[.,:-]\d|^\/\d/u,
}
const address: Joins = {
  left: /[\p{L}\p{N}_]$|[\p{L}\p{N}]\.$|\p{L}-$|:[\da-f]{0,4}:$/iu,
  right: /^[\p{L}\p{N}_]|^\.[\p{L}\p{N}]|^-\p{L}|^-\d{1,3}(?![\d.])/u,
}
const longAddress: Joins = {
  left: /[\p{L}\p{N}_:]$|[\da-f]\.$/iu,
  right: /^[\p{L}\p{N}_%]|^:[\da-f:]|^\.\d/iu,
}

const joins: Readonly<Record<ValueType, Joins>> = {
  'host name': {
    left: /[\p{L}\p{N}_-]$|[\p{L}\p{N}]\.$|(?<!\/)\/$/u,
    right: /^[\p{L}\p{N}_@-]|^\.[\p{L}\p{N}]/u,
  },
  'IPv4 address': address,
  'IPv6 address': longAddress,
  network: { left: longAddress.left, right: /^[\p{L}\p{N}_]|^\.\d/u },
  port: number,
  path: {
    left: /[\p{L}\p{N}_.~/)}*⁆-]$/u,
    right: /^[\p{L}\p{N}_*?{[$~-]|^\.[\p{L}\p{N}]|^\/[^\s'"`,;:)]/u,
  },
  user: { left: /[\p{L}\p{N}_./-]$/u, right: /^[\p{L}\p{N}_$-]|^[./][\p{L}\p{N}]/u },
  package: { left: /[\p{L}\p{N}_+./-]$/u, right: /^[\p{L}\p{N}_+/-]|^\.[\p{L}\p{N}]/u },
  version: { left: /[\p{L}\p{N}_.~+]$|[\p{L}\p{N}][:-]$/u, right: /^[\p{L}\p{N}_~+:-]|^\.[\p{L}\p{N}]/u },
  size: number,
  duration: number,
  'MAC address': { left: /[\p{L}\p{N}_]$|[\da-f][:-]$/iu, right: /^[\p{L}\p{N}_]|^[:-][\da-f]/iu },
  URL: { left: word.left, right: /^[\p{L}\p{N}_/?#=&%~@:+-]|^\.[\p{L}\p{N}]/u },
  'e-mail address': { left: /[\p{L}\p{N}._%+-]$/u, right: /^[\p{L}\p{N}_-]|^\.[\p{L}\p{N}]/u },
  date: { left: /[\p{L}\p{N}_]$|[\p{L}\p{N}]-$/u, right: /^[\p{L}\p{N}_]|^-[\p{L}\p{N}]/u },
  'free text': compound,
  secret: { left: /[^\s"'`=:(<>]$/u, right: /^[^\s"'`);,<>]/u },
}

/** How far beside a value is looked. */
const REACH = 80

/** The texts beside a range, as far as they matter. */
export function around(
  text: string,
  start: number,
  end: number,
): { readonly before: string; readonly after: string } {
  return { before: text.slice(Math.max(0, start - REACH), start), after: text.slice(end, end + REACH) }
}

/** Whether a value is part of a longer word where it stands. */
export function isInside(type: ValueType, before: string, after: string): boolean {
  if (joins[type].left.test(before) || joins[type].right.test(after)) return true
  // "weather/x" is a relative path, unless a scheme or a user stands before: "https://weather/x".
  return type === 'host name' && /^\/\S/.test(after) && !/\/\/$|@$/.test(before)
}

/** Whether an address is written here as the name of its network: the “192.0.2.0” of “192.0.2.0/24”. */
export function isNetworkName(type: ValueType, written: string, after: string): boolean {
  const prefix = /^\/\d{1,3}(?!\d)/.exec(after)?.[0]
  return (
    (type === 'IPv4 address' || type === 'IPv6 address') &&
    prefix !== undefined &&
    maybeNetwork(written + prefix) !== undefined
  )
}

const portBefore =
  /(?:\bports?|\blisten\w*|\b[ds]port|(?:^|\s)-p|(?:^|\s)--\w*port)[ \t]*[:=]?[ \t]*$|[\p{L}\p{N}\]⁆]:$/iu

/** Whether a bare number of this type is known by what stands beside it: “port 22”, “host:22”, “22/tcp”. */
export function isKnownNumber(type: ValueType, before: string, after: string): boolean {
  return type === 'port' && (portBefore.test(before) || /^\/(?:tcp|udp|sctp)\b/.test(after))
}
