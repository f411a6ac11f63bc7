/** How an address is shown before a person follows it: whole, its host set apart, and with a word about what may mislead. */
import { maybeLinkAddress, maybeWebAddress } from '../markdown/addresses.ts'
import { addressKey } from './address-key.ts'

export interface ShownAddress {
  /** As the WHATWG URL standard writes it; its host in ASCII. As it stands where it is no address. */
  readonly address: string
  /** The three together are `address`. The host is empty where there is none. */
  readonly before: string
  readonly host: string
  readonly after: string
  /** http or https: may be opened in a browser. */
  readonly isWeb: boolean
  /** The host as it was written, where that holds letters beyond ASCII. */
  readonly hostAsWritten: string | null
  /** The host holds letters beyond ASCII, so that it may look like another one (RFC 5891). */
  readonly isForeign: boolean
}

interface ParsedAddress {
  readonly hostname: string
}
/** The URL class stands in every runtime that this program uses, but not in ECMAScript's own library. */
const UrlOfRuntime = (globalThis as unknown as { URL: new (address: string) => ParsedAddress }).URL

/** Takes an address apart. Never fails. */
export function showAddress(written: string): ShownAddress {
  const address = maybeLinkAddress(written) ?? written.trim()
  const isWeb = maybeWebAddress(written) !== undefined
  const host = hostOf(address)
  const at = host === '' ? 0 : address.indexOf(host, address.indexOf('//') + 2 + lengthOfUser(address))
  const hostWritten = /^[a-z][a-z0-9+.-]*:\/\/(?:[^/?#@]*@)?([^/?#:]*)/iu.exec(written.trim())?.[1] ?? ''
  // eslint-disable-next-line no-control-regex -- all of ASCII
  const isWrittenForeign = /[^\x00-\x7f]/u.test(hostWritten)
  return {
    address,
    before: address.slice(0, at),
    host,
    after: address.slice(at + host.length),
    isWeb,
    hostAsWritten: isWrittenForeign ? hostWritten : null,
    isForeign: isWrittenForeign || /(?:^|\.)xn--/u.test(host),
  }
}

function hostOf(address: string): string {
  try {
    return new UrlOfRuntime(address).hostname
  } catch {
    return ''
  }
}

/** A name and a password before the host (`https://name@host/`) often stand there to mislead, so they are no host. */
function lengthOfUser(address: string): number {
  return /^[a-z][a-z0-9+.-]*:\/\/([^/?#]*@)/iu.exec(address)?.[1]?.length ?? 0
}

/**
 * What is misleading about a link, in a sentence: its words are an address themselves, but it leads to another one.
 * @returns null where the words are no address or name the same one
 */
export function maybeMisleading(words: string, address: string): string | null {
  const said = maybeSaid(words.trim(), address)
  if (said === null) return null
  const [claimed, real] = [hostOf(said).replace(/^www\./u, ''), hostOf(address).replace(/^www\./u, '')]
  if (claimed !== real)
    return `The words of the link name ${hostOf(said)}, but it leads to ${hostOf(address) || address}.`
  const isCut = /(?:…|\.\.\.)$/u.test(words.trim())
  const [saidKey, realKey] = [plainKey(said), plainKey(address)]
  const isSame = isCut ? realKey.startsWith(saidKey) : realKey === saidKey
  return isSame || !/^https?:\/\//iu.test(words.trim())
    ? null
    : 'The words of the link are an address on the same host, but it leads to another page there.'
}

const plainKey = (address: string): string => addressKey(address).replace(/^(https:\/\/)www\./u, '$1')

/** Endings of names that are those of files too; words of that form are taken for a file's name. */
const fileEndings = new Set([
  'sh',
  'md',
  'py',
  'rs',
  'pl',
  'ps',
  'so',
  'cc',
  'tf',
  'mk',
  'js',
  'ts',
  'gz',
  'pm',
])
const widely = new Set(
  'com org net edu gov int mil info biz name dev app page site online shop example test arpa local'.split(
    ' ',
  ),
)

/** The address that the words of a link say, as an absolute one; null where they say none. */
function maybeSaid(words: string, address: string): string | null {
  const whole = words.replace(/(?:…|\.\.\.)$/u, '')
  if (/\s/u.test(whole)) return null
  if (/^https?:\/\/[^\s/]/iu.test(whole)) return maybeWebAddress(whole) ?? null
  const domain = /^((?:[\p{L}\p{N}-]+\.)+([\p{L}]{2,}))(?::\d+)?(?:[/?#].*)?$/u.exec(whole)
  if (!domain || address.endsWith(whole)) return null
  const ending = domain[2]!.toLowerCase()
  const isDomain =
    /^www\./iu.test(whole) || widely.has(ending) || (ending.length === 2 && !fileEndings.has(ending))
  return isDomain ? (maybeWebAddress(`https://${whole}`) ?? null) : null
}
