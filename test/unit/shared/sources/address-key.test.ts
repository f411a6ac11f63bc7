import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addressKey } from '../../../../shared/sources/address-key.ts'

const one = (a: string, b: string) => expect(addressKey(a)).toBe(addressKey(b))
const two = (a: string, b: string) => expect(addressKey(a)).not.toBe(addressKey(b))

describe('the key of an address', () => {
  it('is the same for all spellings of one page', () => {
    const plain = 'https://docs.example.org/rack/fans?rev=2&lang=en'
    one(plain, 'http://docs.example.org/rack/fans?rev=2&lang=en')
    one(plain, 'HTTPS://DOCS.Example.org:443/rack/./x/../fans?rev=2&lang=en#speed')
    one(plain, ' https://docs.example.org./rack/fans?rev=2&lang=en#:~:text=fan \n')
    one('http://logger.example.org', 'https://logger.example.org:443/?#')
    one('http://logger.example.org:80/?', 'https://logger.example.org/')
    one('http://192.0.2.7./status', 'http://192.0.2.7/status')
    one('https://wetter.example.org/höhe', 'https://wetter.example.org/h%C3%B6he')
  })

  it('leaves out who came from where', () => {
    const plain = 'https://example.org/paper?id=7'
    for (const name of [
      'utm_source',
      'UTM_Campaign',
      'fbclid',
      'gclid',
      'dclid',
      'msclkid',
      'mc_cid',
      'mc_eid',
    ])
      one(plain, `https://example.org/paper?${name}=x&id=7`)
    for (const name of ['igshid', 'yclid', '_hsenc', '_hsmi', 'vero_id', 'oly_enc_id', 'utm%5Fterm'])
      one(plain, `https://example.org/paper?id=7&${name}=x`)
    one('https://example.org/paper', 'https://example.org/paper?utm_source')
  })

  it('keeps apart what a server may keep apart', () => {
    two('https://example.org/', 'https://www.example.org/')
    two('https://example.org/a', 'https://example.org/a/')
    two('https://example.org/A', 'https://example.org/a')
    two('https://example.org/?a=1&b=2', 'https://example.org/?b=2&a=1')
    two('https://example.org/?page=1', 'https://example.org/?page=2')
    two('https://example.org/', 'https://example.org:8443/')
    two('https://example.org/?reutm_source=1', 'https://example.org/')
    two('https://example.org/?ref=a', 'https://example.org/?ref=b')
  })

  it('keeps the routes of pages that are drawn by a script', () => {
    two('https://example.org/#!/fans', 'https://example.org/#!/pumps')
    two('https://example.org/#/fans', 'https://example.org/#/pumps')
    one('https://example.org/#!', 'https://example.org/')
    one('https://example.org/#fans', 'https://example.org/#pumps')
  })

  it('gives back what is no address of the web', () => {
    expect(addressKey(' rack notes ')).toBe('rack notes')
    expect(addressKey('mailto:ops@example.org')).toBe('mailto:ops@example.org')
    expect(addressKey('')).toBe('')
  })

  const word = fc.stringMatching(/^[a-z0-9%~._-]{0,6}$/)
  const query = fc.array(
    fc.oneof(
      fc.tuple(word, word).map(([name, value]) => `${name}=${value}`),
      fc.constantFrom('', 'utm_source=a', 'fbclid=b', '=', '?utm_term=1'),
    ),
    { maxLength: 5 },
  )
  const address = fc
    .record({
      scheme: fc.constantFrom('http', 'https', 'HTTP'),
      host: fc.constantFrom('example.org', 'Example.ORG.', '192.0.2.1', '[2001:db8::1]', 'a.b.example.org'),
      port: fc.constantFrom('', ':80', ':443', ':8080'),
      path: fc.webPath(),
      query,
      hash: fc.constantFrom('', '#', '#a', '#!a', '#!', '#/a', '#?utm_source=1', '#!/a?utm_source=1'),
    })
    .map((one) => ({ ...one, start: `${one.scheme}://${one.host}${one.port}${one.path}` }))

  it('is its own key', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.webUrl({ withFragments: true, withQueryParameters: true }),
          address.map(({ start, query, hash }) => `${start}?${query.join('&')}${hash}`),
        ),
        (text) => {
          expect(addressKey(addressKey(text))).toBe(addressKey(text))
        },
      ),
      { numRuns: 1000 },
    )
  })

  it('does not change by a tracking parameter at any place', () => {
    const tracking = fc
      .tuple(
        fc.constantFrom('utm_source', 'utm_x', 'gclid', 'mc_eid', '_hsmi', 'oly_anon_id', 'Fbclid'),
        word,
      )
      .map(([name, value]) => `${name}=${value}`)
    fc.assert(
      fc.property(address, tracking, fc.nat(5), ({ start, query, hash }, added, at) => {
        const before = query.length === 0 ? '' : `?${query.join('&')}`
        const more = [...query.slice(0, at), added, ...query.slice(at)]
        expect(addressKey(`${start}?${more.join('&')}${hash}`)).toBe(addressKey(`${start}${before}${hash}`))
      }),
      { numRuns: 1000 },
    )
  })

  it('tells pages apart whose own parameters differ', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), (a, b) => {
        fc.pre(a !== b)
        two(`https://example.org/?utm_source=1&id=${a}`, `https://example.org/?id=${b}&utm_source=1`)
      }),
    )
  })
})
