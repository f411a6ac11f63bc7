/** Moving through a list with keys, as the WAI-ARIA Authoring Practices lay it down. Pure: places in, places out. */

export type Axis = 'vertical' | 'horizontal' | 'both'

/**
 * The place that a key leads to in a list of `count` things, wrapping at the ends; null when the key does not move.
 * @param place from 0; -1 when none is chosen yet
 */
export function nextPlace(key: string, place: number, count: number, axis: Axis): number | null {
  if (count === 0) return null
  if (key === 'Home') return 0
  if (key === 'End') return count - 1
  const step = stepOf(key, axis)
  if (step === 0) return null
  if (place < 0) return step > 0 ? 0 : count - 1
  return (place + step + count) % count
}

function stepOf(key: string, axis: Axis): -1 | 0 | 1 {
  if (axis !== 'horizontal' && key === 'ArrowDown') return 1
  if (axis !== 'horizontal' && key === 'ArrowUp') return -1
  if (axis !== 'vertical' && key === 'ArrowRight') return 1
  if (axis !== 'vertical' && key === 'ArrowLeft') return -1
  return 0
}

/**
 * The place of the first word at or after the present one that begins with what was typed, wrapping round; null when
 * there is none. One letter typed again and again walks through the words that begin with it.
 */
export function placeOfTyped(typed: string, words: readonly string[], place: number): number | null {
  const letters = [...typed.toLocaleLowerCase()]
  if (letters.length === 0 || words.length === 0) return null
  const isOneLetter = letters.every((letter) => letter === letters[0])
  const wanted = isOneLetter ? letters[0]! : letters.join('')
  const first = Math.max(0, isOneLetter ? place + 1 : place)
  for (let step = 0; step < words.length; step += 1) {
    const at = (first + step) % words.length
    if (words[at]!.toLocaleLowerCase().startsWith(wanted)) return at
  }
  return null
}
