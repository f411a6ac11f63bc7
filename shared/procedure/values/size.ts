/**
 * Sizes: a number and a unit. Prefixes with an i (KiB, MiB) are powers of 1024 (IEC 80000-13), those with B alone (kB, MB) powers
 * of 1000 (SI), and a bare letter (K, M) is a power of 1024, as GNU coreutils read it (“Block size” in their manual).
 */
import { right, wrong, type TypeOfValue, type ValueCheck } from './types.ts'

const letters = 'KMGTPEZY'
const form = /^(\d{1,30})(?:\.(\d{1,10}))? ?(?:([kKMGTPEZY])(iB?|B)?|B|bytes?)?$/

/** The number of bytes; undefined where the text is no size or no whole number of bytes. */
export function maybeBytes(text: string): bigint | undefined {
  const match = form.exec(text)
  if (!match) return undefined
  const [, whole, decimals = '', letter, suffix] = match
  const power = letter === undefined ? 0n : BigInt(letters.indexOf(letter.toUpperCase()) + 1)
  // "k" alone and "Kib" would be guesses; "ki" without B is how some programs write 1024.
  const unit = (suffix === 'B' ? 1000n : 1024n) ** power
  const divisor = 10n ** BigInt(decimals.length)
  const scaled = BigInt(`${whole}${decimals}`) * unit
  return scaled % divisor === 0n ? scaled / divisor : undefined
}

function checkSize(text: string): ValueCheck {
  const match = form.exec(text)
  if (match) {
    if (maybeBytes(text) === undefined)
      return wrong('range', 'This is no whole number of bytes. Take a smaller unit.')
    return right(noteOf(match[3], match[4]))
  }
  if (/^\d+,\d+/.test(text)) {
    const mended = text.replace(',', '.')
    return wrong(
      'form',
      'Write a point before decimals.',
      form.test(mended) ? { text: mended, sentence: 'With a point.' } : null,
    )
  }
  if (/^-/.test(text)) return wrong('range', 'A size is not negative.')
  if (/^[\d.]+ ?[kKMGTPEZY](?:i?b|bit|bits|bps)$/.test(text))
    return wrong('form', 'A small b stands for bits. A size in bytes has a capital B, as in 20 GiB.')
  return wrong('form', 'A size is a number and a unit, as in 20 GiB, 512M or 4096.')
}

function noteOf(letter: string | undefined, suffix: string | undefined): string | null {
  if (letter === undefined) return null
  if (suffix === undefined)
    return `Most commands read ${letter} as a power of 1024, some as a power of 1000. ${letter.toUpperCase()}iB leaves no doubt where the command knows it.`
  if (suffix === 'B')
    return `${letter}B counts in powers of 1000; ${letter.toUpperCase()}iB would be powers of 1024.`
  return null
}

export const size: TypeOfValue = { check: checkSize, canonical: () => null, example: '20 GiB' }
