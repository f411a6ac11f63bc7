/** Base-128 numbers, the lowest seven bits first. @returns the value and where the next byte stands */
export function readVarint(bytes: Uint8Array, start: number): [value: number, next: number] {
  let value = 0
  for (let i = 0; i < 10; i++) {
    const byte = bytes[start + i]
    if (byte === undefined) throw new RangeError('a number ends early')
    value += (byte & 127) * 2 ** (7 * i)
    if (byte < 128) return [value, start + i + 1]
  }
  throw new RangeError('a number is too long')
}
