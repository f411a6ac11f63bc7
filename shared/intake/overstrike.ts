/** Text as it was made for printers and terminals: bold and underline by backspaces, or by control sequences. */

const escape = String.fromCharCode(0x1b)
const bell = String.fromCharCode(0x07)
/** ECMA-48 §5.4: CSI, parameters, intermediates, final; and strings such as OSC, ended by ST or (xterm) by BEL. */
const sequences = new RegExp(
  [
    `${escape}\\[[0-?]*[ -/]*[@-~]`,
    `${escape}[\\]PX^_][^${escape}${bell}]*(?:${bell}|${escape}\\\\)`,
    `${escape}[ -/]*[0-Z\\\\^-~]`,
  ].join('|'),
  'gu',
)

/** A text without control sequences; what they coloured or linked stays. */
export function withoutSequences(text: string): string {
  return text.includes(escape) ? text.replace(sequences, '') : text
}

const wide =
  /[\u1100-\u115f\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303e\uff01-\uff60\uffe0-\uffe6]/u
const combining = /\p{Mn}|\p{Me}|\u200d/u

interface Sign {
  text: string
  readonly width: number
}

/**
 * The letters that are read where letters were struck over each other (grotty(1), `-c`): `x BS x` is a bold x and
 * `_ BS x` an underlined one. The last sign at a place counts, as with `col -b`, but an underscore never covers a letter.
 */
export function withoutOverstrikes(text: string): string {
  if (!text.includes('\b')) return text
  return text
    .split('\n')
    .map((line) => (line.includes('\b') ? readLine(line) : line))
    .join('\n')
}

function readLine(line: string): string {
  const signs: Sign[] = []
  let at = 0
  let cellsBack = 0
  for (const text of line) {
    if (text === '\b') {
      if (at === 0) continue
      // A wide sign takes two cells, and as many backspaces lead back over it.
      cellsBack += 1
      if (cellsBack < signs[at - 1]!.width) continue
      at -= 1
      cellsBack = 0
      continue
    }
    cellsBack = 0
    const last = signs[at - 1]
    if (combining.test(text) && last) {
      if (!last.text.includes(text)) last.text += text
      continue
    }
    const before = signs[at]
    const isUnderline = text === '_' && before !== undefined && before.text !== ' '
    if (!isUnderline) place(signs, at, { text, width: wide.test(text) ? 2 : 1 })
    at += 1
  }
  return signs.map((sign) => sign.text).join('')
}

/** Two underscores stand under one wide sign. */
function place(signs: Sign[], at: number, sign: Sign): void {
  const isOverTwo = sign.width === 2 && signs[at]?.text === '_' && signs[at + 1]?.text === '_'
  signs.splice(at, isOverTwo ? 2 : 1, sign)
}

/** Both: what a person reads of a text that was made for a terminal. */
export function toReadText(text: string): string {
  return withoutOverstrikes(withoutSequences(text))
}
