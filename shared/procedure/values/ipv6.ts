/**
 * IPv6 addresses: the three text forms of RFC 4291 §2.2, with an optional zone (RFC 4007 §11, characters as in the ZoneID
 * of RFC 6874), and the one recommended writing of RFC 5952.
 */
import { ipv4Text, maybeIpv4 } from './ipv4.ts'
import { rightAs, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

export interface Ipv6 {
  /** Eight numbers of 16 bits. */
  readonly groups: readonly number[]
  readonly zone: string | null
}

/** Reads an address. undefined where the text is none. */
export function maybeIpv6(text: string): Ipv6 | undefined {
  const percent = text.indexOf('%')
  const zone = percent < 0 ? null : text.slice(percent + 1)
  if (zone !== null && !/^[\w.~-]{1,64}$/.test(zone)) return undefined
  const groups = maybeGroups(percent < 0 ? text : text.slice(0, percent))
  return groups && { groups, zone }
}

function maybeGroups(text: string): number[] | undefined {
  const halves = text.split('::')
  if (halves.length > 2) return undefined
  const isShort = halves.length === 2
  const head = maybeHalf(halves[0]!, !isShort)
  const tail = isShort ? maybeHalf(halves[1]!, true) : []
  if (!head || !tail) return undefined
  const left = 8 - head.length - tail.length
  // "::" stands for one or more groups of zeros.
  if (isShort ? left < 1 : left !== 0) return undefined
  return [...head, ...Array<number>(left).fill(0), ...tail]
}

/** @param isLast whether an IPv4 address may stand at its end */
function maybeHalf(text: string, isLast: boolean): number[] | undefined {
  if (text === '') return []
  const parts = text.split(':')
  const groups: number[] = []
  for (const [i, part] of parts.entries()) {
    const quad = isLast && i === parts.length - 1 ? maybeIpv4(part) : undefined
    if (quad !== undefined) groups.push(quad >>> 16, quad & 0xffff)
    else if (/^[0-9a-f]{1,4}$/i.test(part)) groups.push(Number.parseInt(part, 16))
    else return undefined
  }
  return groups
}

/**
 * The writing of RFC 5952 §4: no leading zeros, the longest run of two or more zero groups shortened (the first of equal
 * ones), small letters. §5: the IPv4-mapped prefix ::ffff:0:0/96 is followed by dotted decimal.
 */
export function ipv6Text({ groups, zone }: Ipv6): string {
  const suffix = zone === null ? '' : `%${zone}`
  if (isMapped(groups)) return `::ffff:${ipv4Text(groups[6]! * 65536 + groups[7]!)}${suffix}`
  const { start, length } = longestZeros(groups)
  const hex = groups.map((group) => group.toString(16))
  if (length < 2) return hex.join(':') + suffix
  return `${hex.slice(0, start).join(':')}::${hex.slice(start + length).join(':')}${suffix}`
}

function isMapped(groups: readonly number[]): boolean {
  return groups.slice(0, 5).every((group) => group === 0) && groups[5] === 0xffff
}

function longestZeros(groups: readonly number[]): { start: number; length: number } {
  let best = { start: 0, length: 0 }
  let length = 0
  for (const [i, group] of groups.entries()) {
    length = group === 0 ? length + 1 : 0
    if (length > best.length) best = { start: i - length + 1, length }
  }
  return best
}

function checkIpv6(text: string): ValueCheck {
  const address = maybeIpv6(text)
  if (address) return rightAs(text, ipv6Text(address), 'The recommended writing of this address (RFC 5952).')
  const bracketed = /^\[([^\]]*)\](?::\d+)?$/.exec(text)?.[1]
  if (bracketed !== undefined && maybeIpv6(bracketed))
    return wrong(
      'form',
      'The brackets belong to URLs and ports, not to the address. Write it without them.',
      {
        text: bracketed,
        sentence: 'The address alone.',
      },
    )
  const slash = text.indexOf('/')
  if (slash > 0 && maybeIpv6(text.slice(0, slash)))
    return wrong(
      'other type',
      'This is an address with a prefix length. An address alone ends before the “/”.',
      {
        text: text.slice(0, slash),
        sentence: 'The address without its prefix length.',
      },
    )
  if (maybeIpv4(text) !== undefined)
    return wrong('other type', 'This is an IPv4 address. An IPv6 address has colons, as in 2001:db8::10.')
  return wrong('form', faultOf(text))
}

function faultOf(text: string): string {
  const shown = text.split('%')[0]!
  if (shown.split('::').length > 2 || shown.includes(':::'))
    return 'The short form “::” may stand only once, or nobody could tell how many zeros it stands for.'
  if (/[0-9a-f]{5}/i.test(shown)) return 'A group has at most four hexadecimal digits.'
  if (text.endsWith('%')) return 'A name must follow the “%”: the zone, as in fe80::1%eth0.'
  if (/^[0-9a-f:.]+$/i.test(shown) && shown.includes(':'))
    return 'An IPv6 address has eight groups; “::” stands for those left out, as in 2001:db8::10.'
  return 'An IPv6 address is eight groups of hexadecimal digits with colons between, as in 2001:db8::10.'
}

export const ipv6: TypeOfValue = {
  check: checkIpv6,
  canonical: (text) => {
    const address = maybeIpv6(text)
    return address ? ipv6Text(address) : null
  },
  example: '2001:db8::10',
}
