/** Snappy, the raw format: github.com/google/snappy/blob/main/format_description.txt. */
import { readVarint } from './varint.ts'

/** Unpacks one Snappy stream. Bytes behind its end are not looked at. @throws RangeError where it is none */
export function unsnappy(bytes: Uint8Array, most = 64 * 1024 * 1024): Uint8Array {
  const [length, start] = readVarint(bytes, 0)
  if (length > most) throw new RangeError('the stream claims too much')
  const out = new Uint8Array(length)
  let at = start
  let done = 0
  const byte = (): number => {
    if (at >= bytes.length) throw new RangeError('the stream ends early')
    return bytes[at++]!
  }
  const little = (count: number): number => {
    let value = 0
    for (let i = 0; i < count; i++) value += byte() * 2 ** (8 * i)
    return value
  }
  while (done < length) {
    const tag = byte()
    const kind = tag & 3
    if (kind === 0) {
      const short = tag >> 2
      const count = (short < 60 ? short : little(short - 59)) + 1
      if (done + count > length || at + count > bytes.length) throw new RangeError('a literal is too long')
      out.set(bytes.subarray(at, at + count), done)
      at += count
      done += count
      continue
    }
    const count = kind === 1 ? ((tag >> 2) & 7) + 4 : (tag >> 2) + 1
    const back = kind === 1 ? ((tag >> 5) << 8) + byte() : little(kind === 2 ? 2 : 4)
    if (back === 0 || back > done || done + count > length) throw new RangeError('a copy leads nowhere')
    // Byte by byte: a copy may reach into what it is writing.
    for (let i = 0; i < count; i++) out[done + i] = out[done - back + i]!
    done += count
  }
  return out
}
