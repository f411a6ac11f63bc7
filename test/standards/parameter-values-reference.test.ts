/**
 * Values of parameters against libraries and programs that others keep: Node's net, ipaddr.js, ip-address, validator, semver and
 * the WHATWG URL parser of Node; dpkg and systemd-analyze where they are installed. Values are made by a grammar and then damaged
 * by a character or two. Each disagreement must be one of those listed here with its reason; all others fail the test.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { isIP, isIPv4, isIPv6 } from 'node:net'
import fc from 'fast-check'
import { Address4, Address6 } from 'ip-address'
import ipaddr from 'ipaddr.js'
import semver from 'semver'
import validator from 'validator'
import { describe, expect, it } from 'vitest'
import { canonical, checkValue } from '../../shared/procedure/values/check.ts'
import { maybeDuration } from '../../shared/procedure/values/duration.ts'
import { maybeAddress, maybeNetwork, isWithin } from '../../shared/procedure/values/network.ts'
import type { ValueType } from '../../shared/procedure/values/types.ts'
import { compareDebian, compareSemantic } from '../../shared/procedure/values/version-order.ts'
import { maybeDebianVersion, maybeSemanticVersion } from '../../shared/procedure/values/version.ts'

const RUNS = 6000

/** One or two characters taken out, put in or changed. */
function damaged(value: fc.Arbitrary<string>, alphabet: string): fc.Arbitrary<string> {
  const edit = fc.tuple(fc.nat(), fc.constantFrom(...alphabet), fc.constantFrom('out', 'in', 'change'))
  return fc.tuple(value, fc.array(edit, { maxLength: 2 })).map(([text, edits]) =>
    edits.reduce((made, [place, character, kind]) => {
      const at = place % (made.length + 1)
      return made.slice(0, at) + (kind === 'out' ? '' : character) + made.slice(kind === 'in' ? at : at + 1)
    }, text),
  )
}

interface Reference {
  readonly name: string
  readonly accepts: (text: string) => boolean
  /** Where the two may differ, and why. */
  readonly differs: readonly (readonly [reason: string, where: RegExp])[]
}

/** Fails at the first disagreement without a listed reason, and where a listed reason was never met or hardly anything was valid. */
function compare(type: ValueType, values: fc.Arbitrary<string>, { name, accepts, differs }: Reference): void {
  const met = new Map<string, number>()
  let valid = 0
  fc.assert(
    fc.property(values, (text) => {
      const ours = checkValue(type, text).ok
      const theirs = accepts(text)
      if (theirs) valid++
      if (ours === theirs) return
      const reason = differs.find(([, where]) => where.test(text))?.[0]
      expect(reason, `${name} ${theirs ? 'accepts' : 'refuses'} ${JSON.stringify(text)}`).toBeDefined()
      met.set(reason!, (met.get(reason!) ?? 0) + 1)
    }),
    { numRuns: RUNS },
  )
  expect(valid).toBeGreaterThan(RUNS / 10)
  expect(valid).toBeLessThan(RUNS * 0.98)
  expect(differs.map(([reason]) => reason).filter((reason) => !met.has(reason))).toEqual([])
}

const octet = fc.oneof(
  fc.integer({ min: 0, max: 255 }).map(String),
  fc.constantFrom('0', '00', '01', '255', '256', '999', '1'),
)
const quad = fc.array(octet, { minLength: 4, maxLength: 4 }).map((octets) => octets.join('.'))
const group = fc.oneof(
  fc.integer({ min: 0, max: 65535 }).map((one) => one.toString(16)),
  fc.constantFrom('0', '0000', 'DB8', '01', '10000'),
)
const groups = fc.array(group, { minLength: 1, maxLength: 8 })
const zone = fc.constantFrom('', '', '', '%eth0', '%1', '%', '%a_b', '%e/0')
const long = fc
  .tuple(groups, groups, fc.boolean(), fc.option(quad), zone)
  .map(([head, tail, isShort, end, suffix]) => {
    const parts = isShort
      ? `${head.slice(0, 4).join(':')}::${tail.slice(0, 3).join(':')}`
      : [...head, ...tail].slice(0, 8).join(':')
    return `${parts}${end === null ? '' : `:${end}`}${suffix}`
  })
