/**
 * What the files of a LevelDB hold, unpacked, as far as is needed to search them: tables (`.ldb`,
 * github.com/google/leveldb/blob/main/doc/table_format.md) and logs (`.log`, doc/log_format.md).
 */
import { unsnappy } from './snappy.ts'
import { readVarint } from './varint.ts'

const MAGIC = [0x57, 0xfb, 0x80, 0x8b, 0x24, 0x75, 0x47, 0xdb]
const FOOTER = 48
const TRAILER_TYPES = { plain: 0, snappy: 1 } as const

/** A block's content, and whether it was packed. */
export interface TableBlock {
  readonly bytes: Uint8Array
  readonly isPacked: boolean
}

export function isTable(file: Uint8Array): boolean {
  return file.length >= FOOTER && MAGIC.every((byte, i) => file[file.length - 8 + i] === byte)
}

/** Every data block of a table. @throws where it is none */
export function tableBlocks(file: Uint8Array): TableBlock[] {
  if (!isTable(file)) throw new Error('this is no table')
  const footer = file.subarray(file.length - FOOTER)
  const [, afterOffset] = readVarint(footer, 0)
  const [, afterMeta] = readVarint(footer, afterOffset)
  const index = readBlock(file, footer, afterMeta)
  return entriesOf(index.bytes).map(({ value }) => readBlock(file, value, 0))
}

/** The block that a handle (offset and size) at `at` names. */
function readBlock(file: Uint8Array, handle: Uint8Array, at: number): TableBlock {
  const [offset, next] = readVarint(handle, at)
  const [size] = readVarint(handle, next)
  const bytes = file.subarray(offset, offset + size)
  const type = file[offset + size]
  if (type === TRAILER_TYPES.plain) return { bytes, isPacked: false }
  if (type === TRAILER_TYPES.snappy) return { bytes: unsnappy(bytes), isPacked: true }
  throw new Error(`a block is packed in another way: ${type}`)
}

/** The records of a block; a key repeats only what differs from the one before. */
export function entriesOf(block: Uint8Array): { key: Uint8Array; value: Uint8Array }[] {
  const view = new DataView(block.buffer, block.byteOffset, block.byteLength)
  const restarts = view.getUint32(block.length - 4, true)
  const end = block.length - 4 - 4 * restarts
  const entries: { key: Uint8Array; value: Uint8Array }[] = []
  let before = new Uint8Array()
  for (let at = 0; at < end;) {
    const [shared, second] = readVarint(block, at)
    const [own, third] = readVarint(block, second)
    const [length, start] = readVarint(block, third)
    const key = new Uint8Array(shared + own)
    key.set(before.subarray(0, shared))
    key.set(block.subarray(start, start + own), shared)
    entries.push({ key, value: block.subarray(start + own, start + own + length) })
    before = key
    at = start + own + length
  }
  return entries
}

const LOG_BLOCK = 32768
const LOG_HEADER = 7

/** The records of a log, put together from their pieces. What follows damage in a block is skipped, as a reader does. */
export function logRecords(file: Uint8Array): Uint8Array[] {
  const records: Uint8Array[] = []
  let pieces: Uint8Array[] = []
  for (let block = 0; block < file.length; block += LOG_BLOCK) {
    const end = Math.min(block + LOG_BLOCK, file.length)
    for (let at = block; at + LOG_HEADER <= end;) {
      const length = file[at + 4]! + file[at + 5]! * 256
      const type = file[at + 6]!
      if (type === 0 || at + LOG_HEADER + length > end) break
      // 1 whole, 2 first, 3 middle, 4 last.
      if (type === 1 || type === 2) pieces = []
      pieces.push(file.subarray(at + LOG_HEADER, at + LOG_HEADER + length))
      if (type === 1 || type === 4) records.push(Buffer.concat(pieces.splice(0)))
      at += LOG_HEADER + length
    }
  }
  return pieces.length > 0 ? [...records, Buffer.concat(pieces)] : records
}
