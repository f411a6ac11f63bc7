/** Bytes put behind one another. */
export function joinBytes(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0))
  let at = 0
  for (const part of parts) {
    all.set(part, at)
    at += part.length
  }
  return all
}

/** Says whether these Latin-1 characters stand at that place. */
export function hasSigns(bytes: Uint8Array, at: number, signs: string): boolean {
  for (let i = 0; i < signs.length; i += 1) if (bytes[at + i] !== signs.charCodeAt(i)) return false
  return true
}
