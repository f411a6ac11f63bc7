/** Drawing by a fixed seed, so that every run draws the same. */

/** Numbers from 0 to below 1 (the 32-bit generator of George Marsaglia's "Xorshift RNGs", 2003). */
export function seededNumbers(seed: number): () => number {
  let state = seed >>> 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    state >>>= 0
    return state / 2 ** 32
  }
}

/** So many of the things, in the order in which they were drawn; all of them where there are fewer. */
export function draw<T>(things: readonly T[], count: number, next: () => number): T[] {
  const left = [...things]
  const drawn: T[] = []
  while (drawn.length < count && left.length > 0)
    drawn.push(...left.splice(Math.floor(next() * left.length), 1))
  return drawn
}