const ipv4 = damaged(quad, '0123456789. x')
const ipv6 = damaged(
  fc.oneof(
    long,
    fc.tuple(fc.ipV6(), zone).map((parts) => parts.join('')),
  ),
  '0123456789abcdfF:.%g',
)

describe('addresses', () => {
  it('IPv4 are those of net.isIPv4', () => {
    compare('IPv4 address', ipv4, { name: 'net.isIPv4', accepts: isIPv4, differs: [] })
  })
  it('IPv4 are those of ipaddr.js in four parts of decimal digits', () => {
    compare('IPv4 address', ipv4, {
      name: 'ipaddr.js',
      accepts: (text) => ipaddr.IPv4.isValidFourPartDecimal(text),
      differs: [],
    })
  })
  it('IPv4 are those of ip-address', () => {
    compare('IPv4 address', ipv4, {
      name: 'ip-address',
      accepts: (text) => Address4.isValid(text),
      differs: [],
    })
  })
  it('IPv4 are those of validator', () => {
    compare('IPv4 address', ipv4, {
      name: 'validator',
      accepts: (text) => validator.isIP(text, 4),
      differs: [],
    })
  })

  it('IPv6 are those of net.isIPv6', () => {
    compare('IPv6 address', ipv6, {
      name: 'net.isIPv6',
      accepts: isIPv6,
      differs: [
        ['Linux lets “_” stand in an interface’s name, and RFC 6874 “_” and “~” in a zone', /%.*[_~]/],
        ['Node lets “:” stand in a zone', /%.*:/],
      ],
    })
  })
  it('IPv6 are those of ipaddr.js', () => {
    compare('IPv6 address', ipv6, {
      name: 'ipaddr.js',
      accepts: (text) => ipaddr.IPv6.isValid(text),
      differs: [
        ['RFC 6943 §3.1.1: ipaddr.js reads leading zeros in the dotted end as octal', /[:.]0\d+(?:\.|$|%)/],
        ['RFC 6874: “_”, “~”, “.” and “-” may stand in a zone, not in ipaddr.js', /%.*[_~.-]/],
      ],
    })
  })
  it('IPv6 are those of ip-address', () => {
    compare('IPv6 address', ipv6, {
      name: 'ip-address',
      accepts: (text) => Address6.isValid(text),
      differs: [['ip-address reads a prefix length or anything else behind a “%” or “/”', /[%/]/]],
    })
  })
  it('IPv6 are those of validator', () => {
    compare('IPv6 address', ipv6, {
      name: 'validator',
      accepts: (text) => validator.isIP(text, 6),
      differs: [['RFC 6874: “_” and “~” may stand in a zone', /%.*[_~]/]],
    })
  })

  it('IPv6 are written as ipaddr.js and ip-address write them', () => {
    fc.assert(
      fc.property(long, (text) => {
        const ours = canonical('IPv6 address', text)
        if (ours === null || text.includes('%')) return
        expect(ipaddr.IPv6.parse(text).toRFC5952String()).toBe(ours)
        // ip-address writes the IPv4-mapped prefix in hexadecimal.
        if (!ours.startsWith('::ffff:')) expect(new Address6(text).correctForm()).toBe(ours)
      }),
      { numRuns: RUNS },
    )
  })
})

