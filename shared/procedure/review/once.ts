/** Remembers what was made of a value for as long as somebody holds the value. */
export function once<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, { readonly made: V }>()
  return (key) => {
    const before = known.get(key)
    if (before) return before.made
    const made = make(key)
    known.set(key, { made })
    return made
  }
}
