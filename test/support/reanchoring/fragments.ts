/** Fragments of a text as a person might carry them: words, lines, code blocks, paragraphs. Drawn by a fixed seed. */
import type { Range } from '../../../shared/lab/model.ts'
import { occurrencesOf } from '../../../shared/provenance/selectors.ts'
import { seededNumbers } from '../drawing.ts'
import type { Half, TextPair } from './texts.ts'

export const fragmentKinds = ['words', 'part of a line', 'line', 'lines', 'code block', 'paragraph', 'paragraphs'] as const // prettier-ignore
export type FragmentKind = (typeof fragmentKinds)[number]

export interface Fragment extends Range {
  readonly pair: TextPair
  readonly kind: FragmentKind
}

/** Tries for each kind in each pair, and how many of them count at most. */
const MOST_TRIES = 1500
const MOST_COUNTED = 40
/** A fragment is not longer than this, in UTF-16 code units: a few pages of print. */
const LONGEST = 6000

/**
 * Fragments of one half of a pair that do not occur exactly once in the newer text: those that do prove nothing.
 * Each place once.
 */
export function drawFragments(pair: TextPair, half: Half, seed = 20270107): Fragment[] {
  const next = seededNumbers(seed)
  const pieces = piecesOf(pair.older)
  return fragmentKinds.flatMap((kind) => {
    const drawn = new Map<string, Fragment>()
    for (let tries = 0; tries < MOST_TRIES && drawn.size < MOST_COUNTED; tries++) {
      const range = drawOne(kind, pair.older, pieces, next)
      if (!range || range.end - range.start > LONGEST || pair.halfAt(range.start) !== half) continue
      if (occurrencesOf(pair.newer, pair.older.slice(range.start, range.end), 2).length === 1) continue
      drawn.set(`${range.start}-${range.end}`, { ...range, pair, kind })
    }
    return [...drawn.values()]
  })
}

interface Pieces {
  readonly words: readonly Range[]
  readonly lines: readonly Range[]
  readonly codeBlocks: readonly Range[]
  readonly paragraphs: readonly Range[]
}

function piecesOf(text: string): Pieces {
  return {
    words: rangesOf(text, /\S+/gu),
    lines: rangesOf(text, /^.*\S.*$/gmu),
    codeBlocks: [
      ...rangesOf(text, /^(`{3,})[^\n]*\n[^]*?\n\1[^\n]*$/gmu),
      ...rangesOf(text, /(?<=\n\n)(?: {4}.*\n)+/gu),
    ],
    paragraphs: rangesOf(text, /(?:^.*\S.*$\n?)+/gmu),
  }
}

/** Without the line end behind. */
function rangesOf(text: string, pattern: RegExp): Range[] {
  return [...text.matchAll(pattern)].map(({ index, 0: found }) => ({
    start: index,
    end: index + found.trimEnd().length,
  }))
}

function drawOne(kind: FragmentKind, text: string, pieces: Pieces, next: () => number): Range | null {
  switch (kind) {
    case 'words':
      return drawRun(pieces.words, 1, 5, next)
    case 'part of a line': {
      const line = drawRun(pieces.lines, 1, 1, next)
      if (!line || line.end - line.start < 12) return null
      const length = 8 + Math.floor(next() * (line.end - line.start - 8))
      const start = line.start + Math.floor(next() * (line.end - line.start - length))
      return trimmed(text, { start, end: start + length })
    }
    case 'line':
      return drawRun(pieces.lines, 1, 1, next)
    case 'lines':
      return drawRun(pieces.lines, 2, 6, next)
    case 'code block':
      return drawRun(pieces.codeBlocks, 1, 1, next)
    case 'paragraph':
      return drawRun(pieces.paragraphs, 1, 1, next)
    case 'paragraphs':
      return drawRun(pieces.paragraphs, 2, 8, next)
  }
}

/** From the start of one piece to the end of the so-manieth one from there. */
function drawRun(pieces: readonly Range[], least: number, most: number, next: () => number): Range | null {
  const first = Math.floor(next() * pieces.length)
  const count = least + Math.floor(next() * (most - least + 1))
  const last = pieces[first + count - 1]
  return last ? { start: pieces[first]!.start, end: last.end } : null
}

function trimmed(text: string, { start, end }: Range): Range | null {
  const words = text.slice(start, end)
  const from = start + words.length - words.trimStart().length
  const to = end - (words.length - words.trimEnd().length)
  return from < to ? { start: from, end: to } : null
}
