/** Sets of documents by number, one bit each. */
export type Bits = Uint8Array

export function noBits(length: number): Bits {
  return new Uint8Array((length + 7) >> 3)
}

export function allBits(length: number): Bits {
  return new Uint8Array((length + 7) >> 3).fill(0xff)
}

export function hasBit(bits: Bits, at: number): boolean {
  return (bits[at >> 3]! & (1 << (at & 7))) !== 0
}

export function setBit(bits: Bits, at: number): void {
  bits[at >> 3]! |= 1 << (at & 7)
}

/** Leaves in `bits` what the other has as well. */
export function keepCommon(bits: Bits, other: Bits): void {
  for (let at = 0; at < bits.length; at++) bits[at]! &= other[at]!
}

/** Takes out of `bits` what the other has. */
export function takeOut(bits: Bits, other: Bits): void {
  for (let at = 0; at < bits.length; at++) bits[at]! &= ~other[at]!
}
