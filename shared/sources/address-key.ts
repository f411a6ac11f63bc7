/** When two addresses lead to the same page: one key for all of its spellings. The address itself is kept as it came. */

interface ParsedAddress {
  readonly href: string
  protocol: string
  hostname: string
  search: string
  hash: string
}
interface QueryNames {
  keys(): Iterable<string>
}
/** Both stand in every runtime that this program uses, but not in ECMAScript's own library. */
const { URL: UrlOfRuntime, URLSearchParams: QueryOfRuntime } = globalThis as unknown as {
  URL: new (address: string) => ParsedAddress
  URLSearchParams: new (query: string) => QueryNames
}

/**
 * What tells one page from another. The address is written as the WHATWG URL standard does it (host in lower case,
 * default port left out, dots in the path resolved), and then without the dot that ends a host (RFC 1034 §3.1), without
 * what says where a visitor came from, without an empty query, and without its fragment, which names a place within the
 * page – but for `#!…` and `#/…`, by which pages that are drawn by a script name what they show. http and https are one.
 * A leading `www.` and the order of the parameters make a difference, since for a server they may.
 * @returns what is no http or https address comes back as it is, without white space around it
 */
export function addressKey(address: string): string {
  const url = maybeUrl(address)
  if (!url) return address.trim()
  url.protocol = 'https:'
  if (/[^.]\.$/u.test(url.hostname)) url.hostname = url.hostname.slice(0, -1)
  const query = withoutTracking(url.search)
  // With its question mark, since the setter takes one away also where a name begins with it.
  url.search = query === '' ? '' : `?${query}`
  if (!/^#[!/]./u.test(url.hash)) url.hash = ''
  return url.href
}

function maybeUrl(address: string): ParsedAddress | null {
  try {
    const url = new UrlOfRuntime(address.trim())
    return url.protocol === 'http:' || url.protocol === 'https:' ? url : null
  } catch {
    return null
  }
}

function withoutTracking(search: string): string {
  return search
    .replace(/^\?/u, '')
    .split('&')
    .filter((parameter) => parameter !== '' && !isTracking(nameOf(parameter)))
    .join('&')
}

/** The name as a server reads it: percent-decoded (WHATWG URL, application/x-www-form-urlencoded parsing). */
function nameOf(parameter: string): string {
  const [name = ''] = new QueryOfRuntime(`?${parameter}`).keys()
  return name.toLowerCase()
}

/** Says whether a parameter of this name (in lower case) tells who came from where, and never which page is meant. */
function isTracking(name: string): boolean {
  return trackingNames.has(name) || trackingBeginnings.some((beginning) => name.startsWith(beginning))
}

const trackingBeginnings: readonly string[] = [
  // support.google.com/analytics/answer/10917952: utm_source, utm_medium, utm_campaign, utm_id, utm_term, …
  'utm_',
  // Common practice, no source: oly_anon_id, oly_enc_id.
  'oly_',
]

const trackingNames: ReadonlySet<string> = new Set([
  // support.google.com/google-ads/answer/3095550 and support.google.com/campaignmanager/answer/9182069, both named in
  // bugzilla.mozilla.org/show_bug.cgi?id=1836737, by which a browser takes them out of addresses.
  'gclid',
  'dclid',
  // Common practice, no source, for all from here on. Of advertisements:
  'fbclid',
  'gbraid',
  'gclsrc',
  'igshid',
  'msclkid',
  'ttclid',
  'twclid',
  'wbraid',
  'yclid',
  // Of mail to many:
  '__hsfp',
  '__hssc',
  '__hstc',
  '_hsenc',
  '_hsmi',
  'mc_cid',
  'mc_eid',
  'mkt_tok',
  'vero_conv',
  'vero_id',
])
