import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { maybeMisleading, showAddress } from '../../../../shared/sources/shown-address.ts'

describe('showAddress', () => {
  it('shows the whole address in three pieces, its host in the middle', () => {
    expect(showAddress('https://Mast.example.org:8443/a?b#c')).toMatchObject({
      before: 'https://',
      host: 'mast.example.org',
      after: ':8443/a?b#c',
      isWeb: true,
      isForeign: false,
    })
  })

  it('takes a name before the host for no host', () => {
    const { before, host } = showAddress('https://bank.example.com@192.0.2.7/x')
    expect([before, host]).toEqual(['https://bank.example.com@', '192.0.2.7'])
  })

  it('shows a host of other letters as the network has it, and as it was written', () => {
    expect(showAddress('https://bücher.example.org/x')).toMatchObject({
      host: 'xn--bcher-kva.example.org',
      hostAsWritten: 'bücher.example.org',
      isForeign: true,
    })
    expect(showAddress('https://xn--bcher-kva.example.org/')).toMatchObject({
      hostAsWritten: null,
      isForeign: true,
    })
  })

  it('opens only http and https', () => {
    for (const one of ['mailto:a@example.org', 'javascript:alert(1)', 'file:///etc/passwd', 'nothing', ''])
      expect(showAddress(one).isWeb).toBe(false)
  })

  it('never loses a sign of the address', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.webUrl({ withFragments: true, withQueryParameters: true }), fc.string()),
        (text) => {
          const { address, before, host, after } = showAddress(text)
          expect(before + host + after).toBe(address)
        },
      ),
    )
  })
})

describe('maybeMisleading', () => {
  it('warns where the words are an address of another host', () => {
    expect(maybeMisleading('https://mast.example.org/', 'https://evil.example.com/')).toContain(
      'mast.example.org',
    )
    expect(maybeMisleading('mast.example.org', 'https://evil.example.com/x')).toContain('evil.example.com')
    expect(maybeMisleading('www.example.org/login', 'http://192.0.2.9/login')).toContain('192.0.2.9')
  })

  it('warns where they are an address of another page', () => {
    expect(maybeMisleading('https://example.org/a', 'https://example.org/b')).toContain('another page')
  })

  it('is silent about the same address, a cut one, other words and names of files', () => {
    for (const [words, address] of [
      ['https://example.org/a', 'https://example.org/a'],
      ['http://www.example.org', 'https://example.org/'],
      ['https://example.org/very/lo…', 'https://example.org/very/long/path'],
      ['the table', 'https://example.org/t'],
      ['install.sh', 'https://git.example.org/raw/install.sh'],
      ['notes.md', 'https://example.org/other'],
      ['3.5', 'https://example.org/'],
    ] as const)
      expect(maybeMisleading(words, address)).toBeNull()
  })
})
