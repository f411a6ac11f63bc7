/**
 * MAC addresses: six octets in hexadecimal, with hyphens (IEEE Std 802 §8, hexadecimal representation) or colons. The standard
 * writing here is that of RFC 6991 §3 (mac-address): colons and small letters, which is also what Linux shows.
 */
import { rightAs, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const forms = [
  /^(?:[\da-f]{2}:){5}[\da-f]{2}$/i,
  /^(?:[\da-f]{2}-){5}[\da-f]{2}$/i,
  /^(?:[\da-f]{4}\.){2}[\da-f]{4}$/i,
  /^[\da-f]{12}$/i,
]

/** The standard writing, undefined where the text is no MAC address. */
export function maybeMac(text: string): string | undefined {
  if (!forms.some((form) => form.test(text))) return undefined
  return text.replace(/[:.-]/g, '').toLowerCase().match(/../g)!.join(':')
}

function checkMac(text: string): ValueCheck {
  const standard = maybeMac(text)
  if (standard !== undefined)
    return rightAs(text, standard, 'With colons and small letters (RFC 6991), as Linux shows it.')
  const octets = text.split(/[:-]/)
  if (octets.length === 6 && octets.every((octet) => /^[\da-f]{1,2}$/i.test(octet))) {
    const padded = octets.map((octet) => octet.padStart(2, '0').toLowerCase()).join(':')
    return wrong('form', 'Each of the six parts has two digits, and one sign parts them all.', {
      text: padded,
      sentence: 'With two digits in each part.',
    })
  }
  if (octets.length === 8 && octets.every((octet) => /^[\da-f]{2}$/i.test(octet)))
    return wrong('form', 'This has eight parts (EUI-64). A MAC address of Ethernet or Wi-Fi has six.')
  return wrong('form', 'A MAC address is six pairs of hexadecimal digits, as in 00:00:5e:00:53:01.')
}

/** The example is of the range for documentation (RFC 7042 §2.1.2). */
export const mac: TypeOfValue = {
  check: checkMac,
  canonical: (text) => maybeMac(text) ?? null,
  example: '00:00:5e:00:53:01',
}
