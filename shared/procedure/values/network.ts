/**
 * Networks as address and prefix length: RFC 4632 §3.1 for IPv4, RFC 4291 §2.3 for IPv6. The bits behind the prefix must be
 * zero; an address of a machine with its prefix length is no network, and the network that holds it is offered.
 */
import { ipv4Text, maybeIpv4 } from './ipv4.ts'
import { ipv6Text, maybeIpv6 } from './ipv6.ts'
import { right, rightAs, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

/** Bits of an address, the first one highest, and how many of them name the network. */
export interface Network {
  readonly family: 4 | 6
  readonly bits: bigint
  readonly prefix: number
}

const widthOf = (family: 4 | 6): number => (family === 4 ? 32 : 128)

/** The bits of an address of either family, undefined where the text is none. A zone has no bits and is refused. */
export function maybeAddress(text: string): Network | undefined {
  const quad = maybeIpv4(text)
  if (quad !== undefined) return { family: 4, bits: BigInt(quad), prefix: 32 }
  const address = maybeIpv6(text)
  if (!address || address.zone !== null) return undefined
  return {
    family: 6,
    bits: address.groups.reduce((sum, group) => (sum << 16n) | BigInt(group), 0n),
    prefix: 128,
  }
}

/** An address with a prefix length, whether or not the bits behind the prefix are zero. */
export function maybePrefixed(text: string): Network | undefined {
  const parts = text.split('/')
  const address = maybeAddress(parts[0]!)
  const length = parts[1] ?? ''
  if (!address || parts.length !== 2 || !/^(?:0|[1-9]\d{0,2})$/.test(length)) return undefined
  return Number(length) > widthOf(address.family) ? undefined : { ...address, prefix: Number(length) }
}

/** A network in the strict sense. */
export function maybeNetwork(text: string): Network | undefined {
  const prefixed = maybePrefixed(text)
  return prefixed && hostBits(prefixed) === 0n ? prefixed : undefined
}

function hostBits({ family, bits, prefix }: Network): bigint {
  return bits & ((1n << BigInt(widthOf(family) - prefix)) - 1n)
}

/** Whether an address or a network lies in another, or is the same. */
export function isWithin(inner: Network, outer: Network): boolean {
  if (inner.family !== outer.family || inner.prefix < outer.prefix) return false
  const shift = BigInt(widthOf(outer.family) - outer.prefix)
  return inner.bits >> shift === outer.bits >> shift
}

/** The network that holds an address, in standard writing. */
export function networkText(network: Network): string {
  const { family, prefix } = network
  const bits = network.bits - hostBits(network)
  if (family === 4) return `${ipv4Text(Number(bits))}/${prefix}`
  const groups = Array.from({ length: 8 }, (_, i) => Number((bits >> BigInt(112 - 16 * i)) & 0xffffn))
  return `${ipv6Text({ groups, zone: null })}/${prefix}`
}

function checkNetwork(text: string): ValueCheck {
  const prefixed = maybePrefixed(text)
  if (!prefixed) return faultOf(text)
  const standard = networkText(prefixed)
  if (hostBits(prefixed) === 0n)
    return rightAs(text, standard, 'The recommended writing of this network (RFC 5952).')
  return wrong(
    'form',
    `The address has bits set behind the prefix, so it names one machine in a network. The network itself is ${standard}.`,
    { text: standard, sentence: 'The network that holds this address.' },
  )
}

function faultOf(text: string): ValueCheck {
  const [first = '', length] = text.split('/')
  const address = maybeAddress(first)
  if (!address) {
    if (first.includes('%'))
      return wrong('form', 'A network has no zone: leave out the “%” and what follows.')
    return wrong(
      'form',
      'A network is an address and the length of its prefix, as in 192.0.2.0/24 or 2001:db8::/32.',
    )
  }
  if (length === undefined)
    return wrong(
      'form',
      'The prefix length is missing: how many leading bits name the network, as in 192.0.2.0/24.',
    )
  const { family } = address
  const byMask = family === 4 ? maybeByMask(address, length) : undefined
  if (byMask) return wrong('form', 'Write the length of the prefix instead of a mask.', byMask)
  if (/^0\d+$/.test(length))
    return wrong('form', 'Write the prefix length without leading zeros.', trimmed(first, length))
  return wrong(
    'range',
    `The prefix length of an IPv${family} network is a number from 0 to ${widthOf(family)}.`,
  )
}

function trimmed(first: string, length: string): Mend | null {
  const text = `${first}/${Number(length)}`
  return maybePrefixed(text) ? { text, sentence: 'Without leading zeros.' } : null
}

/** A mask such as 255.255.255.0 as a prefix length, where its ones stand together at the front. */
function maybeByMask(address: Network, mask: string): Mend | undefined {
  const bits = maybeIpv4(mask)
  if (bits === undefined) return undefined
  const prefix = bits === 0 ? 0 : Math.clz32(~bits >>> 0)
  if (bits !== (prefix === 0 ? 0 : (0xffffffff << (32 - prefix)) >>> 0)) return undefined
  const text = networkText({ ...address, prefix })
  return { text, sentence: `The mask ${mask} is the prefix length ${prefix}.` }
}

export const network: TypeOfValue = {
  check: (text) => (maybeNetwork(text)?.family === 4 ? right() : checkNetwork(text)),
  canonical: (text) => {
    const found = maybeNetwork(text)
    return found ? networkText(found) : null
  },
  example: '192.0.2.0/24',
}