describe('networks', () => {
  const prefixed = damaged(
    fc
      .tuple(
        fc.oneof(quad, long),
        fc.oneof(fc.integer({ min: 0, max: 130 }).map(String), fc.constantFrom('24', '08', '64')),
      )
      .map((parts) => parts.join('/')),
    '0123456789/',
  )
  it('name the network that ipaddr.js finds, for every address with a prefix length', () => {
    let seen = 0
    fc.assert(
      fc.property(prefixed, (text) => {
        const check = checkValue('network', text)
        const [address = '', length = ''] = text.split('/')
        if (
          !ipaddr.isValidCIDR(text) ||
          isIP(address) === 0 ||
          address.includes('%') ||
          (length.length > 1 && length.startsWith('0'))
        ) {
          expect(check.ok).toBe(false)
          return
        }
        seen++
        const family = isIP(address) === 4 ? ipaddr.IPv4 : ipaddr.IPv6
        const base = family.networkAddressFromCIDR(text)
        const theirs = `${base instanceof ipaddr.IPv6 ? base.toRFC5952String() : base.toString()}/${length}`
        expect(check.ok).toBe(base.toString() === ipaddr.parse(address).toString())
        expect(check.mend?.text ?? text).toBe(theirs)
      }),
      { numRuns: RUNS },
    )
    expect(seen).toBeGreaterThan(RUNS / 40)
  })

  it('hold the addresses that ipaddr.js says they hold', () => {
    fc.assert(
      fc.property(fc.ipV4(), fc.ipV4(), fc.integer({ min: 0, max: 32 }), (a, b, length) => {
        const network = maybeNetwork(checkValue('network', `${b}/${length}`).mend?.text ?? `${b}/${length}`)!
        expect(isWithin(maybeAddress(a)!, network)).toBe(
          ipaddr.IPv4.parse(a).match([ipaddr.IPv4.parse(b), length]),
        )
      }),
    )
    fc.assert(
      fc.property(fc.ipV6(), fc.integer({ min: 0, max: 128 }), fc.nat({ max: 15 }), (a, length, change) => {
        const address = ipaddr.IPv6.parse(a)
        const moved = new ipaddr.IPv6(
          address.parts.map((part, i) => (i === change % 8 ? part ^ (1 << change) : part)),
        )
        const network = maybeNetwork(
          `${ipaddr.IPv6.networkAddressFromCIDR(`${address.toNormalizedString()}/${length}`).toNormalizedString()}/${length}`,
        )!
        expect(isWithin(maybeAddress(moved.toNormalizedString())!, network)).toBe(
          moved.match(address, length),
        )
      }),
    )
  })
})

