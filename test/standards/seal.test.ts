import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonicalJson, sha256Of, toHex, toUtf8, type Json } from '../../shared/journal/seal/canonical.ts'

const standards = process.env.STANDARDS_DIR ?? join(process.cwd(), '../shared/standards')

/** Vectors of RFC 8785, cyberphone/json-canonicalization (Apache-2.0), testdata/. */
const jcs = join(standards, 'jcs')
const names = ['arrays', 'french', 'structures', 'unicode', 'values', 'weird']
const read = (...path: string[]): string => readFileSync(join(jcs, ...path), 'utf8')

describe.skipIf(!existsSync(jcs))('canonical JSON against the vectors of RFC 8785', () => {
  it.each(names)('writes %s byte for byte', (name) => {
    const canonical = canonicalJson(JSON.parse(read('input', `${name}.json`)) as Json)
    expect(canonical).toBe(read('output', `${name}.json`))
    expect(toHex(toUtf8(canonical))).toBe(read('outhex', `${name}.txt`).replace(/\s+/g, ''))
  })
})

describe('canonical JSON', () => {
  /** RFC 8785, appendix B: IEEE 754 bits and their text. */
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
  ])('writes the number with the bits %s as %s', (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toBe(text)
  })

  it.each([NaN, Infinity, -Infinity, '\ud800', 'a\udead', { '\ud834': 1 }, ['\\\ud800']])(
    'refuses what RFC 8785 has no form for: %o',
    (value) => {
      expect(() => canonicalJson(value as Json)).toThrow(RangeError)
    },
  )

  it('takes a backslash before what looks like an escape', () => {
    expect(canonicalJson(['\\ud800', '\\\\udead', '\ud834\udd1e'])).toBe('["\\\\ud800","\\\\\\\\udead","𝄞"]')
  })

  it('is read back as the same value, and does not hang on the order of names', () => {
    fc.assert(
      fc.property(fc.jsonValue({ noUnicodeString: false }), (value) => {
        const canonical = canonicalJson(value as Json)
        expect(JSON.parse(canonical)).toEqual(JSON.parse(JSON.stringify(value)))
        expect(canonicalJson(reversed(value) as Json)).toBe(canonical)
      }),
    )
  })
})

function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([name, item]) => [name, reversed(item)]),
  )
}

interface Message {
  readonly bits: number
  readonly bytes: Uint8Array
  readonly digest: string
}

/** Messages of a response file of the NIST Secure Hash Algorithm Validation System, CAVS 11.0. */
function messagesOf(name: string): Message[] {
  const path = join(standards, 'sha256', name)
  const pattern = /Len = (\d+)\s+Msg = ([0-9a-f]+)\s+MD = ([0-9a-f]+)/g
  return Array.from(readFileSync(path, 'utf8').matchAll(pattern), ([, bits, hex, digest]) => ({
    bits: Number(bits),
    bytes: Buffer.from(hex!, 'hex').subarray(0, Number(bits) / 8),
    digest: digest!,
  }))
}

describe('SHA-256 against NIST CAVS 11.0', () => {
  const counts = [
    ['SHA256ShortMsg.rsp', 65],
    ['SHA256LongMsg.rsp', 64],
  ] as const
  it.skipIf(!existsSync(join(standards, 'sha256'))).each(counts)(
    'gives every digest of %s',
    (name, count) => {
      const messages = messagesOf(name)
      expect(messages).toHaveLength(count)
      for (const { bytes, digest } of messages) expect(sha256Of(bytes)).toBe(digest)
    },
  )

  /** FIPS 180-2, appendix B. */
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('gives the digests of FIPS 180-2', (text, digest) => {
    expect(sha256Of(text)).toBe(digest)
  })

  it('agrees with OpenSSL on any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        expect(sha256Of(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'))
      }),
    )
  })
})
