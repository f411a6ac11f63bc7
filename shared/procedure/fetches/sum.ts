/** A SHA-256 (FIPS 180-4) as a person types or pastes it. */

/** What was read of what was typed. `name` is the file that a pasted line is about; null where it says none. */
export type TypedSum =
  | { readonly ok: true; readonly sha256: string | null; readonly name: string | null }
  | { readonly ok: false; readonly sentence: string }

const DIGITS = 64

/** Sums of other lengths that a person may have copied in its place. */
const otherSums: Readonly<Record<number, string>> = {
  32: 'an MD5',
  40: 'a SHA-1',
  56: 'a SHA-224',
  96: 'a SHA-384',
  128: 'a SHA-512',
}

/**
 * Reads 64 hexadecimal digits in either case, or a line of sums as `sha256sum` writes it (GNU coreutils: the sum, a blank,
 * a blank or `*`, the name; a `\` first where the name is escaped), also in its form with `--tag`. Nothing typed is no sum.
 */
export function readSum(typed: string): TypedSum {
  const text = typed.trim()
  if (text === '') return { ok: true, sha256: null, name: null }
  if (/\n/u.test(text))
    return { ok: false, sentence: 'These are several lines. Paste the line of this file alone.' }
  const tagged = /^(\\?)SHA(?:2-)?256 ?\((.*)\) ?= ?(\S*)$/u.exec(text)
  if (tagged) return checked(tagged[3]!, unescaped(tagged[2]!, tagged[1] === '\\'))
  const line = /^(\\?)([0-9A-Fa-f]+)[ \t]+\*?(.+)$/u.exec(text)
  if (line && line[2]!.length >= 32) return checked(line[2]!, unescaped(line[3]!, line[1] === '\\'))
  return checked(text.replace(/^sha256[:-]/iu, ''), null)
}

function checked(digits: string, name: string | null): TypedSum {
  const wrong = /[^0-9A-Fa-f]/u.exec(digits)?.[0]
  if (wrong !== undefined) {
    const shown = /\s/u.test(wrong)
      ? 'A blank'
      : `“${String.fromCodePoint(digits.codePointAt(digits.search(/[^0-9A-Fa-f]/u))!)}”`
    return { ok: false, sentence: `${shown} is no hexadecimal digit: 0 to 9 and a to f are.` }
  }
  if (digits.length !== DIGITS) return { ok: false, sentence: wordsOfLength(digits.length) }
  return { ok: true, sha256: digits.toLowerCase(), name }
}

function wordsOfLength(count: number): string {
  const other = otherSums[count]
  if (other !== undefined) return `${count} digits are ${other}. A SHA-256 has ${DIGITS}.`
  return `${count === 1 ? 'This is 1 digit' : `These are ${count} digits`}. A SHA-256 has ${DIGITS}.`
}

/** Coreutils writes `\\`, `\n` and `\r` for a backslash and the ends of lines within a name. */
function unescaped(name: string, isEscaped: boolean): string {
  if (!isEscaped) return name
  return name.replace(/\\([\\nr])/gu, (_, sign: string) => ({ n: '\n', r: '\r' })[sign] ?? '\\')
}

/** A line that `sha256sum -c` accepts. */
export function sumLine(sha256: string, name: string): string {
  const isEscaped = /[\\\n\r]/u.test(name)
  const written = name.replaceAll('\\', '\\\\').replaceAll('\n', '\\n').replaceAll('\r', '\\r')
  return `${isEscaped ? '\\' : ''}${sha256}  ${written}\n`
}
