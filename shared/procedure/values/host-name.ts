/**
 * Host names: RFC 952 as RFC 1123 §2.1 widened it. Labels of letters, digits and hyphens, no hyphen at an edge, at most 63
 * characters each and 253 in all (the 255 octets of RFC 1035 §2.3.4, counted in text); the last label is not all digits, so
 * that no name can be taken for an address (RFC 1123 §2.1, RFC 3696 §2).
 */
import { maybeIpv4 } from './ipv4.ts'
import { maybeIpv6 } from './ipv6.ts'
import { rightAs, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

const label = /^[a-z\d](?:[a-z\d-]{0,61}[a-z\d])?$/i
const LONGEST_NAME = 253
const LONGEST_LABEL = 63

export function isHostName(text: string): boolean {
  if (text.length > LONGEST_NAME) return false
  const labels = text.split('.')
  return labels.every((one) => label.test(one)) && !/^\d+$/.test(labels.at(-1)!)
}

function checkHostName(text: string): ValueCheck {
  if (isHostName(text))
    return rightAs(
      text,
      text.toLowerCase(),
      'Names are compared without regard to case; small letters are usual.',
    )
  if (maybeIpv4(text) !== undefined || maybeIpv6(text))
    return wrong('other type', 'This is an address. A host name has letters, as in logger.example.org.')
  if (/^[a-z][a-z\d+.-]*:\/\//i.test(text))
    return wrong('other type', 'This is a URL. A host name alone has no “://”.', hostOf(text))
  if (text.endsWith('.') && isHostName(text.slice(0, -1)))
    return wrong('form', 'The dot at the end belongs to DNS zone files, not to the name.', {
      text: text.slice(0, -1),
      sentence: 'Without the dot at the end.',
    })
  return faultOf(text)
}

function hostOf(text: string): Mend | null {
  const host = /^[^:]+:\/\/(?:[^@/]*@)?([^:/?#]+)/.exec(text)?.[1] ?? ''
  return isHostName(host) ? { text: host, sentence: 'The host name in this URL.' } : null
}

function faultOf(text: string): ValueCheck {
  const labels = text.split('.')
  if (text.length > LONGEST_NAME)
    return wrong(
      'too long',
      `A host name has at most ${LONGEST_NAME} characters; this one has ${text.length}.`,
    )
  if (labels.includes(''))
    return wrong('form', 'Between two dots, or before the first one, a part of the name is missing.')
  const long = labels.find((one) => one.length > LONGEST_LABEL)
  if (long !== undefined)
    return wrong(
      'too long',
      `Each part of a host name has at most ${LONGEST_LABEL} characters; one here has ${long.length}.`,
    )
  if (text.includes('_')) {
    const mended = text.replaceAll('_', '-')
    return wrong(
      'form',
      'A host name has no underscore; those stand in DNS names of services. Use a hyphen.',
      offerOf(mended),
    )
  }
  if (/[^\x20-\x7e]/.test(text))
    return wrong(
      'form',
      'A host name has the letters a to z only. A name in other letters has a form that begins with “xn--”.',
    )
  if (/[^a-z\d.-]/i.test(text))
    return wrong('form', 'A host name has letters, digits, hyphens and dots only, as in logger.example.org.')
  if (labels.some((one) => one.startsWith('-') || one.endsWith('-')))
    return wrong('form', 'No part of a host name begins or ends with a hyphen.')
  return wrong('form', 'The last part of a host name is not all digits, or it would be taken for an address.')
}

function offerOf(text: string): Mend | null {
  return isHostName(text) ? { text, sentence: 'With hyphens.' } : null
}

export const hostName: TypeOfValue = {
  check: checkHostName,
  canonical: (text) => (isHostName(text) ? text.toLowerCase() : null),
  example: 'logger.example.org',
}
