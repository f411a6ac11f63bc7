/**
 * IPv4 addresses: four decimal numbers from 0 to 255 (RFC 791 §3.2; dotted decimal as in RFC 1123 §2.1 and the
 * IPv4address rule of RFC 3986 §3.2.2). Short forms and leading zeros, which inet_aton reads as octal, are refused:
 * programs disagree about them (RFC 6943 §3.1.1).
 */
import { right, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const quad = /^(\d{1,10})\.(\d{1,10})\.(\d{1,10})\.(\d{1,10})$/

/** The address as a number of 32 bits, undefined where the text is none in the strict form. */
export function maybeIpv4(text: string): number | undefined {
  const octets = quad.exec(text)?.slice(1)
  if (!octets || octets.some((octet) => octet.length > 3 || isPadded(octet) || Number(octet) > 255))
    return undefined
  return octets.reduce((sum, octet) => sum * 256 + Number(octet), 0)
}

/** Dotted decimal of a number of 32 bits. */
export function ipv4Text(address: number): string {
  return [24, 16, 8, 0].map((shift) => (address >>> shift) & 255).join('.')
}

function isPadded(digits: string): boolean {
  return digits.length > 1 && digits.startsWith('0')
}

function checkIpv4(text: string): ValueCheck {
  if (maybeIpv4(text) !== undefined) return right()
  const octets = quad.exec(text)?.slice(1)
  if (octets) return faultOfQuad(octets)
  if (/^[\d.]+\/\d{1,3}$/.test(text))
    return wrong(
      'other type',
      'This is an address with a prefix length. An address alone ends before the “/”.',
      {
        text: text.slice(0, text.indexOf('/')),
        sentence: 'The address without its prefix length.',
      },
    )
  if (/^[\d.]+:\d{1,5}$/.test(text))
    return wrong('other type', 'This is an address with a port. An address alone ends before the “:”.', {
      text: text.slice(0, text.indexOf(':')),
      sentence: 'The address without the port.',
    })
  if (text.includes(':') && /^[0-9a-f:.%]+$/i.test(text))
    return wrong(
      'other type',
      'This looks like an IPv6 address. An IPv4 address has four numbers, as in 192.0.2.10.',
    )
  return wrong('form', 'An IPv4 address is four numbers from 0 to 255 with dots between, as in 192.0.2.10.')
}

function faultOfQuad(octets: readonly string[]): ValueCheck {
  const large = octets.find((octet) => Number(octet) > 255)
  if (large !== undefined)
    return wrong('range', `${large.slice(0, 10)} is too large: each of the four numbers goes from 0 to 255.`)
  return wrong(
    'form',
    'A number in it begins with 0. Some programs read such a number as octal, others as decimal, so write it without.',
    { text: octets.map(Number).join('.'), sentence: 'Read as decimal, without leading zeros.' },
  )
}

export const ipv4: TypeOfValue = {
  check: checkIpv4,
  canonical: (text) => (maybeIpv4(text) === undefined ? null : text),
  example: '192.0.2.10',
}
