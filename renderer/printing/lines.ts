/** The lines of a command for paper. Pure. */
import { signsIn } from '../../shared/procedure/values/placeholders.ts'

/** A piece of a word: letters, or the placeholder of a parameter. */
export type WordPiece =
  { readonly kind: 'text'; readonly text: string } | { readonly kind: 'placeholder'; readonly name: string }

/** A line is blanks and words in turn. A row of paper ends at blanks, and within a word only where that is longer than a row. */
export type LineRun =
  | { readonly kind: 'blanks'; readonly text: string }
  | { readonly kind: 'word'; readonly pieces: readonly WordPiece[] }

/** The lines of a block with its placeholders set apart; a doubled sign is one. The last line end begins no line. */
export function linesOf(source: string): LineRun[][] {
  return source
    .replace(/\n$/u, '')
    .split('\n')
    .map((line) => runsOf(piecesOf(line)))
}

/** A text with its placeholders set apart. */
export function piecesOf(line: string): WordPiece[] {
  const pieces: WordPiece[] = []
  let at = 0
  const take = (end: number): void => {
    if (end > at) pieces.push({ kind: 'text', text: line.slice(at, end) })
  }
  for (const { start, end, name } of signsIn(line)) {
    // A doubled sign stands for one.
    take(name === null ? start + 1 : start)
    if (name !== null) pieces.push({ kind: 'placeholder', name })
    at = end
  }
  take(line.length)
  return pieces
}

function runsOf(pieces: readonly WordPiece[]): LineRun[] {
  const runs: LineRun[] = []
  let word: WordPiece[] = []
  const endWord = (): void => {
    if (word.length > 0) runs.push({ kind: 'word', pieces: word })
    word = []
  }
  for (const piece of pieces) {
    if (piece.kind === 'placeholder') {
      word.push(piece)
      continue
    }
    for (const text of piece.text.match(/[ \t]+|[^ \t]+/gu) ?? []) {
      if (!/^[ \t]/u.test(text)) {
        word.push({ kind: 'text', text })
        continue
      }
      endWord()
      runs.push({ kind: 'blanks', text })
    }
  }
  endWord()
  return runs
}

/** Stand at the end of a row whose line goes on in the next one: behind blanks, or within a word. */
export const AFTER_BLANK = '\u2423\u21a9'
export const WITHIN_WORD = '\u21a9'

/** A word that takes more than one row: its first row within its line, and how many it takes. */
export interface LongWord {
  readonly first: number
  readonly rows: number
}

/** The sign of each row of a line but the last. */
export function signsOfRows(rows: number, long: readonly LongWord[]): string[] {
  return Array.from({ length: Math.max(0, rows - 1) }, (_, row) =>
    long.some((word) => row >= word.first && row < word.first + word.rows - 1) ? WITHIN_WORD : AFTER_BLANK,
  )
}
