/** The reader that the test of rewriting looks into packed blocks with, against the published descriptions of the formats. */
import { describe, expect, it } from 'vitest'
import { entriesOf, logRecords } from '../support/leveldb/files.ts'
import { unsnappy } from '../support/leveldb/snappy.ts'

const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1')

// github.com/google/snappy/blob/main/format_description.txt
describe('Snappy', () => {
  it('reads a literal, and a length of more than 60 in the bytes behind the tag', () => {
    expect(text(unsnappy(Buffer.from([5, 4 << 2, ...Buffer.from('hello')])))).toBe('hello')
    const long = 'x'.repeat(300)
    expect(text(unsnappy(Buffer.from([0xac, 2, 61 << 2, 0x2b, 1, ...Buffer.from(long)])))).toBe(long)
  })

  it('reads copies of one, two and four bytes of offset, and one that reaches into itself', () => {
    // The description's own example: "xababab" is the literal "xab" and a copy of offset 2 and length 4.
    expect(text(unsnappy(Buffer.from([7, 2 << 2, ...Buffer.from('xab'), 1, 2])))).toBe('xababab')
    expect(text(unsnappy(Buffer.from([7, 2 << 2, ...Buffer.from('xab'), 2 | (3 << 2), 2, 0])))).toBe(
      'xababab',
    )
    expect(text(unsnappy(Buffer.from([7, 2 << 2, ...Buffer.from('xab'), 3 | (3 << 2), 2, 0, 0, 0])))).toBe(
      'xababab',
    )
  })

  it('refuses what ends early or points before the start', () => {
    expect(() => unsnappy(Buffer.from([5, 4 << 2, 104]))).toThrow(RangeError)
    expect(() => unsnappy(Buffer.from([4, 1, 9]))).toThrow(RangeError)
  })
})

// github.com/google/leveldb/blob/main/doc/log_format.md: its example of records A, B and C.
describe('a LevelDB log', () => {
  it('gives records that lie across blocks back whole', () => {
    const piece = (type: number, bytes: Buffer): Buffer =>
      Buffer.concat([Buffer.from([0, 0, 0, 0, bytes.length & 255, bytes.length >> 8, type]), bytes])
    const [a, b, c] = [Buffer.alloc(1000, 'A'), Buffer.alloc(97270, 'B'), Buffer.alloc(8000, 'C')]
    const file = Buffer.concat([
      piece(1, a),
      piece(2, b.subarray(0, 31754)),
      piece(3, b.subarray(31754, 31754 + 32761)),
      piece(4, b.subarray(31754 + 32761)),
      Buffer.alloc(6),
      piece(1, c),
    ])
    expect(logRecords(file).map((record) => text(record))).toEqual([a, b, c].map(text))
  })
})

// github.com/google/leveldb/blob/main/doc/table_format.md and table/block_builder.cc
describe('a block of a LevelDB table', () => {
  it('gives keys back whole that share a beginning', () => {
    const block = Buffer.from([
      ...[0, 5, 2, ...Buffer.from('mast1'), ...Buffer.from('up')],
      ...[4, 1, 4, ...Buffer.from('2'), ...Buffer.from('down')],
      ...[0, 0, 0, 0, 1, 0, 0, 0],
    ])
    expect(entriesOf(block).map(({ key, value }) => [text(key), text(value)])).toEqual([
      ['mast1', 'up'],
      ['mast2', 'down'],
    ])
  })
})
