/** Characters that may not stand in a capture's text. */

export interface CleanText {
  readonly text: string
  readonly notes: readonly string[]
}

const count = (text: string, pattern: RegExp): number => text.match(pattern)?.length ?? 0

/**
 * A text with line ends `\n`, with U+0000 replaced by U+FFFD (CommonMark 0.31.2 §2.3) and well-formed.
 * The notes say what was replaced; other line ends are not worth a word.
 */
export function toCleanText(text: string): CleanText {
  const nuls = count(text, /\0/gu)
  const lone = count(text, /\p{Surrogate}/gu)
  const notes: string[] = []
  if (nuls > 0)
    notes.push(`${nuls === 1 ? 'One zero byte was' : `${nuls} zero bytes were`} replaced by the sign \ufffd.`)
  if (lone > 0)
    notes.push(
      `${lone === 1 ? 'One broken character was' : `${lone} broken characters were`} replaced by the sign \ufffd.`,
    )
  const clean = text
    .replace(/^\ufeff/u, '')
    .replace(/\r\n?/gu, '\n')
    .replace(/\0|\p{Surrogate}/gu, '\ufffd')
  return { text: clean, notes }
}