describe('names and numbers', () => {
  const label = fc.oneof(
    fc.stringMatching(/^[a-zA-Z\d]([a-z\d-]{0,10}[a-z\d])?$/),
    fc.constantFrom('a'.repeat(63), 'b'.repeat(64), '1', '-', 'xn--a'),
  )
  const host = damaged(
    fc.array(label, { minLength: 1, maxLength: 5 }).map((labels) => labels.join('.')),
    'a1-._ü ',
  )
  it('host names are those of validator without a required top-level domain', () => {
    compare('host name', host, {
      name: 'validator.isFQDN',
      accepts: (text) => validator.isFQDN(text, { require_tld: false, allow_numeric_tld: true }),
      differs: [
        ['RFC 1123 §2.1: the last label is not all digits', /(?:^|\.)\d+$/],
        [
          'no label of a host name is written in other letters (RFC 952); validator lets them through',
          /[^\x20-\x7e]/,
        ],
      ],
    })
  })

  it('MAC addresses are those of validator', () => {
    const pair = fc.stringMatching(/^[\da-fA-F]{2}$/)
    const mac = damaged(
      fc.oneof(
        fc
          .tuple(fc.array(pair, { minLength: 6, maxLength: 6 }), fc.constantFrom(':', '-', '', '.'))
          .map(([pairs, sign]) => pairs.join(sign)),
        fc
          .array(pair, { minLength: 6, maxLength: 6 })
          .map((pairs) => pairs.join('').match(/.{4}/g)!.join('.')),
      ),
      '0aF:-. g',
    )
    compare('MAC address', mac, {
      name: 'validator.isMACAddress',
      accepts: (text) =>
        validator.isMACAddress(text, { eui: '48' }) ||
        (/^[^\s:-]*$/.test(text) && validator.isMACAddress(text, { eui: '48', no_separators: true })),
      differs: [],
    })
  })

  it('ports are those of validator, without 0', () => {
    compare('port', damaged(fc.integer({ min: 0, max: 70000 }).map(String), '0123456789 -'), {
      name: 'validator.isPort',
      accepts: (text) => validator.isPort(text),
      differs: [['RFC 6335 §6: port 0 is reserved; validator lets it through, also with a sign', /^-?0$/]],
    })
  })

  it('dates are those that Date writes in the same way', () => {
    const date = damaged(
      fc
        .date({ min: new Date('0001-01-01'), max: new Date('9999-12-31'), noInvalidDate: true })
        .map((one) => one.toISOString().slice(0, 10)),
      '0123456789-',
    )
    compare('date', date, {
      name: 'Date',
      accepts: (text) => {
        const read = new Date(`${text}T00:00:00Z`)
        return (
          /^\d{4}-/.test(text) && !Number.isNaN(read.valueOf()) && read.toISOString().slice(0, 10) === text
        )
      },
      differs: [],
    })
  })

  it('e-mail addresses are those of the HTML standard’s pattern', () => {
    // https://html.spec.whatwg.org/multipage/input.html#valid-e-mail-address (from memory)
    const html =
      /^[a-zA-Z0-9.!#$%&'*+/=?^_`{|}~-]+@[a-zA-Z0-9](?:[a-zA-Z0-9-]{0,61}[a-zA-Z0-9])?(?:\.[a-zA-Z0-9](?:[a-zA-Z0-9-]{0,61}[a-zA-Z0-9])?)*$/
    const email = damaged(
      fc
        .tuple(fc.stringMatching(/^[a-z.+'-]{1,8}$/), fc.array(label, { minLength: 1, maxLength: 3 }))
        .map(([local, labels]) => `${local}@${labels.join('.')}`),
      'a1-._@ ',
    )
    compare('e-mail address', email, {
      name: 'HTML',
      accepts: (text) => html.test(text),
      differs: [['RFC 1123 §2.1: the last label is not all digits', /(?:^|[.@])\d+$/]],
    })
  })
})

describe('URLs', () => {
  const part = fc.stringMatching(/^[a-zA-Z\d%~._-]{0,6}$/)
  const made = fc
    .tuple(
      fc.constantFrom('http', 'https', 'ftp', 'HTTP'),
      fc.constantFrom('example.org', '192.0.2.1', '[2001:DB8::1]', 'gate', 'Gate.example.org'),
      fc.constantFrom('', ':80', ':8443', ':'),
      fc.array(part, { maxLength: 3 }),
      fc.constantFrom('', '?a=b&c', '#x'),
    )
    .map(
      ([scheme, host, port, names, end]) =>
        `${scheme}://${host}${port}${names.map((name) => `/${name}`).join('')}${end}`,
    )

  it('that are let through are read by the WHATWG parser with the same host, port and path', () => {
    let seen = 0
    fc.assert(
      fc.property(damaged(made, 'a1:/.%[] '), (text) => {
        if (!checkValue('URL', text).ok || !/^(?:https?|ftp):/i.test(text)) return
        // The parser of Node 20 (ada 2.9.2) leaves a last “/.” where a name before it begins with a dot.
        if (/\/\.[^?#]*\/\.(?:[?#]|$)/.test(text)) return
        seen++
        const standard = canonical('URL', text)!
        const [theirs, again] = [new URL(text), new URL(standard)]
        expect([again.protocol, again.host, again.username]).toEqual([
          theirs.protocol,
          theirs.host,
          theirs.username,
        ])
        // WHATWG keeps "%7e" as it stands, RFC 3986 §6.2.2.2 decodes it; both are the same path.
        expect(decode(again.pathname)).toBe(decode(theirs.pathname))
        expect(canonical('URL', standard)).toBe(standard)
      }),
      { numRuns: RUNS },
    )
    expect(seen).toBeGreaterThan(RUNS / 10)
  })
})

function decode(path: string): string {
  return path.replace(/%[\da-f]{2}/gi, (triple) => String.fromCharCode(Number.parseInt(triple.slice(1), 16)))
}

const hasDpkg = spawnSync('dpkg', ['--version']).status === 0
const hasTimespan = spawnSync('systemd-analyze', ['timespan', '1s']).status === 0

describe('versions', () => {
  const piece = fc.oneof(
    fc.nat({ max: 30 }).map(String),
    fc.constantFrom('a', 'rc', 'alpha', '0', '01', 'x-y', 'beta2'),
  )
  const semantic = fc
    .tuple(
      fc.array(fc.nat({ max: 20 }), { minLength: 3, maxLength: 3 }),
      fc.array(piece, { maxLength: 3 }),
      fc.array(piece, { maxLength: 2 }),
    )
    .map(
      ([core, before, build]) =>
        core.join('.') +
        (before.length ? `-${before.join('.')}` : '') +
        (build.length ? `+${build.join('.')}` : ''),
    )

  it('of semver are those of node-semver, and are let through', () => {
    fc.assert(
      fc.property(damaged(semantic, '0.1-+a'), (text) => {
        // node-semver takes blanks and a "v" off first, and refuses numbers beyond 2^53.
        const isTheirs = semver.valid(text) !== null && /^\d/.test(text)
        expect(maybeSemanticVersion(text) !== undefined).toBe(isTheirs)
        if (isTheirs) expect(checkValue('version', text).ok).toBe(true)
      }),
      { numRuns: RUNS },
    )
  })

  it('of semver come in the order of node-semver', () => {
    fc.assert(
      fc.property(semantic, semantic, (a, b) => {
        if (!semver.valid(a) || !semver.valid(b)) return
        expect(Math.sign(compareSemantic(a, b)!)).toBe(semver.compare(a, b))
      }),
      { numRuns: RUNS },
    )
  })

  const debian = damaged(
    fc
      .tuple(
        fc.constantFrom('', '', '1:', '0:', 'x:'),
        fc.array(piece, { minLength: 1, maxLength: 4 }),
        fc.constantFrom('', '-1', '-9+deb12u4', '~rc1', '-', '-0', '~~'),
      )
      .map(([epoch, pieces, end]) => epoch + pieces.join('.') + end),
    '0123a~+-.:_',
  )
  it.skipIf(!hasDpkg)('of Debian are those of dpkg', () => {
    const texts = [...new Set(fc.sample(debian, { numRuns: 800, seed: 7 }))].filter((text) => text !== '')
    const theirs = texts.map((text) => spawnSync('dpkg', ['--validate-version', text]).status === 0)
    const differing = texts.filter((text, i) => (maybeDebianVersion(text) !== undefined) !== theirs[i])
    // dpkg reads the epoch as C's strtol does, with a sign; policy 5.6.12 has digits only.
    expect(differing.filter((text) => !/^\+\d+:/.test(text))).toEqual([])
    expect(theirs.filter(Boolean).length).toBeGreaterThan(100)
  })

  it.skipIf(!hasDpkg)('of Debian come in the order of dpkg', () => {
    const texts = fc
      .sample(debian, { numRuns: 1500, seed: 8 })
      .filter((text) => maybeDebianVersion(text) !== undefined)
    const pairs = texts
      .slice(1)
      .map((text, i) => [texts[i]!, text] as const)
      .slice(0, 500)
    const signs = new Set<number>()
    for (const [a, b] of pairs) {
      const sign = Math.sign(compareDebian(a, b)!)
      signs.add(sign)
      const operator = sign < 0 ? 'lt' : sign > 0 ? 'gt' : 'eq'
      expect(spawnSync('dpkg', ['--compare-versions', a, operator, b]).status, `${a} ${operator} ${b}`).toBe(
        0,
      )
    }
    expect(pairs.length).toBeGreaterThan(200)
    expect(signs.size).toBeGreaterThanOrEqual(2)
  })
})

describe('durations', () => {
  const unit = fc.constantFrom(
    'usec',
    'us',
    'µs',
    'msec',
    'ms',
    'seconds',
    'second',
    'sec',
    's',
    'minutes',
    'minute',
    'min',
    'm',
    'hours',
    'hour',
    'hr',
    'h',
    'days',
    'day',
    'd',
    'weeks',
    'week',
    'w',
    'months',
    'month',
    'M',
    'years',
    'year',
    'y',
    'fortnight',
    'H',
    '',
  )
  const span = fc
    .array(
      fc.tuple(
        fc.nat({ max: 500 }),
        fc.constantFrom('', '', '.5'),
        fc.constantFrom('', ' '),
        unit,
        fc.constantFrom('', ' '),
      ),
      { minLength: 1, maxLength: 3 },
    )
    .map((parts) =>
      parts
        .map((part) => part.join(''))
        .join('')
        .trim(),
    )

  it.skipIf(!hasTimespan)('are the time spans of systemd-analyze, with the same length', () => {
    const texts = [...new Set(fc.sample(span, { numRuns: 500, seed: 9 }))]
    let valid = 0
    for (const text of texts) {
      const theirs = maybeMicroseconds(text)
      const ours = maybeDuration(text)?.seconds
      if (theirs === undefined) expect(ours, text).toBeUndefined()
      else {
        valid++
        expect(Math.abs(ours! - theirs / 1e6), text).toBeLessThan(1e-3)
      }
    }
    expect(valid).toBeGreaterThan(100)
    expect(valid).toBeLessThan(texts.length)
  })
})

function maybeMicroseconds(text: string): number | undefined {
  try {
    const answer = execFileSync('systemd-analyze', ['timespan', text], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    })
    return Number(/[uμµ]s: (\d+)/.exec(answer)?.[1])
  } catch {
    return undefined
  }
}
