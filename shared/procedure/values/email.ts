/** E-mail addresses: the “valid email address” of the HTML standard, with the host name of host-name.ts. */
import { isHostName } from './host-name.ts'
import { rightAs, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

/** RFC 5321 §4.5.3.1.1: octets of the local part. */
const LONGEST_LOCAL_PART = 64

/** The two sides of the last “@”, undefined where the text is no address. */
function maybeSides(text: string): readonly [string, string] | undefined {
  const at = text.lastIndexOf('@')
  const [local, host] = [text.slice(0, at), text.slice(at + 1)]
  const isLocal = at > 0 && local.length <= LONGEST_LOCAL_PART && /^[\w.!#$%&'*+/=?^`{|}~-]+$/.test(local)
  return isLocal && isHostName(host) ? [local, host] : undefined
}

/** The host is compared without regard to case, the part before it is not (RFC 5321 §2.4). */
function canonicalOf(text: string): string | null {
  const sides = maybeSides(text)
  return sides ? `${sides[0]}@${sides[1].toLowerCase()}` : null
}

function checkEmail(text: string): ValueCheck {
  const standard = canonicalOf(text)
  if (standard !== null) return rightAs(text, standard, 'The host in small letters, as is usual.')
  const inner = /^(?:mailto:|.*<)([^<>]+)>?$/i.exec(text)?.[1]
  if (inner !== undefined && maybeSides(inner))
    return wrong('form', 'The address alone has no name and no brackets.', {
      text: inner,
      sentence: 'The address alone.',
    })
  if (!text.includes('@')) return wrong('form', 'An e-mail address has an “@”, as in observer@example.org.')
  return wrong(
    'form',
    'Before the “@” stand letters, digits and some signs without blanks, behind it a host name, as in observer@example.org.',
  )
}

export const email: TypeOfValue = {
  check: checkEmail,
  canonical: canonicalOf,
  example: 'observer@example.org',
}
