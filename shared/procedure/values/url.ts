/** URLs with a host: RFC 3986, and its normalization (§6.2.2 and §6.2.3). A password in one is refused (§3.2.1). */
import { isHostName } from './host-name.ts'
import { maybeIpv4 } from './ipv4.ts'
import { ipv6Text, maybeIpv6 } from './ipv6.ts'
import { rightAs, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

/** The parts of RFC 3986 appendix B, the authority split further (§3.2). */
interface UrlParts {
  readonly scheme: string
  readonly user: string | undefined
  readonly host: string
  readonly port: string | undefined
  readonly path: string
  readonly query: string
  readonly fragment: string
}

const parts =
  /^([a-z][a-z\d+.-]*):\/\/(?:([^/?#@]*)@)?(\[[^\]/?#]*\]|[^:/?#@[\]]*)(?::(\d*))?(\/[^?#]*|)(\?[^#]*|)(#.*|)$/is
/** Unreserved, sub-delims, “:”, “@”, “/” and triples of “%” (§2, §3.3). */
const characters = /^(?:[\w.~!$&'()*+,;=:@/?-]|%[\da-f]{2})*$/i
const defaultPorts: Readonly<Record<string, string>> = {
  http: '80',
  https: '443',
  ftp: '21',
  ssh: '22',
  ws: '80',
  wss: '443',
  ldap: '389',
  ldaps: '636',
}

function maybeParts(text: string): UrlParts | undefined {
  const match = parts.exec(text)
  if (!match) return undefined
  const [, scheme = '', user, host = '', port, path = '', query = '', fragment = ''] = match
  const isPlain = [user ?? '', path, query.slice(1), fragment.slice(1)].every((part) => characters.test(part))
  const isHost = isUrlHost(host) || (host === '' && scheme.toLowerCase() === 'file')
  const isPort = port === undefined || port === '' || Number(port) <= 65535
  return isPlain && isHost && isPort ? { scheme, user, host, port, path, query, fragment } : undefined
}

function isUrlHost(host: string): boolean {
  if (host.startsWith('[')) return maybeIpv6(host.slice(1, -1))?.zone === null
  return maybeIpv4(host) !== undefined || isHostName(host)
}

function urlText({ scheme, user, host, port, path, query, fragment }: UrlParts): string {
  const small = scheme.toLowerCase()
  const address = host.startsWith('[') ? maybeIpv6(host.slice(1, -1)) : undefined
  const authority =
    (user === undefined ? '' : `${evenTriples(user)}@`) +
    (address ? `[${ipv6Text(address)}]` : host.toLowerCase())
  const isDefault = port === undefined || port === '' || Number(port) === Number(defaultPorts[small] ?? -1)
  const whole = path === '' && Object.hasOwn(defaultPorts, small) ? '/' : withoutDots(evenTriples(path))
  return `${small}://${authority}${isDefault ? '' : `:${Number(port)}`}${whole}${evenTriples(query)}${evenTriples(fragment)}`
}

/** §6.2.2.1 and 6.2.2.2: capital digits, and unreserved characters written as themselves. */
function evenTriples(text: string): string {
  return text.replace(/%[\da-f]{2}/gi, (triple) => {
    const character = String.fromCharCode(Number.parseInt(triple.slice(1), 16))
    return /[A-Za-z\d._~-]/.test(character) ? character : triple.toUpperCase()
  })
}

/** §5.2.4. */
function withoutDots(path: string): string {
  if (!path.startsWith('/')) return path
  const kept: string[] = []
  const names = path.slice(1).split('/')
  for (const [i, name] of names.entries()) {
    const isLast = i === names.length - 1
    if (name === '..') kept.pop()
    else if (name !== '.') kept.push(name)
    if (isLast && (name === '.' || name === '..')) kept.push('')
  }
  return `/${kept.join('/')}`
}

function checkUrl(text: string): ValueCheck {
  const found = maybeParts(text)
  if (!found) return faultOf(text)
  const colon = found.user?.indexOf(':') ?? -1
  if (colon >= 0 && colon < found.user!.length - 1) {
    const mended = urlText({ ...found, user: found.user!.slice(0, colon) })
    return wrong(
      'holds a secret',
      'A password stands in this URL, and URLs end up in logs. Give the password a parameter of its own, of the type secret.',
      { text: mended, sentence: 'Without the password.' },
    )
  }
  return rightAs(text, urlText(found), 'The same URL in its normal writing (RFC 3986).')
}

function faultOf(text: string): ValueCheck {
  const encoded = text.replace(/[\s"<>\\^`{|}]|[^\x20-\x7e]|%(?![\da-f]{2})/giu, encode)
  const mend = encoded === text ? null : offer(encoded)
  if (mend)
    return wrong('form', 'Blanks and some other characters stand in a URL as “%” and two digits.', mend)
  return wrong('form', sentenceOf(text))
}

/** A lone surrogate has no bytes; U+FFFD stands for it. */
function encode(character: string): string {
  return encodeURIComponent(/\p{Cs}/u.test(character) ? '\ufffd' : character)
}

function offer(text: string): Mend | null {
  return maybeParts(text) ? { text, sentence: 'With these characters encoded.' } : null
}

function sentenceOf(text: string): string {
  if (!/^[a-z][a-z\d+.-]*:/i.test(text))
    return 'A URL begins with its scheme, as in https://logger.example.org/.'
  if (!text.includes('://'))
    return 'Behind the scheme of a URL stand “://” and a host, as in https://logger.example.org/.'
  const port = /^[^:]+:\/\/[^/?#]*:(\d+)(?:[/?#]|$)/.exec(text)?.[1]
  if (port !== undefined && Number(port) > 65535)
    return 'The port in it is too large: a port is a number from 1 to 65535.'
  return 'The host in it is neither a host name nor an address (an IPv6 address stands in brackets).'
}

export const url: TypeOfValue = {
  check: checkUrl,
  canonical: (text) => {
    const found = maybeParts(text)
    return found ? urlText(found) : null
  },
  example: 'https://logger.example.org/',
}
