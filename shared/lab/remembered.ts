/**
 * What was read out of texts and is kept so that it need not be read again. What is kept by a text keeps the text: so all of
 * it is forgotten when something is struck out.
 */

const all = new Set<Map<string, unknown>>()

/**
 * A function that reads each text once. @param most so many answers are kept; then it begins anew
 * @param keyOf equal for arguments that have one answer
 */
export function remembered<A extends readonly unknown[], V>(
  most: number,
  keyOf: (...of: A) => string,
  read: (...of: A) => V,
): (...of: A) => V {
  const known = new Map<string, { readonly value: V }>()
  all.add(known)
  return (...of) => {
    const key = keyOf(...of)
    const before = known.get(key)
    if (before) return before.value
    const value = read(...of)
    if (known.size >= most) known.clear()
    known.set(key, { value })
    return value
  }
}

/** Forgets everything that is kept by its text. */
export function forgetRemembered(): void {
  for (const known of all) known.clear()
}
